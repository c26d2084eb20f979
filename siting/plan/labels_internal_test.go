package plan

import (
	"testing"

	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBoxesOverlap(t *testing.T) {
	a := box{centre: orb.Point{0, 0}, w: 10, h: 2}
	for _, tt := range []struct {
		name string
		b    box
		want bool
	}{
		{"same", a, true},
		{"touching side by side", box{centre: orb.Point{10, 0}, w: 10, h: 2}, false},
		{"turned through the middle", box{centre: orb.Point{0, 0}, w: 10, h: 2, turn: 90}, true},
		{"turned, bounds overlap but boxes do not", box{centre: orb.Point{6, 5}, w: 10, h: 1, turn: 45}, false},
		{"inside", box{centre: orb.Point{1, 0}, w: 1, h: 1}, true},
	} {
		assert.Equal(t, tt.want, a.overlaps(tt.b), tt.name)
		assert.Equal(t, tt.want, tt.b.overlaps(a), tt.name)
	}
}

func TestPlaceKeepsTextsApartAndInside(t *testing.T) {
	l := labels{area: orb.Bound{Max: orb.Point{20, 10}}}
	first := box{centre: orb.Point{10, 5}, w: 6, h: 2}
	_, ok := l.place([]box{first}, true)
	assert.True(t, ok)
	_, ok = l.place([]box{first}, false)
	assert.False(t, ok, "the place is taken")
	_, ok = l.place([]box{{centre: orb.Point{1, 5}, w: 6, h: 2}}, false)
	assert.False(t, ok, "over the edge")
	l.mark(orb.Point{10, 8}, 1)
	at := []box{{centre: orb.Point{10, 8}, w: 4, h: 1}}
	_, ok = l.place(at, true)
	assert.False(t, ok, "a mark is in the way")
	_, ok = l.place(at, false)
	assert.True(t, ok, "allowed on a mark at need")
}

// The even-odd rule on a square ring with a square hole: level strokes one
// apart are 10 long above and below the hole and two of 3 beside it.
func TestHatchLeavesHolesFree(t *testing.T) {
	square := func(a, b float64) []orb.Point { return []orb.Point{{a, a}, {b, a}, {b, b}, {a, b}} }
	lengths := map[int]int{}
	for _, l := range hatch([][]orb.Point{square(.5, 10.5), square(3.5, 7.5)}, 0, 1) {
		lengths[int(l[1][0]-l[0][0]+.5)]++
	}
	assert.Equal(t, map[int]int{10: 6, 3: 8}, lengths)
}

func TestWalkMeasuresFromItsStart(t *testing.T) {
	w := newWalk([]orb.Point{{0, 0}, {3, 0}, {3, 4}})
	assert.InDelta(t, 7, w.length(), 1e-12)
	assert.Equal(t, orb.Point{3, 1}, w.at(4))
	assert.Equal(t, []orb.Point{{2, 0}, {3, 0}, {3, 2}}, w.part(2, 5))
}

func TestReadableIsNeverUpsideDown(t *testing.T) {
	assert.InDelta(t, 0, readable(orb.Point{-1, 0}), 1e-12)
	assert.InDelta(t, 45, readable(orb.Point{-1, -1}), 1e-12)
	assert.InDelta(t, 90, readable(orb.Point{0, -1}), 1e-12)
}

func TestMillimetresNeverMinusZero(t *testing.T) {
	assert.Equal(t, "0.00", mm(-.001))
	assert.Equal(t, "-0.01", mm(-.009))
}

func TestEscape(t *testing.T) {
	assert.Equal(t, `a&lt;b&gt; &#34;c&#34; &amp;`, escape(`a<b> "c" &`))
}

// The strip beside a straight line of 10 m, .5 m each side, is 10 m by 1 m with
// two half discs: its corners reach .5 m to every side of the line.
func TestBufferReachesTheClearance(t *testing.T) {
	rings := buffer(siting.Feature{Points: []orb.Point{{0, 0}, {10, 0}}}, .5)
	require.Len(t, rings, 1)
	b := orb.MultiPoint(rings[0]).Bound()
	assert.InDelta(t, -.5, b.Left(), 1e-9)
	assert.InDelta(t, 10.5, b.Right(), 1e-9)
	assert.InDelta(t, -.5, b.Bottom(), 1e-9)
	assert.InDelta(t, .5, b.Top(), 1e-9)
}
