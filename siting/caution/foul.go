package caution

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"crossfall/geodata"
	"crossfall/siting/near"
)

// FoulClearance is kept, m, between a bed and a septic tank, its drains, a
// drainfield, a soakaway or a well, unless the health authority says
// otherwise: default of ours.
const FoulClearance = 3.0

// HeapFromWell is kept between a well and a heap of manure, m (from memory;
// rules run from 10 to 30).
const HeapFromWell = 15.0

var foulWords = []string{"septic", "drainfield", "leachfield", "soakaway", "cesspit", "cesspool"}

// Foul tells whether a fixture keeps FoulClearance, by the words of its "what":
// septic tank, drainfield, leach field, soakaway, cesspit or well. A service
// or no-go area may say so in its name instead, but for "well", which is in
// too many names.
func Foul(f geodata.Fixture) bool {
	if saysFoul(f.What) || isWell(f) {
		return true
	}
	return (f.Kind == geodata.ServiceKind || f.Kind == geodata.NoGoKind) && saysFoul(f.Name)
}

func saysFoul(text string) bool {
	words := wordsOf(text)
	for i, w := range words {
		if i+1 < len(words) && words[i+1] == "field" {
			w += "field" // "drain field", "leach field"
		}
		if slices.Contains(foulWords, strings.TrimSuffix(w, "s")) {
			return true
		}
	}
	return false
}

func isWell(f geodata.Fixture) bool { return slices.Contains(wordsOf(f.What), "well") }

func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// FoulGround checks every bed against what Foul names: within FoulClearance is
// a Stop. A well also brings a Note on manure heaps, once.
func FoulGround(plot *geodata.Plot, works []Work) []Caution {
	var out []Caution
	var foul []geodata.Fixture
	for _, f := range plot.Fixtures {
		if Foul(f) {
			foul = append(foul, f)
		}
	}
	well := false
	sites := prepare(works)
	for _, f := range name(foul) {
		well = well || isWell(f.Fixture)
		shape := near.Of(f.Shape)
		for _, w := range sites {
			parts := append(append([]near.Shape{w.outline}, w.pegs...), w.cuts...)
			d, at := closest(parts, shape)
			if !under(d, FoulClearance) {
				continue
			}
			out = append(out, Caution{
				ID: id("foul-ground", w.Bed, f.key), Severity: Stop, Kind: "drains", Bed: w.Bed, At: &at,
				Text: fmt.Sprintf("%s comes %s %s; keep %s away unless the health authority allows less. Never grow vegetables over a drainfield.",
					w.Bed, howNear(d), f.said, metresUp(FoulClearance)),
				Source: "distance: default of ours; no vegetables over a drainfield: common practice, no source",
			})
		}
	}
	if well {
		out = append(out, Caution{
			ID: "well-and-manure", Severity: Note, Kind: "drains",
			Text:   fmt.Sprintf("Keep heaps of manure and compost %.0f m or more from the well; the local health code rules.", HeapFromWell),
			Source: "from memory of health codes, which run from 10 to 30 m",
		})
	}
	return out
}
