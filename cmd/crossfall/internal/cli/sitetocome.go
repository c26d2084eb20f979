package cli

import (
	"strconv"
	"strings"

	"crossfall/geodata"
)

// writePrices are the prices of what is bought beside boards, pegs and compost.
func writePrices(t *tomlText, p geodata.Prices) {
	t.heading("prices")
	t.set("cardboard_each", tomlNumber(p.Cardboard), "0.50", "a sheet of 0.8 by 1.2 m")
	t.set("screws_each", tomlNumber(p.Screw), "0.12", "")
	t.set("cover_per_m2", tomlNumber(p.Cover), "0.80", "woven ground cover")
	t.set("pins_each", tomlNumber(p.Pin), "0.15", "that hold it")
}

// writeToCome is what tall things are still to come.
func writeToCome(t *tomlText, things []geodata.TallThing) {
	t.WriteByte('\n')
	t.remark("Something tall that is still to come and has no place yet: where it would hardly take sun from the beds.")
	for _, x := range things {
		t.heading("[to_come]")
		t.set("what", tomlString(x.What), `""`, "")
		t.set("height_m", tomlNumber(x.Height), "6", "")
		t.set("width_m", tomlNumber(x.Width), "4", "")
		t.set("evergreen", strconv.FormatBool(x.Evergreen), "", "")
	}
	if len(things) == 0 {
		t.remark("[[to_come]]")
		t.set("what", "", `"tree"`, `or "polytunnel", "shed", ...`)
		t.set("height_m", "", "6", "when it is grown or built")
		t.set("width_m", "", "4", "greatest width over the ground; a tree's is taken from its height if left out")
		t.set("evergreen", "", "true", "of a tree")
	}
}

// tomlTexts is a list of texts; empty when nothing was said.
func tomlTexts(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	quoted := make([]string, len(texts))
	for i, t := range texts {
		if quoted[i] = tomlString(t); t == "" {
			quoted[i] = `""`
		}
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}
