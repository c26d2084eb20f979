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

func piecesOf(lengths ...float64) []takeoff.Piece {
	out := make([]takeoff.Piece, len(lengths))
	for i, l := range lengths {
		out[i] = takeoff.Piece{For: fmt.Sprintf("piece %d", i+1), Length: l}
	}
	return out
}

func times(n int, length float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = length
	}
	return out
}

func join(parts ...[]float64) []float64 {
	var out []float64
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// soundCuts checks that every piece is cut once, that no board is overfull,
// and that lengths, cuts and waste make up the boards bought.
func soundCuts(t require.TestingT, pieces []takeoff.Piece, cuts []takeoff.Cut, stock, kerf float64) {
	left := map[takeoff.Piece]int{}
	for _, p := range pieces {
		left[p]++
	}
	for _, c := range cuts {
		require.NotEmpty(t, c.Pieces)
		require.InDelta(t, stock, c.Board, 0.001)
		used := -kerf
		for _, p := range c.Pieces {
			left[p]--
			used += p.Length + kerf
		}
		require.LessOrEqual(t, used, stock+1e-6)
		require.InDelta(t, math.Max(0, stock-used-kerf), c.Waste, 0.002)
	}
	for p, n := range left {
		require.Zero(t, n, "%v", p)
	}
}

// Cutting problems whose least numbers were found by exhaustive search.
func TestCuttingLeastNumbers(t *testing.T) {
	mixed := []float64{1950, 1650, 1500, 1450, 1200, 1100, 850, 750}
	cases := []struct {
		name        string
		lengths     []float64
		stock, kerf float64
		want        int
	}{
		{"three beds, no kerf", join(times(6, 3600), times(6, 1200)), 3600, 0, 8},
		// three lengths of 1200 and two cuts do not come out of 3600
		{"three beds, kerf 3", join(times(6, 3600), times(6, 1200)), 3600, 3, 9},
		{"three beds, ends between the sides", join(times(6, 3600), times(6, 1150)), 3600, 3, 8},
		// {1950, 1500} {1650, 1100, 750} {1450, 1200, 850}; first-fit decreasing needs 4
		{"first fit is one over", mixed, 3600, 3, 3},
		{"four lengths", join(times(5, 2400), times(4, 1800), times(6, 1200), times(3, 900)), 4800, 3, 7},
		{"none", nil, 3600, 3, 0},
		{"one, the whole board", []float64{3600}, 3600, 3, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			pieces := piecesOf(c.lengths...)
			cuts, proved := takeoff.Cutting(pieces, []float64{c.stock}, c.kerf)
			assert.Len(t, cuts, c.want)
			assert.True(t, proved)
			soundCuts(t, pieces, cuts, c.stock, c.kerf)
		})
	}
}

// leastByTrial is the least number of boards by putting each piece into every
// open board and into a new one.
func leastByTrial(lengths []float64, stock, kerf float64) int {
	best := len(lengths)
	var room []float64
	var place func(i int)
	place = func(i int) {
		if len(room) >= best && i < len(lengths) || len(room) > best {
			return
		}
		if i == len(lengths) {
			best = len(room)
			return
		}
		need := lengths[i] + kerf
		for b := range room {
			if room[b] >= need-1e-9 {
				room[b] -= need
				place(i + 1)
				room[b] += need
			}
		}
		room = append(room, stock+kerf-need)
		place(i + 1)
		room = room[:len(room)-1]
	}
	place(0)
	return best
}

func TestCuttingAgainstTrial(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	improved := 0
	for range 400 {
		n := 2 + random.IntN(8)
		lengths := make([]float64, n)
		for i := range lengths {
			lengths[i] = float64(400 + 50*random.IntN(40))
		}
		pieces := piecesOf(lengths...)
		cuts, proved := takeoff.Cutting(pieces, []float64{3600}, 3)
		require.True(t, proved)
		require.Len(t, cuts, leastByTrial(lengths, 3600, 3), "%v", lengths)
		soundCuts(t, pieces, cuts, 3600, 3)
		if len(cuts) < firstFitDecreasing(lengths, 3603, 3) {
			improved++
		}
	}
	assert.Positive(t, improved, "some case must need the search")
}

func firstFitDecreasing(lengths []float64, capacity, kerf float64) int {
	sorted := append([]float64(nil), lengths...)
	for i := range sorted {
		for j := i; j > 0 && sorted[j] > sorted[j-1]; j-- {
			sorted[j], sorted[j-1] = sorted[j-1], sorted[j]
		}
	}
	var room []float64
next:
	for _, l := range sorted {
		for b := range room {
			if room[b] >= l+kerf {
				room[b] -= l + kerf
				continue next
			}
		}
		room = append(room, capacity-l-kerf)
	}
	return len(room)
}

// Thirty pieces made by sawing ten whole boards into three each: ten boards
// are enough, whatever first-fit says.
func TestCuttingThirtyPiecesOfTenBoards(t *testing.T) {
	for seed := range uint64(20) {
		lengths := tenBoardsInThree(seed)
		cuts, proved := takeoff.Cutting(piecesOf(lengths...), []float64{4800}, 3)
		assert.True(t, proved, "seed %d", seed)
		assert.Len(t, cuts, 10, "seed %d", seed)
	}
}

// tenBoardsInThree saws ten boards of 4800 mm into three with 3 mm cuts.
func tenBoardsInThree(seed uint64) []float64 {
	random := rand.New(rand.NewPCG(seed, 3))
	var lengths []float64
	for range 10 {
		a := float64(900 + random.IntN(1000))
		b := float64(900 + random.IntN(1000))
		lengths = append(lengths, a, b, 4800-6-a-b)
	}
	random.Shuffle(len(lengths), func(i, j int) { lengths[i], lengths[j] = lengths[j], lengths[i] })
	return lengths
}

func TestCuttingManyPieces(t *testing.T) {
	// 31 pieces of which no two share a board: first-fit meets the bound
	cuts, proved := takeoff.Cutting(piecesOf(times(31, 2000)...), []float64{3600}, 3)
	assert.Len(t, cuts, 31)
	assert.True(t, proved, "more than 30 pieces, but the bound is met")

	// the mixed eight four times over: 12 boards are enough, first-fit needs more
	eight := []float64{1950, 1650, 1500, 1450, 1200, 1100, 850, 750}
	pieces := piecesOf(join(eight, eight, eight, eight)...)
	cuts, proved = takeoff.Cutting(pieces, []float64{3600}, 3)
	soundCuts(t, pieces, cuts, 3600, 3)
	assert.LessOrEqual(t, len(cuts), 13, "one board more than the least")
	assert.Equal(t, len(cuts) == 12, proved, "proved only where the bound of 12 is met")
}

// A hard case must end, and own up when it is not settled: pieces that, with
// their cuts, are whole millimetres, and boards a hair longer than half of
// them all. Two boards would have to be filled to the hair, which whole
// millimetres cannot do, but only a search of many millions of sets shows it.
func TestCuttingGivesUp(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	lengths := make([]float64, 30)
	total := 0.0
	for i := range lengths {
		lengths[i] = float64(300+random.IntN(200)) - 3
		total += lengths[i] + 3
	}
	if math.Mod(total, 2) == 0 {
		lengths[0]++
		total++
	}
	stock := total/2 + 0.01 - 3
	pieces := piecesOf(lengths...)
	cuts, proved := takeoff.Cutting(pieces, []float64{stock}, 3)
	soundCuts(t, pieces, cuts, stock, 3)
	assert.Len(t, cuts, 3)
	assert.False(t, proved)
}

func TestCuttingIsRepeatable(t *testing.T) {
	pieces := piecesOf(tenBoardsInThree(4)...)
	first, _ := takeoff.Cutting(pieces, []float64{4800}, 3)
	again, _ := takeoff.Cutting(pieces, []float64{4800}, 3)
	assert.Equal(t, first, again)
}

func ExampleCutting() {
	pieces := []takeoff.Piece{
		{For: "uphill side", Length: 2400}, {For: "downhill side", Length: 2400},
		{For: "left end", Length: 1150}, {For: "right end", Length: 1150},
	}
	cuts, proved := takeoff.Cutting(pieces, []float64{3600}, 3)
	for _, c := range cuts {
		fmt.Println(c.Pieces, c.Waste)
	}
	fmt.Println(len(cuts), proved)
	// Output:
	// [{uphill side 2400} {left end 1150}] 44
	// [{downhill side 2400} {right end 1150}] 44
	// 2 true
}

func BenchmarkCutting(b *testing.B) {
	cases := []struct {
		name    string
		lengths []float64
	}{
		{"n=12/three beds", join(times(6, 3600), times(6, 1150))},
		{"n=30/four lengths", join(times(8, 2400), times(7, 1800), times(10, 1150), times(5, 900))},
		{"n=30/ten boards in three", tenBoardsInThree(4)},
	}
	for _, c := range cases {
		pieces := piecesOf(c.lengths...)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				takeoff.Cutting(pieces, []float64{4800}, 3)
			}
		})
	}
}
