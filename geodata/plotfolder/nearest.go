package plotfolder

import "strings"

// nearest finds the known word that is most like a text, empty when none is
// near: at most a third of its letters, and at least one, may differ.
func nearest(text string, known []string) string {
	text = strings.ToLower(text)
	best, least := "", len(text)
	for _, k := range known {
		if d := changes(text, k); d < least && d <= max(1, len(k)/3) {
			best, least = k, d
		}
	}
	return best
}

// changes counts the letters to put in, take out or replace to get from a to b
// (Levenshtein's distance).
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// didYouMean is advice for a word that is not known.
func didYouMean(text string, known []string) string {
	if n := nearest(text, known); n != "" {
		return "write " + n
	}
	return "write one of " + strings.Join(known, ", ")
}
