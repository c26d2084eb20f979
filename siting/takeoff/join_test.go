package takeoff_test

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sides are the lengths of the pieces of a side, in their order.
func sides(list takeoff.List, side string) []float64 {
	lengths := map[string]float64{}
	for _, l := range list.Boards {
		for _, c := range l.Cuts {
			for _, p := range c.Pieces {
				lengths[p.For] = p.Length
			}
		}
	}
	var names []string
	for n := range lengths {
		if strings.Contains(n, side) {
			names = append(names, n)
		}
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), strings.Compare(a, b)) })
	var out []float64
	for _, n := range names {
		out = append(out, lengths[n])
	}
	return out
}

// A bed of 6 m with boards of 3.6 m and pegs at 0.05, 1.525, 3.0, 4.475 and 5.95 m:
// two parts of 3 m, joined at the middle peg, and a second peg there on both sides.
func TestLongSidesAreJoinedOverAPeg(t *testing.T) {
	b := bed("Bed 1")
	b.Length, b.Pegs, b.PegsAlong = 6, 10, []float64{0.05, 1.525, 3, 4.475, 5.95}
	site := geodata.Site{Boards: geodata.BoardOffer{Lengths: []float64{3.6}}}
	list, said, err := takeoff.Count([]takeoff.BedInput{b}, site)
	require.NoError(t, err)
	assert.Equal(t, []float64{3000, 3000}, sides(list, "uphill side"))
	assert.Equal(t, []float64{3000, 3000}, sides(list, "downhill side"))
	assert.Equal(t, 12, list.Pegs[0].Count)
	assert.Contains(t, strings.Join(said, "\n"), "joined at the pegs 3.00 m from the left end")

	// of three parts none over 2.4 m: joints at 1.525 and 3.0 leave 3 m, so 1.525 and
	// 4.475 (1.525, 2.95) do not do either: four, the most alike of which are these
	site.Boards.Lengths = []float64{2.4}
	list, _, err = takeoff.Count([]takeoff.BedInput{b}, site)
	require.NoError(t, err)
	assert.Equal(t, []float64{1525, 1475, 1475, 1525}, sides(list, "uphill side"))
	assert.Equal(t, 16, list.Pegs[0].Count)
}

// What is too short even so is refused with what would do.
func TestTooShortSaysWhatWouldDo(t *testing.T) {
	b := bed("Bed 1")
	b.Length, b.PegsAlong = 6, []float64{0.05, 1.525, 3, 4.475, 5.95}
	site := geodata.Site{Boards: geodata.BoardOffer{Lengths: []float64{1.2}}}
	_, _, err := takeoff.Count([]takeoff.BedInput{b}, site)
	require.ErrorIs(t, err, takeoff.ErrTooLong)
	assert.ErrorContains(t, err, "Bed 1, uphill side, 6000 mm long")
	assert.ErrorContains(t, err, "boards of 1525 mm and longer would do, joined over the pegs")

	b = bed("Bed 2") // no pegs told: no joints
	b.Length = 4.9
	_, _, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	assert.ErrorContains(t, err, "a board of 4900 mm would do, or a bed 100 mm smaller that way, or one in two parts with a cross board between them")
}

// However the pegs stand: the parts make up the side, none is longer than a board,
// every joint is at a peg, and where it is refused no board that short would do.
func TestJoinsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bed("Bed 1")
		b.Length = rapid.Float64Range(1, 12).Draw(t, "length")
		n := rapid.IntRange(2, 12).Draw(t, "pegs")
		for i := range n {
			b.PegsAlong = append(b.PegsAlong, 0.05+float64(i)*(b.Length-0.1)/float64(n-1))
		}
		longest := rapid.Float64Range(1.15, 5).Draw(t, "board")
		list, _, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{Boards: geodata.BoardOffer{Lengths: []float64{longest}}})
		last, widest := 0.0, 0.0
		for _, x := range append(slices.Clone(b.PegsAlong), b.Length) {
			if x >= 0.3 && x <= b.Length-0.3 || x == b.Length {
				last, widest = x, max(widest, x-last)
			}
		}
		if b.Length <= longest {
			require.NoError(t, err)
			assert.Len(t, sides(list, "uphill side"), 1)
			return
		}
		if err != nil {
			assert.ErrorIs(t, err, takeoff.ErrTooLong)
			assert.Greater(t, widest+1e-9, longest)
			return
		}
		sum := 0.0
		for _, part := range sides(list, "uphill side") {
			sum += part
			assert.LessOrEqual(t, part, 1000*longest+1e-6)
			assert.GreaterOrEqual(t, part, 300-1e-6)
			near := slices.ContainsFunc(append(b.PegsAlong, b.Length), func(x float64) bool { return 1000*x-sum < 1e-6 && sum-1000*x < 1e-6 })
			assert.True(t, near, "joint at %g", sum)
		}
		assert.InDelta(t, 1000*b.Length, sum, 1e-6)
	})
}
