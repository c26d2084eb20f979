package siting

import (
	"context"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/frame"
	"crossfall/siting/layout"
	"crossfall/siting/soil"
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

// Weights of the search, defaults of ours: a graver class of edge outweighs
// any gain of fall; ground that the survey does not tell costs two classes; a
// tenth of fall counts as half a class; run-on counts by the class it brings.
const (
	costClass   = 10.0
	costUnknown = 20.0
	costFall    = 50.0
)

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
	for row := range rows {
		for col := range cols {
			path := drainage.Uphill(field, inside(g.Node(col, row)), drainage.Options{Plot: extent})
			g.Set(col, row, path.Length)
		}
	}
	return g
}

// quickGround answers the search from lattices instead of the surface.
type quickGround struct {
	drainage.Field
	above  *terrain.Grid // length of slope above, m
	errors *terrain.Grid // standard error of the fall; NaN where the survey does not tell the ground
}

// lattices samples what the search asks over and over.
func (j judge) lattices() quickGround {
	bound := j.plot.Boundary.Bound()
	q := quickGround{Field: j.field, above: slopeAbove(j.plot, j.above, j.aboveExtent)}
	cell, per := q.above.Cell/2, 2
	if len(j.plot.Spots) > manyHeights {
		cell, per = q.above.Cell, 1
	}
	q.errors = terrain.NewGrid(bound.Min, cell, per*(q.above.Cols-1)+1, per*(q.above.Rows-1)+1)
	inParallel(q.errors.Rows, func(row int) {
		for col := range q.errors.Cols {
			at := q.errors.Node(col, row)
			g, ok := j.field.GradientAt(at)
			if !ok || j.fit.Uneven {
				continue
			}
			if cov, told := j.fit.GradientTold(at); told {
				q.errors.Set(col, row, fallError(g, cov))
			}
		}
	})
	return q
}

// fallError is the standard error of a fall.
func fallError(g terrain.Gradient, cov [2][2]float64) float64 {
	fall, _, high := surface.FallInterval(g, cov, 1)
	return high - fall
}

// Extrapolated is false everywhere: ground that the survey does not tell costs
// more in the score, so that a bed is still placed where there is no other.
func (quickGround) Extrapolated(orb.Point) bool { return false }

// errorUnder is the greatest standard error of the fall at a bed's middle and
// corners; ok is false where the survey does not tell one of them.
func (q quickGround) errorUnder(b bed.Bed) (float64, bool) {
	worst := 0.0
	corners := b.Corners(b.Axes(terrain.Gradient{}))
	for _, p := range append(corners[:], b.Centre) {
		e, ok := q.errors.HeightAt(p)
		if !ok {
			return 0, false
		}
		worst = math.Max(worst, e)
	}
	return worst, true
}

// weigh gives a place its marks: full ones, less what its class of edge takes off
// at the fall in its middle, or at the upper limit where the fall cannot be told,
// the fall itself, and what the survey cannot tell.
func (j judge) weigh(q quickGround) layout.Weigh {
	return func(b bed.Bed) (float64, bool) {
		g, ok := q.GradientAt(b.Centre)
		if !ok {
			return 0, false
		}
		cost, fall := 0.0, g.Fall()
		switch se, told := q.errorUnder(b); {
		case !told:
			cost, fall = costUnknown, math.Max(fall, j.general)
		case fall < 3*se:
			fall += j.fit.Quantile * se
		}
		across, along := frame.Parts(fall, float64(b.LongSide), float64(g.Downhill()))
		length, _ := q.above.HeightAt(b.Centre)
		sheet := soil.RunOnTo(soil.RunOnInput{
			Rate: j.rate, Length: geodata.Exactly(math.Max(0, length)), Slope: geodata.Exactly(g.Fall()),
			EdgeLength: b.Length, Cover: j.brief.Cover, Ground: j.brief.Ground,
		}).Depth.Value
		c := j.caseFor(b, fall, across, along, sheet, "")
		return layout.FullMarks - cost - costClass*float64(frame.ClassOf(c).Severity()) - costFall*fall, true
	}
}

// retries is how often the search begins again round places that turned out to
// stand under a stop when worked out in full.
const retries = 6

// Where no boundary is drawn the hull of the heights stands for it, and nothing
// is known to lie just beyond: beds may come this near, m. A plot under
// smallPlot times a bed's length is searched on a closer lattice.
const (
	hullMargin = 0.05
	smallPlot  = 4.0
	closeStep  = 0.25
)

// searchOptions suits the search to the plot.
func (j judge) searchOptions(wish layout.Wish) layout.Options {
	var opt layout.Options
	if !j.plot.BoundaryDrawn {
		opt.Margin = hullMargin
	}
	b := j.plot.Boundary.Bound()
	if math.Min(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) < smallPlot*wish.Length {
		opt.Step = closeStep
	}
	return opt
}

// arrange places the wished beds round those drawn by hand, and works out all.
func (j judge) arrange(ctx context.Context, pinned []decision, ponds []layout.Keepout) ([]decision, layout.Result, error) {
	drawn := make([]bed.Bed, len(pinned))
	for i, d := range pinned {
		drawn[i] = d.bed
	}
	keep := append(layout.Keepouts(j.plot, nil), ponds...)
	// Beds drawn by hand count among those wished for.
	count := max(0, j.brief.Count-len(pinned))
	wish := layout.Wish{Length: j.brief.Length, Width: j.brief.Width, Path: j.brief.Path}
	if count == 0 {
		return pinned, layout.Result{}, nil
	}
	places, err := layout.Survey(ctx, j.plot, j.quick, wish, keep, j.weigh(j.quick), j.searchOptions(wish))
	if err != nil {
		return nil, layout.Result{}, err
	}
	var more []layout.Keepout
	for try := 0; ; try++ {
		found, err := places.Arrange(ctx, count, drawn, more)
		if err != nil {
			return nil, found, err
		}
		out := append([]decision{}, pinned...)
		stopped := 0
		for _, b := range found.Beds {
			d := j.settle(b)
			if d.stopped {
				stopped++
				more = append(more, layout.Keepout{Why: "a place where " + d.refused, Shape: b.Centre})
			}
			out = append(out, d)
		}
		if stopped == 0 || try == retries {
			return out, found, nil
		}
	}
}
