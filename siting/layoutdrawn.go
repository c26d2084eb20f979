package siting

import (
	"context"
	"fmt"
	"math"

	"crossfall/siting/bed"
	"crossfall/siting/frame"
	"crossfall/siting/layout"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// clearShare is the share of simulated surfaces in which one layout must be the
// better of two for that to be said; a default of ours.
const clearShare = 0.9

// sameSize is how far a drawn bed may differ from the wished size, as a part of
// it, for the two layouts to be compared; a default of ours.
const sameSize = 0.1

// DrawnAgainst compares the beds drawn by hand in the wished size, and that may be
// built, with as many beds placed freely.
type DrawnAgainst struct {
	Beds  int     `json:"beds"`
	Drawn float64 `json:"marks_drawn"` // sums of the marks on the fitted ground
	Free  float64 `json:"marks_free"`
	// Share is the part of the simulated surfaces in which the free layout has more
	// marks.
	Share float64 `json:"share_free_better"`
	Said  string  `json:"said"`
}

// freeLayouts keeps layouts of so many beds with none drawn.
type freeLayouts map[int]layout.Result

// free is the layout of n beds that would be made if none were drawn.
func (j judge) free(ctx context.Context, n int) (layout.Result, error) {
	places, err := j.bedPlaces(ctx)
	if err != nil {
		return layout.Result{}, err
	}
	j.surveyed.mu.Lock()
	defer j.surveyed.mu.Unlock()
	if r, ok := j.surveyed.free[n]; ok {
		return r, nil
	}
	r, err := places.Arrange(ctx, n, nil, nil)
	if err != nil {
		return r, err
	}
	if j.surveyed.free == nil {
		j.surveyed.free = freeLayouts{}
	}
	j.surveyed.free[n] = r
	return r, nil
}

// drawnAgainst compares the two, or is nil: where no drawn bed of the wished size
// may be built, where as many do not fit freely, or where not enough is known of
// the ground.
func (j judge) drawnAgainst(ctx context.Context, decided []decision) (*DrawnAgainst, error) {
	var drawn []bed.Bed
	for _, d := range decided {
		if !d.bed.Pinned || d.chosen.Class == frame.DoNotBuild {
			continue
		}
		if math.Abs(d.bed.Length-j.brief.Length) > sameSize*j.brief.Length || math.Abs(d.bed.Width-j.brief.Width) > sameSize*j.brief.Width {
			continue
		}
		drawn = append(drawn, d.bed)
	}
	if len(drawn) == 0 || j.fit.Uneven {
		return nil, nil
	}
	r, err := j.free(ctx, len(drawn))
	if err != nil || r.Fits < len(drawn) {
		return nil, err
	}
	out := &DrawnAgainst{Beds: len(drawn), Drawn: j.sumOfMarks(drawn), Free: j.sumOfMarks(r.Beds)}
	if out.Share, err = j.shareBetter(ctx, r.Beds, drawn); err != nil {
		return nil, err
	}
	out.say()
	return out, nil
}

func (j judge) sumOfMarks(beds []bed.Bed) float64 {
	sum := 0.0
	for _, b := range beds {
		if m, ok := j.marksOf(b); ok {
			sum += m.total()
		}
	}
	return sum
}

// shareBetter is the share of simulated surfaces in which one layout has more
// marks than another. What hangs on the fall is taken from each surface: the
// class of edge and the falls along and across; water, damp ground, sun and
// carrying are those of the fitted ground.
func (j judge) shareBetter(ctx context.Context, better, than []bed.Bed) (float64, error) {
	all := append(append([]bed.Bed{}, better...), than...)
	var nodes []orb.Point
	fixed := make([]marks, len(all))
	for i, b := range all {
		for _, p := range probes(b, bed.Under(j.fit, j.fit.Quantile, b).Axes) {
			nodes = append(nodes, p.from, p.to)
		}
		fixed[i], _ = j.marksOf(b)
	}
	drawn, err := surface.Simulate(j.fit, nodes, surface.DefaultDraws, simulationSeed)
	if err != nil {
		return 0, err
	}
	wins := make([]bool, len(drawn.Heights))
	err = shareOut(ctx, len(wins), func(r int) {
		z, gain := drawn.Heights[r], 0.0
		for i, b := range all {
			across, along := math.Abs(z[4*i+1]-z[4*i])/b.Width, math.Abs(z[4*i+3]-z[4*i+2])/b.Length
			m := fixed[i]
			m.class = costClass * float64(j.severityAt(b, math.Hypot(across, along), across, along, m.sheet))
			m.fall = costFall*math.Hypot(across, along) + costAlong*along
			if i < len(better) {
				gain += m.total()
			} else {
				gain -= m.total()
			}
		}
		wins[r] = gain > 0
	})
	if err != nil {
		return 0, err
	}
	n := 0
	for _, w := range wins {
		if w {
			n++
		}
	}
	return float64(n) / float64(len(wins)), nil
}

// say claims a rank only where it holds in nearly all surfaces.
func (d *DrawnAgainst) say() {
	which := "the bed drawn in the wished size, and one placed freely"
	if d.Beds > 1 {
		which = fmt.Sprintf("the %d beds drawn in the wished size, and as many placed freely", d.Beds)
	}
	in := fmt.Sprintf("in %.0f of 100 simulated surfaces", math.Round(100*math.Max(d.Share, 1-d.Share)))
	switch {
	case d.Share >= clearShare:
		d.Said = fmt.Sprintf("%s: those placed freely are better %s", which, in)
	case d.Share <= 1-clearShare:
		d.Said = fmt.Sprintf("%s: those drawn are better, or as good, %s", which, in)
	default:
		d.Said = fmt.Sprintf("%s: no clear difference (one is better %s)", which, in)
	}
}
