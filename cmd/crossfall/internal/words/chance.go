package words

import (
	"fmt"
	"math"

	"crossfall/siting"
)

// chanceSaid is what simulated surfaces say of a bed: how often each edge came
// out, the commonest first named, and how often runoff crosses it; "" without.
func chanceSaid(b siting.Bed) string {
	var parts []string
	for i, c := range b.EdgeChances {
		said := fmt.Sprintf("%s in %s", c.Class, hundredths(c.Share))
		if i == 0 {
			said += " simulated surfaces"
		}
		parts = append(parts, said)
	}
	out := list(parts)
	if b.PathChance == nil {
		return out
	}
	path := "a drawn runoff path crosses it in " + hundredths(*b.PathChance)
	if out == "" {
		return path + " simulated surfaces"
	}
	return out + "; " + path
}

// hundredths is a share as so many of 100; one that is not none or all is never
// said to be.
func hundredths(share float64) string {
	n := int(math.Round(100 * share))
	switch {
	case n == 0 && share > 0:
		return "under 1 of 100"
	case n == 100 && share < 1:
		return "over 99 of 100"
	}
	return fmt.Sprintf("%d of 100", n)
}
