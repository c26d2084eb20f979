package siting

import (
	"context"
	"math"
	"sync"

	"crossfall/siting/bed"
	"crossfall/siting/layout"
	"crossfall/terrain/drainage"
)

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

// found is the layout that was chosen, and what it was chosen among.
type found struct {
	layout.Result
	places *layout.Places // nil where no beds were wished
	kept   []layout.Keepout
}

// surveyed keeps the places for beds, which hang on nothing that is drawn as a
// bed, until the plot changes.
type surveyed struct {
	mu     sync.Mutex
	places *layout.Places
	free   freeLayouts
	// severity is that of the class of edge by likeGround, sheet the depth of water
	// by likeSlope.
	severity, sheet sync.Map
	settled         settledBeds
	among           amongFrames
	// runOn is the slope above a bed, catchment what drains on to it in the plot.
	runOn     byOutline[drainage.RunOn]
	catchment byOutline[drainage.RunOnArea]
}

// bedPlaces are the places for beds of the wished size.
func (j judge) bedPlaces(ctx context.Context) (*layout.Places, error) {
	j.surveyed.mu.Lock()
	defer j.surveyed.mu.Unlock()
	if j.surveyed.places != nil {
		return j.surveyed.places, nil
	}
	b := j.brief
	wish := layout.Wish{
		Length: b.Length, Width: b.Width, Path: b.Path,
		RowMin: b.RowMin, Columns: b.Columns, Pairs: b.Pairs, PairPath: b.PairPath,
	}
	keep := layout.Keepouts(j.plot, nil)
	for _, h := range j.ponds {
		keep = append(keep, layout.Keepout{Why: "standing water in " + h.Name, Shape: h.Shape})
	}
	places, err := layout.Survey(ctx, j.plot, j.quick, wish, keep, j.weigh(), j.searchOptions(wish))
	if err == nil {
		j.surveyed.places = places
	}
	return places, err
}

// arrange places the wished beds round those drawn by hand, and works out all.
func (j judge) arrange(ctx context.Context, pinned []decision) ([]decision, found, error) {
	// Beds drawn by hand count among those wished for.
	count := max(0, j.brief.Count-len(pinned))
	if j.brief.Most {
		count = layout.Most
	}
	if count == 0 {
		return pinned, found{}, nil
	}
	places, err := j.bedPlaces(ctx)
	if err != nil {
		return nil, found{}, err
	}
	drawn := make([]bed.Bed, len(pinned))
	for i, d := range pinned {
		drawn[i] = d.bed
	}
	f := found{places: places}
	for try := 0; ; try++ {
		if f.Result, err = places.Arrange(ctx, count, drawn, f.kept); err != nil {
			return nil, f, err
		}
		placed := make([]decision, len(f.Beds))
		err := shareOut(ctx, len(placed), func(i int) { placed[i] = j.settle(f.Beds[i]) })
		if err != nil {
			return nil, f, err
		}
		stopped := 0
		for _, d := range placed {
			if d.stopped {
				stopped++
				f.kept = append(f.kept, layout.Keepout{Why: "a place where " + d.refused, Shape: d.bed.Centre})
			}
		}
		if stopped == 0 || try == retries {
			return append(append([]decision{}, pinned...), placed...), f, nil
		}
	}
}
