package takeoff_test

import (
	"math/rand/v2"
	"testing"

	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leastByCounts is the least number of boards for so many pieces of three lengths,
// by working up every number of each: a board is any set that fits.
func leastByCounts(lengths [3]float64, counts [3]int, stock, kerf float64) int {
	room := stock + kerf
	fits := func(a, b, c int) bool {
		return float64(a)*(lengths[0]+kerf)+float64(b)*(lengths[1]+kerf)+float64(c)*(lengths[2]+kerf) <= room+1e-9
	}
	least := map[[3]int]int{{}: 0}
	for a := 0; a <= counts[0]; a++ {
		for b := 0; b <= counts[1]; b++ {
			for c := 0; c <= counts[2]; c++ {
				if a+b+c == 0 {
					continue
				}
				best := a + b + c
				for i := 0; i <= a; i++ {
					for j := 0; j <= b && fits(i, j, 0); j++ {
						for k := 0; k <= c && fits(i, j, k); k++ {
							if i+j+k > 0 {
								best = min(best, 1+least[[3]int{a - i, b - j, c - k}])
							}
						}
					}
				}
				least[[3]int{a, b, c}] = best
			}
		}
	}
	return least[counts]
}

// Beds alike make many pieces of few lengths: they are proved too.
func TestCuttingManyPiecesOfFewLengths(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 17))
	improved := 0
	for range 60 {
		lengths := [3]float64{float64(1500 + 50*random.IntN(40)), float64(900 + 50*random.IntN(12)), float64(500 + 50*random.IntN(8))}
		counts := [3]int{10 + random.IntN(6), 12 + random.IntN(6), 9 + random.IntN(6)}
		var all []float64
		for i, n := range counts {
			all = append(all, times(n, lengths[i])...)
		}
		require.Greater(t, len(all), 30)
		pieces := piecesOf(all...)
		cuts, proved := takeoff.Cutting(pieces, []float64{3600}, 3)
		require.True(t, proved, "%v %v", lengths, counts)
		require.Len(t, cuts, leastByCounts(lengths, counts, 3600, 3), "%v %v", lengths, counts)
		soundCuts(t, pieces, cuts, 3600, 3)
		if len(cuts) < firstFitDecreasing(all, 3603, 3) {
			improved++
		}
	}
	assert.Positive(t, improved, "some case must need the search")
}

// 24 beds of two lengths: 96 pieces of three kinds.
func BenchmarkCutting96PiecesOf3Lengths(b *testing.B) {
	pieces := piecesOf(join(times(32, 2400), times(16, 1800), times(48, 1106))...)
	for b.Loop() {
		takeoff.Cutting(pieces, []float64{4800}, 3)
	}
}
