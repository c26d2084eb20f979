package geodata

import "strings"

// Nearest is the known word that is most like a text, the first of equals, or
// "" when none is near: at most a third of its letters, and at least one, may
// differ. Upper and lower case count as the same.
func Nearest(text string, known []string) string {
	if len(text) > MostLetters {
		return ""
	}
	text = strings.ToLower(text)
	best, least := "", len(text)
	for _, k := range known {
		lower := strings.ToLower(k)
		if d := LettersApart(text, lower); d < least && d <= max(1, len(lower)/3) {
			best, least = k, d
		}
	}
	return best
}

// LettersApart counts the letters to put in, take out, replace or swap with
// their neighbour to get from a to b (Levenshtein 1966, with the swaps of
// Damerau 1964, each place touched once).
func LettersApart(a, b string) int {
	x, y := []rune(a), []rune(b)
	above, before := make([]int, len(y)+1), make([]int, len(y)+1) // one row up, two rows up
	for j := range above {
		above[j] = j
	}
	for i := range x {
		row := make([]int, len(y)+1)
		row[0] = i + 1
		for j := range y {
			replaced := above[j]
			if x[i] != y[j] {
				replaced++
			}
			row[j+1] = min(replaced, row[j]+1, above[j+1]+1)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, above = above, row
	}
	return above[len(y)]
}
