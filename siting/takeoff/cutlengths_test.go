package takeoff_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leastLengthByTrial is the least length of boards of several lengths, and the
// fewest boards of that, by putting each piece into every open board and into a new
// one of every length.
func leastLengthByTrial(lengths, stocks []float64, kerf float64) (metres float64, boards int) {
	best, fewest := math.Inf(1), 0
	var room []float64
	var place func(i int, bought float64)
	place = func(i int, bought float64) {
		if bought > best || bought == best && len(room) >= fewest {
			return
		}
		if i == len(lengths) {
			best, fewest = bought, len(room)
			return
		}
		need := lengths[i] + kerf
		for b := range room {
			if room[b] >= need-1e-9 {
				room[b] -= need
				place(i+1, bought)
				room[b] += need
			}
		}
		for _, s := range stocks {
			if s+kerf >= need {
				room = append(room, s+kerf-need)
				place(i+1, bought+s)
				room = room[:len(room)-1]
			}
		}
	}
	place(0, 0)
	return best, fewest
}

// soundBoards checks that every piece is cut once, from a length on sale that holds
// it, and gives the length bought.
func soundBoards(t require.TestingT, pieces []takeoff.Piece, cuts []takeoff.Cut, stocks []float64, kerf float64) float64 {
	all := 0.0
	left := map[takeoff.Piece]int{}
	for _, p := range pieces {
		left[p]++
	}
	for _, c := range cuts {
		require.Contains(t, stocks, c.Board)
		used := -kerf
		for _, p := range c.Pieces {
			left[p]--
			used += p.Length + kerf
		}
		require.LessOrEqual(t, used, c.Board+1e-6)
		require.InDelta(t, math.Max(0, c.Board-used-kerf), c.Waste, 0.002)
		all += c.Board
	}
	for p, n := range left {
		require.Zero(t, n, "%v", p)
	}
	return all
}

func TestCuttingSeveralLengthsAgainstTrial(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 23))
	stocks := []float64{2400, 3600, 4800}
	mixed := 0
	for range 300 {
		lengths := make([]float64, 2+random.IntN(6))
		for i := range lengths {
			lengths[i] = float64(400 + 50*random.IntN(60))
		}
		pieces := piecesOf(lengths...)
		cuts, proved := takeoff.Cutting(pieces, stocks, 3)
		require.True(t, proved)
		least, fewest := leastLengthByTrial(lengths, stocks, 3)
		require.InDelta(t, least, soundBoards(t, pieces, cuts, stocks, 3), 1e-6, "%v", lengths)
		require.Len(t, cuts, fewest, "%v", lengths)
		if cuts[0].Board != cuts[len(cuts)-1].Board {
			mixed++
		}
	}
	assert.Positive(t, mixed, "some case must need several lengths")
}

// Six sides of 3600 mm and six ends of 1200: no end comes out of the board of a
// side, three do not come out of 3600 mm for the saw cuts, nor four out of 4800, but
// three do out of 4800: 6 x 3.6 + 2 x 4.8 m = 31.2 m, where 3.6 m alone takes 32.4 m
// and 4.8 m alone 38.4 m.
func TestCuttingFromTwoLengths(t *testing.T) {
	pieces := piecesOf(join(times(6, 3600), times(6, 1200))...)
	cuts, proved := takeoff.Cutting(pieces, []float64{4800, 3600}, 3)
	assert.True(t, proved)
	assert.InDelta(t, 31200, soundBoards(t, pieces, cuts, []float64{3600, 4800}, 3), 1e-6)
	boards := map[float64]int{}
	for _, c := range cuts {
		boards[c.Board]++
	}
	assert.Equal(t, map[float64]int{3600: 6, 4800: 2}, boards)
}

// Thirty pieces made by sawing up boards of three lengths without a rest: as much
// board is enough, and no less can be.
func TestCuttingThirtyPiecesOfThreeLengths(t *testing.T) {
	stocks := []float64{3000, 3600, 4800}
	for seed := range uint64(12) {
		random := rand.New(rand.NewPCG(seed, 5))
		var lengths []float64
		all := 0.0
		for i := range 10 {
			s := stocks[i%3]
			a, b := float64(700+random.IntN(500)), float64(700+random.IntN(500))
			lengths, all = append(lengths, a, b, s-6-a-b), all+s
		}
		pieces := piecesOf(lengths...)
		cuts, proved := takeoff.Cutting(pieces, stocks, 3)
		assert.True(t, proved, "seed %d", seed)
		assert.LessOrEqual(t, soundBoards(t, pieces, cuts, stocks, 3), all, "seed %d", seed)
	}
}

func ExampleCutting_severalLengths() {
	pieces := []takeoff.Piece{
		{For: "uphill side", Length: 3600}, {For: "downhill side", Length: 3600},
		{For: "left end", Length: 1150}, {For: "right end", Length: 1150},
	}
	cuts, proved := takeoff.Cutting(pieces, []float64{2.4e3, 3.6e3}, 3)
	for _, c := range cuts {
		fmt.Println(c.Board, c.Pieces, c.Waste)
	}
	fmt.Println(len(cuts), proved)
	// Output:
	// 3600 [{uphill side 3600}] 0
	// 3600 [{downhill side 3600}] 0
	// 2400 [{left end 1150} {right end 1150}] 94
	// 3 true
}

func BenchmarkCuttingThreeLengths(b *testing.B) {
	pieces := piecesOf(join(times(8, 2400), times(7, 1800), times(10, 1150), times(5, 900))...)
	for b.Loop() {
		takeoff.Cutting(pieces, []float64{2400, 3600, 4800}, 3)
	}
}
