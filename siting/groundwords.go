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
