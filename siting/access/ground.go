package access

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/near"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Ground is a plot as far as it does not depend on where its beds lie. It is
// not changed after it is made and may be used from several goroutines.
type Ground struct {
	lattice
	*headings
	limits  Limits
	heights terrain.Heights
	z       []float64          // at the middles of cells; NaN where not known
	slope   []terrain.Gradient // there
	paved   []bool             // on a drawn path
	gates   []orb.Point        // openings in what opens
	inside  near.Shape         // the boundary
	drawn   bool               // it was drawn, not taken from the heights
	stands  []barrier          // in reading order
	open    float32            // clearance from which nothing needs a closer look
	empty   *view              // the plot without beds
	starts  []Start            // where loads come from
	from    []seed             // and their cells in the plot without beds
}

// NewGround looks at a plot. heights is its ground, keep what is kept off besides
// what is drawn, such as hollows in which water stands.
func NewGround(p *geodata.Plot, heights terrain.Heights, keep []Keepout, limits Limits) *Ground {
	g := &Ground{
		lattice: newLattice(p.Boundary.Bound()), limits: limits.filled(), heights: heights,
		inside: near.Of(p.Boundary), drawn: p.BoundaryDrawn, stands: barriers(p, keep),
	}
	for _, f := range p.OfKind(geodata.GateKind) {
		if at, ok := f.Shape.(orb.Point); ok {
			g.gates = append(g.gates, at)
		}
	}
	half := g.limits.Width / 2
	g.open = float32(math.Sqrt(half*half + g.cell*g.cell/2))
	g.sample()
	g.headings = few
	for i, s := range g.slope {
		if s.Fall() > gentle*g.limits.Gradient && !math.IsNaN(g.z[i]) && g.inside.Covers(g.centre(i)) {
			g.headings = many
			break
		}
	}
	g.pave(p)
	g.empty = newView(g)
	g.starts = starts(p, g)
	g.from = g.empty.seeds(g.limits.Width / 2)
	return g
}

// Cell is the side of a cell, m.
func (g *Ground) Cell() float64 { return g.cell }

// Limits are those that the ways keep to, with every default filled in.
func (g *Ground) Limits() Limits { return g.limits }

// Headings is how many ways a barrow was let point.
func (g *Ground) Headings() int { return len(g.moves) }

// sample reads the heights, and the slopes between them.
func (g *Ground) sample() {
	g.z = make([]float64, g.count())
	g.slope = make([]terrain.Gradient, g.count())
	for i := range g.z {
		z, ok := g.heights.HeightAt(g.centre(i))
		if !ok {
			z = math.NaN()
		}
		g.z[i] = z
	}
	for i := range g.slope {
		g.slope[i] = terrain.Gradient{East: g.rise(i, 1, 0), North: g.rise(i, 0, 1)}
	}
}

// rise is the gradient at a cell one way, between the neighbours that have a height.
func (g *Ground) rise(i, east, north int) float64 {
	a, b, span := i, i, 0.0
	if k, ok := g.step(i, east, north); ok && !math.IsNaN(g.z[k]) {
		b, span = k, span+g.cell
	}
	if k, ok := g.step(i, -east, -north); ok && !math.IsNaN(g.z[k]) {
		a, span = k, span+g.cell
	}
	if span == 0 {
		return 0
	}
	return (g.z[b] - g.z[a]) / span
}

// pathHalf is half the width of a path drawn as a line, m, as the layout of beds
// keeps it.
const pathHalf = 0.3

// pave marks the cells on a drawn path.
func (g *Ground) pave(p *geodata.Plot) {
	g.paved = make([]bool, g.count())
	for _, f := range p.OfKind(geodata.PathKind) {
		path := near.Of(f.Shape)
		half := math.Max(pathHalf, g.cell/2)
		if _, area := f.Shape.(orb.Polygon); area {
			half = 0
		}
		if !path.Measurable() {
			continue
		}
		g.around(path.Bound.Pad(half), func(i int) {
			c := g.centre(i)
			g.paved[i] = g.paved[i] || path.Covers(c) || path.EdgeDistance(c) <= half
		})
	}
}

// heightAt is the height at a place within a cell.
func (g *Ground) heightAt(i int, at orb.Point) float64 {
	c := g.centre(i)
	return g.z[i] + g.slope[i].East*(at[0]-c[0]) + g.slope[i].North*(at[1]-c[1])
}
