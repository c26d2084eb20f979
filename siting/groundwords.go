package siting

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// groundWordsWanted lists the ground words, after the one that was most likely
// meant.
func groundWordsWanted(read string) string {
	words := soil.Words()
	quoted := make([]string, len(words))
	near, fewest := "", len(read)/3+1
	for i, w := range words {
		quoted[i] = fmt.Sprintf("%q", w)
		if n := geodata.LettersApart(read, w); n <= fewest {
			near, fewest = quoted[i], n
		}
	}
	want := "write one of " + strings.Join(quoted, ", ")
	if near != "" {
		want = fmt.Sprintf("write %s, or another of %s", near, strings.Join(quoted, ", "))
	}
	return want + ": strengths are known for these alone"
}

// strengthSpread is how far a measured strength may be off, as a part of it: a
// hand vane in topsoil; a default of ours.
const strengthSpread = 0.25

// measured is ground of a word with its undrained strength measured, kPa.
func measured(g soil.Ground, strength float64, faults *geodata.Faults) soil.Ground {
	if !g.Clay {
		faults.Add(geodata.Fault{
			Code: "strength-of-sand", Pos: geodata.Pos{File: "site.toml"}, Read: g.Word,
			Message: "ground.strength_kpa is the undrained strength of clay and topsoil, and this ground holds by friction",
			Want:    "leave it out, or choose a ground word that is no sand",
		})
		return g
	}
	g.Undrained = strength
	g.UndrainedLow, g.UndrainedHigh = strength*(1-strengthSpread), strength*(1+strengthSpread)
	return g
}
