package access

import (
	"math"
	"math/rand/v2"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waves is ground with hills, at a height of 0.3 m steeper than any limit.
type waves struct{ a, b, high float64 }

func (h waves) HeightAt(p orb.Point) (float64, bool) {
	return 5 + h.high*p[1]/3 + h.high*math.Sin(h.a+1.7*p[0])*math.Cos(h.b+1.3*p[1]), true
}

// everyCost is the least cost of every state by going over all moves again and
// again until nothing gets cheaper, turning to either side from every heading.
func everyCost(v *view, seeds []seed) []float64 {
	n := len(v.moves)
	cost := make([]float64, v.count()*n)
	for i := range cost {
		cost[i] = math.Inf(1)
	}
	for _, d := range seeds {
		start := v.starts[d.start].At
		for h := range v.moves {
			cost[d.cell*n+h] = float64(v.priced(start, v.at[d.cell], v.heightAt(v.near(start), start), v.high[d.cell], d.cell, d.cell)) + float64(v.swung(start, v.at[d.cell], h))
		}
	}
	for changed := true; changed; {
		changed = false
		lower := func(state int, c float64) {
			if c < cost[state]-1e-9 {
				cost[state], changed = c, true
			}
		}
		for i := range v.count() {
			for h := range n {
				c := cost[i*n+h]
				if math.IsInf(c, 1) {
					continue
				}
				lower(i*n+(h+1)%n, c+float64(v.turn[h]))
				lower(i*n+(h+n-1)%n, c+float64(v.turn[(h+n-1)%n]))
				if j, ok := v.ahead(i, h); ok {
					lower(j*n+h, c+float64(v.priced(v.at[i], v.at[j], v.high[i], v.high[j], i, j)))
				}
			}
		}
	}
	return cost
}

// The costs are those of going over all moves again and again (Bellman 1958, Ford
// 1956), a method of another kind.
func TestWheelAgainstEveryCost(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 59))
	for k := range 4 {
		high, directions := 0.3, 40
		if k == 3 {
			high, directions = 0.02, 16
		}
		p := &geodata.Plot{
			BoundaryDrawn: true, Boundary: orb.Polygon{{{0, 0}, {4, 0}, {4.4, 4}, {0, 3.6}, {0, 0}}},
			Fixtures: []geodata.Fixture{{Kind: geodata.GateKind, Shape: orb.Point{2, 0}}},
		}
		g := NewGround(p, waves{6 * rng.Float64(), 6 * rng.Float64(), high}, nil, Limits{})
		require.Equal(t, directions, g.Headings())
		b := bed.New("bed", orb.Point{1 + 2*rng.Float64(), 1.5 + rng.Float64()}, terrain.Bearing(3*rng.Float64()), 1.2, 0.4)
		v := g.empty.with([]barrier{ofBed(b)})
		seeds := v.seeds(g.limits.Width / 2)
		require.NotEmpty(t, seeds)
		s, _ := v.wheel(seeds, [][]int{nil}) // a goal that is never met: all is looked at
		reached := 0
		for state, want := range everyCost(v, seeds) {
			if math.IsInf(want, 1) {
				assert.True(t, math.IsInf(float64(s.cost[state]), 1))
				continue
			}
			reached++
			assert.InEpsilon(t, want+1, float64(s.cost[state])+1, 1e-5)
		}
		assert.Greater(t, reached, 25*directions)

		// the way traced back costs what the search says
		for state, c := range s.cost {
			if state%977 != 0 || math.IsInf(float64(c), 1) {
				continue
			}
			cells := s.trace(state)
			sum := 0.0
			for k := 1; k < len(cells); k++ {
				i, j := cells[k-1], cells[k]
				sum += float64(v.priced(v.at[i], v.at[j], v.high[i], v.high[j], i, j))
			}
			assert.LessOrEqual(t, sum, float64(c)*(1+1e-5)+1e-5, "without its turns")
		}
	}
}

// Cells whose beds moved are told as if the plot had been looked at anew.
func TestViewWithBedsIsTheWholeView(t *testing.T) {
	p := &geodata.Plot{
		BoundaryDrawn: true, Boundary: orb.Polygon{{{0, 0}, {9, 0}, {10, 8}, {0, 7}, {0, 0}}},
		Fixtures: []geodata.Fixture{
			{Kind: geodata.GateKind, Shape: orb.Point{2, 0}},
			{Kind: geodata.ObstacleKind, What: "hedge", Shape: orb.LineString{{3, 3}, {8, 4}}},
			{Kind: geodata.TreeKind, StemDiameter: 0.3, Shape: orb.Point{2, 5}},
		},
	}
	g := NewGround(p, waves{high: 0.3}, nil, Limits{})
	beds := []barrier{ofBed(bed.New("a", orb.Point{5, 2}, 1.1, 3, 1.2)), ofBed(bed.New("b", orb.Point{5, 5.6}, 1.4, 3, 1.2))}
	moved := g.empty.with(beds)
	all := *g
	all.stands = append(append([]barrier{}, g.stands...), beds...)
	anew := newView(&all)
	assert.Equal(t, anew.at, moved.at)
	assert.Equal(t, anew.clear, moved.clear)
	assert.Equal(t, anew.links, moved.links)
	assert.NotEqual(t, g.empty.links, moved.links)
}
