package cli

import "crossfall/geodata"

// writeWeeds are the weeds met in some beds only.
func writeWeeds(t *tomlText, weeds []geodata.WeedMet) {
	t.WriteByte('\n')
	t.remark("A perennial weed met in some beds only: those are covered against it.")
	for _, w := range weeds {
		t.heading("[weeds]")
		t.set("name", tomlString(w.Name), `""`, "")
		t.set("beds", tomlTexts(w.Beds), `[""]`, "")
	}
	if len(weeds) == 0 {
		t.remark("[[weeds]]")
		t.set("name", "", `"bindweed"`, "by common or botanical name")
		t.set("beds", "", `["bed 1", "bed 3"]`, "as they are named on the plan")
	}
}
