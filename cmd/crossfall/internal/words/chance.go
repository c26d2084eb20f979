package words

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/siting"
)

// chanceSaid is what simulated surfaces say of a bed: how often each edge came
// out, mildest first, and how often runoff crosses it; "" without.
func chanceSaid(b siting.Bed) string {
	var parts []string
	for i, n := range hundreds(b.EdgeChances) {
		c := b.EdgeChances[i]
		said := fmt.Sprintf("%s in %s", c.Class, ofHundred(n, c.Share))
		if i == 0 {
			said += " simulated surfaces"
		}
		parts = append(parts, said)
	}
	out := list(parts)
	if b.PathChance == nil {
		return out
	}
	path := "a drawn runoff path crosses it in " + ofHundred(int(math.Round(100*(*b.PathChance))), *b.PathChance)
	if out == "" {
		return path + " simulated surfaces"
	}
	return out + "; " + path
}

// hundreds rounds shares that make up one to hundredths that make up a hundred:
// those cut off most are rounded up.
func hundreds(chances []siting.ClassChance) []int {
	out := make([]int, len(chances))
	order := make([]int, len(chances))
	left := 100
	for i, c := range chances {
		out[i], order[i] = int(100*c.Share+1e-9), i
		left -= out[i]
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(100*chances[j].Share-float64(out[j]), 100*chances[i].Share-float64(out[i]))
	})
	for _, i := range order[:min(len(order), max(0, left))] {
		out[i]++
	}
	return out
}

// ofHundred is a share as so many of 100; one that is not none or all is never
// said to be.
func ofHundred(n int, share float64) string {
	switch {
	case n == 0 && share > 0:
		return "under 1 of 100"
	case n == 100 && share < 1:
		return "over 99 of 100"
	}
	return fmt.Sprintf("%d of 100", n)
}

// pathChance is how many simulated surfaces bear a runoff path out; "" where
// none were drawn.
func pathChance(p siting.Path) string {
	if p.Share == nil {
		return ""
	}
	return "; borne out by " + ofHundred(int(math.Round(100*(*p.Share))), *p.Share) + " simulated surfaces"
}
