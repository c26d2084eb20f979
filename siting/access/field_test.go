package access_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/access"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plane rises by so much a metre to the east and to the north.
type plane struct{ east, north float64 }

func (h plane) HeightAt(p orb.Point) (float64, bool) { return 20 + h.east*p[0] + h.north*p[1], true }

// plot is a plot of so many metres with what is drawn on it.
func plot(wide, deep float64, drawn ...geodata.Fixture) *geodata.Plot {
	return &geodata.Plot{
		BoundaryDrawn: true, Fixtures: drawn,
		Boundary: orb.Polygon{{{0, 0}, {wide, 0}, {wide, deep}, {0, deep}, {0, 0}}},
	}
}

func gate(x, y float64) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.GateKind, Name: "gate", Shape: orb.Point{x, y}}
}

func fence(points ...orb.Point) geodata.Fixture {
	return geodata.Fixture{Kind: geodata.ObstacleKind, Name: "long", What: "fence", Shape: orb.LineString(points)}
}

func ExampleDistanceField() {
	p := plot(12, 12, gate(6, 0))
	g := access.NewGround(p, plane{north: 0.2}, nil, access.Limits{})
	metres, _ := g.Distances().At(orb.Point{6, 10})
	fmt.Printf("10 m off and 2 m higher, at 1 in 12: %.0f m\n", metres)
	// Output: 10 m off and 2 m higher, at 1 in 12: 24 m
}

// On a plane the shortest way that is no steeper than the limit is known: the
// straight one where it is gentle enough, else the rise over the limit.
func TestDistancesOnAPlane(t *testing.T) {
	for _, c := range []struct{ east, north float64 }{{0, 0}, {0.05, 0}, {0, 0.2}, {0.1, 0.15}, {-0.06, 0.06}} {
		p := plot(12, 12, gate(6, 6)) // in the middle: one may go every way
		f := access.NewGround(p, plane{c.east, c.north}, nil, access.Limits{}).Distances()
		for _, to := range []orb.Point{{6, 11}, {11, 6}, {1.2, 1.7}, {3, 10.4}, {8.1, 2.2}} {
			got, ok := f.At(to)
			require.True(t, ok)
			straight := math.Hypot(to[0]-6, to[1]-6)
			climb := math.Abs(c.east*(to[0]-6)+c.north*(to[1]-6)) * 12
			want := math.Max(straight, climb)
			assert.GreaterOrEqual(t, got, want-1e-4, "%v to %v", c, to)
			offLattice := 0.125 * math.Hypot(c.east, c.north) * 12 // up to the middle of a cell and down again
			assert.LessOrEqual(t, got, want*1.04+0.02+offLattice, "%v to %v", c, to)
		}
	}
}

func TestDistancesGoRoundAFence(t *testing.T) {
	// from below the middle of a fence with its east end open, round the end and back
	p := plot(12, 12, gate(3, 3), fence(orb.Point{0, 6}, orb.Point{9, 6}))
	f := access.NewGround(p, plane{}, nil, access.Limits{}).Distances()
	got, ok := f.At(orb.Point{3, 9})
	require.True(t, ok)
	round := 2 * math.Hypot(6+0.3, 3) // the barrow's middle passes 0.3 m beyond the post
	assert.Greater(t, got, 2*math.Hypot(6, 3))
	assert.InDelta(t, round, got, 0.04*round)

	through := access.NewGround(plot(12, 12, gate(3, 3), fence(orb.Point{0, 6}, orb.Point{12, 6}), gate(3, 6)), plane{}, nil, access.Limits{}).Distances()
	got, ok = through.At(orb.Point{3, 9})
	require.True(t, ok)
	assert.InDelta(t, 3, got, 0.15, "from the gate in the fence")

	closed := access.NewGround(plot(12, 12, gate(3, 3), fence(orb.Point{0, 6}, orb.Point{12, 6})), plane{}, nil, access.Limits{}).Distances()
	_, ok = closed.At(orb.Point{3, 9})
	assert.False(t, ok)
	_, ok = closed.At(orb.Point{3, -1})
	assert.False(t, ok, "outside the plot")
}
