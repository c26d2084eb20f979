package plotfolder

import (
	"strings"

	"crossfall/geodata"
)

// nearest finds the known word that is most like a text, empty when none is.
func nearest(text string, known []string) string { return geodata.Nearest(text, known) }

// didYouMean is advice for a word that is not known.
func didYouMean(text string, known []string) string {
	if n := nearest(text, known); n != "" {
		return "write " + n
	}
	return "write one of " + strings.Join(known, ", ")
}
