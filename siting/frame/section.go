package frame

import (
	"math"
	"slices"
)

// stackFor chooses boards on sale to stand on one another up to at least the
// needed height: as few as possible, then as low a stack as possible, highest
// board first (it goes to the bottom). heights must not be empty.
func stackFor(heights []float64, needed float64) []float64 {
	offered := slices.Clone(heights)
	slices.Sort(offered)
	slices.Reverse(offered)
	n := max(1, int(math.Ceil(needed/offered[0]-tiny)))
	best := slices.Repeat(offered[:1], n)
	if n > 4 { // a wall of laths: the exact choice no longer matters
		return best
	}
	pick := make([]float64, 0, n)
	var search func(from int, sum float64)
	search = func(from int, sum float64) {
		if len(pick) == n {
			if sum >= needed-tiny && sum < total(best)-tiny {
				best = slices.Clone(pick)
			}
			return
		}
		for i := from; i < len(offered); i++ {
			pick = append(pick, offered[i])
			search(i, sum+offered[i])
			pick = pick[:len(pick)-1]
		}
	}
	search(0, 0)
	return best
}

func total(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum
}
