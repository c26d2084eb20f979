package siting

import (
	"cmp"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/relief"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// gridNodes is about how many nodes the plot's longer side is sampled at for
// contours, hollows and the flattest and steepest ground.
const gridNodes = 64

// leastHollow is the depth under which a hollow is not told from survey noise:
// three standard deviations of a reading, not under 30 mm; a default of ours.
func leastHollow(precision float64) float64 { return math.Max(0.030, 3*precision) }

// relief is the plot's ground on a lattice and what was found on it.
type reliefOf struct {
	grid      *terrain.Grid
	low, high float64 // of the nodes inside the boundary; low is the greater where there is none
	hollows   []relief.Hollow
}

// sampleRelief draws the fitted ground inside the boundary.
func sampleRelief(p *geodata.Plot, fit *surface.Fit, precision float64) reliefOf {
	bound := p.Boundary.Bound()
	side := math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])
	cell := side / gridNodes
	grid := terrain.Sample(fit, bound, cell, func(q orb.Point) bool { return planar.PolygonContains(p.Boundary, q) })
	r := reliefOf{grid: grid, low: math.Inf(1), high: math.Inf(-1)}
	for _, z := range grid.Z {
		if !math.IsNaN(z) {
			r.low, r.high = math.Min(r.low, z), math.Max(r.high, z)
		}
	}
	r.hollows = relief.Hollows(grid, relief.HollowOptions{MinDepth: leastHollow(precision)})
	return r
}

// describeGround fills the ground part of an Assessment.
func describeGround(p *geodata.Plot, fit *surface.Fit, b Brief, r reliefOf) Ground {
	g := Ground{
		Surface: string(fit.Kind), SurfaceWhy: fit.Why, Uneven: fit.Uneven,
		Precision: fit.Sigma * 1000, ResidualSpread: fit.SpreadOfResiduals * 1000,
		Notes:   append([]string{}, fit.Notes...),
		Heights: []Height{}, Suspects: []Suspect{}, Contours: []Contour{}, Hollows: []Hollow{},
	}
	plane := fit.Plane
	g.FallPercent = percentOf(plane.Gradient, plane.Covariance, plane.Quantile)
	g.Determined = surface.Determined(plane.Gradient, plane.Covariance)
	g.FallSaid = terrain.FallSaid(g.FallPercent, g.Determined)
	g.RunoffBearing = bearingOf(p, plane.Gradient, plane.Covariance, plane.Quantile, g.Determined)
	g.LeastFall, g.GreatestFall = extremes(p, fit, r.grid)
	for i, s := range p.Spots {
		g.Heights = append(g.Heights, Height{Name: s.Name, At: s.At, Height: s.Height, Residual: fit.Residuals[i].Residual * 1000})
	}
	for _, s := range fit.Suspects {
		g.Suspects = append(g.Suspects, Suspect{Name: s.Name, Reason: s.Reason})
	}
	for _, h := range r.hollows {
		g.Hollows = append(g.Hollows, Hollow{
			At: h.Deepest, Depth: h.Depth * 1000, Area: h.Area, Volume: h.Volume, Spill: h.Spill,
			Outline: ringOf(h),
		})
	}
	return g
}

// percentOf is a gradient's fall in percent with its 95 % interval.
func percentOf(g terrain.Gradient, cov [2][2]float64, quantile float64) geodata.Estimate {
	v, low, high := surface.FallInterval(g, cov, quantile)
	return geodata.Estimate{Value: v, Low: low, High: high}.Times(100)
}

// extremesStride is how many nodes apart the flattest and steepest ground is
// looked for: a fall over less than a bed's width decides nothing.
const extremesStride = 3

// extremes are the flattest and steepest nodes of the plot where the survey
// reaches; on a plane both are its middle.
func extremes(p *geodata.Plot, fit *surface.Fit, grid *terrain.Grid) (least, greatest FallAt) {
	centre := p.Boundary.Bound().Center()
	if fit.Kind == surface.PlaneKind {
		g, _ := fit.GradientAt(centre)
		at := FallAt{Percent: percentOf(g, fit.GradientCovariance(centre), fit.Quantile), At: centre}
		return at, at
	}
	falls := fallsOn(fit, grid)
	low, high := centre, centre
	// The error of a place costs far more than its fall: it is asked of the
	// flattest and the steepest first, until one is told.
	for _, f := range falls {
		if !fit.Extrapolated(f.at) {
			low = f.at
			break
		}
	}
	for _, f := range slices.Backward(falls) {
		if !fit.Extrapolated(f.at) {
			high = f.at
			break
		}
	}
	at := func(q orb.Point) FallAt {
		g, _ := fit.GradientAt(q)
		return FallAt{Percent: percentOf(g, fit.GradientCovariance(q), fit.Quantile), At: q}
	}
	return at(low), at(high)
}

// placed is a fall and where it is.
type placed struct {
	fall float64
	at   orb.Point
}

// fallsOn are the falls at every so many nodes of the plot, flattest first; of
// equal ones the southern and western first.
func fallsOn(fit *surface.Fit, grid *terrain.Grid) []placed {
	var out []placed
	for row := 0; row < grid.Rows; row += extremesStride {
		for col := 0; col < grid.Cols; col += extremesStride {
			if math.IsNaN(grid.At(col, row)) {
				continue
			}
			q := grid.Node(col, row)
			if g, ok := fit.GradientAt(q); ok {
				out = append(out, placed{g.Fall(), q})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b placed) int { return cmp.Compare(a.fall, b.fall) })
	return out
}

// ringOf is a hollow's outer outline, for drawing.
func ringOf(h relief.Hollow) []orb.Point {
	if len(h.Outline) == 0 || len(h.Outline[0]) == 0 {
		return nil
	}
	return h.Outline[0]
}
