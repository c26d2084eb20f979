package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/access"
	"crossfall/siting/bed"
	"crossfall/terrain"
	"crossfall/terrain/drainage"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// Lattices for the search, m: gradients each half metre, slope lengths above
// each three metres. The beds found are worked out anew on the surface itself.
const (
	slopeCell = 0.5
	runOnCell = 3.0
)

// manyHeights is how many heights make the error of the fall so even that a
// lattice of half the nodes each way tells it; a default of ours.
const manyHeights = 400

// sunCell is the spacing at which the sun is looked at, m, and sunNodes about how
// many nodes a side has at most; defaults of ours.
const (
	sunCell  = 1.5
	sunNodes = 20.0
)

// quickGround answers the search from lattices instead of the surface, so that a
// place costs no fit, no path and no look at the sun of its own.
type quickGround struct {
	drainage.Field
	above     *terrain.Grid // length of slope above, m
	errors    *terrain.Grid // standard error of the fall; NaN where the survey does not tell the ground
	damp      *terrain.Grid // 1 on ground likely to stay damp, else 0
	sun       *terrain.Grid // hours at the equinox; NaN where they cannot be told
	dayLength float64       // h
	heights   *terrain.Grid
	ways      *access.DistanceField // nil where no gate and no heap is drawn
	start     float64               // height of the highest of those, m
}

// lattices samples what the search asks over and over.
func (j judge) lattices() quickGround {
	q := quickGround{Field: j.field, above: slopeAbove(j.plot, j.above, j.aboveExtent)}
	q.errors = j.fallErrors(q.above)
	return q
}

// weighing adds what only the weighing of places asks.
func (j *judge) weighing(light sunlight, grid *terrain.Grid, places []Place) {
	q := &j.quick
	q.heights, q.damp = grid, dampGrid(grid, places)
	q.sun, q.dayLength = j.sunGrid(light)
	if j.brief.CarryingCounts == 0 {
		return
	}
	q.start = math.Inf(-1)
	for _, s := range j.access.Starts() {
		if z, known := j.fit.HeightAt(s.At); known && !s.Assumed {
			q.start = math.Max(q.start, z)
		}
	}
	if !math.IsInf(q.start, -1) {
		q.ways = j.access.Distances()
	}
}

// slopeAbove is the length of slope above each node of a coarse lattice, m.
func slopeAbove(p *geodata.Plot, field drainage.Field, extent orb.Polygon) *terrain.Grid {
	bound := p.Boundary.Bound()
	inside := func(q orb.Point) orb.Point { // nodes on the edge are asked just inside it
		c := bound.Center()
		return orb.Point{q[0] + 0.02*(c[0]-q[0]), q[1] + 0.02*(c[1]-q[1])}
	}
	cell := math.Max(runOnCell, math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])/20)
	cols := int(math.Ceil((bound.Max[0]-bound.Min[0])/cell)) + 1
	rows := int(math.Ceil((bound.Max[1]-bound.Min[1])/cell)) + 1
	g := terrain.NewGrid(bound.Min, cell, cols, rows)
	inParallel(rows, func(row int) {
		for col := range cols {
			path := drainage.Uphill(field, inside(g.Node(col, row)), drainage.Options{Plot: extent})
			g.Set(col, row, path.Length)
		}
	})
	return g
}

// fallErrors is the standard error of the fall, on the lattice of slope lengths
// or one of half its cells.
func (j judge) fallErrors(above *terrain.Grid) *terrain.Grid {
	cell, per := above.Cell/2, 2
	if len(j.plot.Spots) > manyHeights {
		cell, per = above.Cell, 1
	}
	errors := terrain.NewGrid(above.Origin, cell, per*(above.Cols-1)+1, per*(above.Rows-1)+1)
	inParallel(errors.Rows, func(row int) {
		for col := range errors.Cols {
			at := errors.Node(col, row)
			g, ok := j.field.GradientAt(at)
			if !ok || j.fit.Uneven {
				continue
			}
			if cov, told := j.fit.GradientTold(at); told {
				errors.Set(col, row, fallError(g, cov))
			}
		}
	})
	return errors
}

// fallError is the standard error of a fall.
func fallError(g terrain.Gradient, cov [2][2]float64) float64 {
	fall, _, high := surface.FallInterval(g, cov, 1)
	return high - fall
}

// dampGrid marks the nodes of damp places.
func dampGrid(grid *terrain.Grid, places []Place) *terrain.Grid {
	damp := terrain.NewGrid(grid.Origin, grid.Cell, grid.Cols, grid.Rows)
	for i := range damp.Z {
		damp.Z[i] = 0
	}
	for _, p := range places {
		if p.What == DampPlace {
			for _, n := range p.nodes {
				damp.Z[n] = 1
			}
		}
	}
	return damp
}

// sunGrid is the hours of direct sun at the March equinox, of the middle of
// their band.
func (j judge) sunGrid(light sunlight) (hours *terrain.Grid, dayLength float64) {
	bound := j.plot.Boundary.Bound()
	cell := math.Max(sunCell, math.Max(bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1])/sunNodes)
	hours = terrain.NewGrid(bound.Min, cell, int(math.Ceil((bound.Max[0]-bound.Min[0])/cell))+1, int(math.Ceil((bound.Max[1]-bound.Min[1])/cell))+1)
	if light.said.Latitude == nil || j.brief.SunCounts == 0 {
		return hours, 0
	}
	inParallel(hours.Rows, func(row int) {
		for col := range hours.Cols {
			hours.Set(col, row, light.scenes[0][1].Hours(light.days[0], []orb.Point{hours.Node(col, row)}))
		}
	})
	return hours, light.days[0].Length
}

// Extrapolated is false everywhere: ground that the survey does not tell costs
// more in the score, so that a bed is still placed where there is no other.
func (quickGround) Extrapolated(orb.Point) bool { return false }

// errorUnder is the greatest standard error of the fall at a bed's middle and
// corners; ok is false where the survey does not tell one of them.
func (q quickGround) errorUnder(b bed.Bed) (float64, bool) {
	worst := 0.0
	corners := b.Corners(b.Axes(terrain.Gradient{}))
	for _, p := range [5]orb.Point{corners[0], corners[1], corners[2], corners[3], b.Centre} {
		e, ok := q.errors.HeightAt(p)
		if !ok {
			return 0, false
		}
		worst = math.Max(worst, e)
	}
	return worst, true
}

// gradientUnder is the mean gradient of three points along a bed; ok is false
// where there is none in its middle.
func (q quickGround) gradientUnder(b bed.Bed) (terrain.Gradient, bool) {
	mean, ok := q.GradientAt(b.Centre)
	if !ok {
		return mean, false
	}
	e, n := b.LongSide.Unit()
	points := 1.0
	for _, at := range [2]float64{-b.Length / 3, b.Length / 3} {
		if g, ok := q.GradientAt(orb.Point{b.Centre[0] + at*e, b.Centre[1] + at*n}); ok {
			mean.East, mean.North = mean.East+g.East, mean.North+g.North
			points++
		}
	}
	return terrain.Gradient{East: mean.East / points, North: mean.North / points}, true
}

// dampUnder is the part of a bed that lies on damp ground, by five points of it.
func (q quickGround) dampUnder(b bed.Bed) float64 {
	sum := 0.0
	e, n := b.LongSide.Unit()
	for k := -2.0; k <= 2; k++ {
		at := k * b.Length / 5
		if d, ok := q.damp.HeightAt(orb.Point{b.Centre[0] + at*e, b.Centre[1] + at*n}); ok {
			sum += d
		}
	}
	return sum / 5
}

// carrying is the marks that the way of a barrow from the gate or heap takes off:
// its length and what it climbs. Where neither is drawn there are none.
func (q quickGround) carrying(p orb.Point) float64 {
	if q.ways == nil {
		return 0
	}
	metres, reached := q.ways.At(p)
	if !reached {
		return costCutOff
	}
	marks := costCarry * metres
	if z, known := q.heights.HeightAt(p); known && z > q.start {
		marks += costClimb * (z - q.start)
	}
	return marks
}
