package siting

import (
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/terrain"
	"crossfall/terrain/relief"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// ToCome is something tall that is still to come, and the part of the plot where it
// would hardly take sun from any bed.
type ToCome struct {
	What   string  `json:"what"`
	Height float64 `json:"height_m"`
	Width  float64 `json:"width_m"`
	// Area is where its middle may stand, and Share the part of the plot that is;
	// null where it cannot be told. Low is what holds at every end of the bands.
	Area  *geodata.Estimate `json:"free_area_m2"`
	Share *geodata.Estimate `json:"free_percent"`
	// Rings bound the low of Area, by the even-odd rule.
	Rings [][]orb.Point `json:"rings"`
	// Line is the straight line on whose left hand all of the plot is free; null where
	// none tells most of it.
	Line *[2]orb.Point `json:"line"`
	Said string        `json:"said"`
}

const (
	// hardly is the share of a bed's direct sun, over the four dates together, that
	// a thing to come may take; a default of ours.
	hardly = 0.05
	// toComeCell and mostToCome are how far apart places are looked at, m, and how
	// many at most; defaults of ours.
	toComeCell = 0.5
	mostToCome = 4000
	// toComeWidth stands for a width that was not said, but of a tree, m; a default
	// of ours.
	toComeWidth = 3.0
)

// places are where on the plot a thing may stand.
type places struct {
	grid   *terrain.Grid // of the whole plot
	stands *terrain.Grid // the same, without height where it would stand on a bed
}

// toCome works out every tall thing that is still to come.
func (j judge) toCome(ctx context.Context, l sunlight, beds []Bed, decided []decision) ([]ToCome, error) {
	out := []ToCome{}
	for _, t := range j.plot.Site.ToCome {
		thing := newToCome(t)
		if why := j.cannotPlace(l, decided); why != "" {
			thing.Said = fmt.Sprintf("%s: where it would leave the beds their sun cannot be told: %s", t.What, why)
			out = append(out, thing)
			continue
		}
		at := j.placesFor(thing.Width/2, decided)
		free, err := l.free(ctx, t, thing.Height, at, beds, decided)
		if err != nil {
			return nil, err
		}
		thing.tell(j, at, free)
		out = append(out, thing)
	}
	return out, nil
}

// cannotPlace says why no place can be told, or "".
func (j judge) cannotPlace(l sunlight, decided []decision) string {
	if l.said.Latitude == nil {
		return l.said.Reason
	}
	for _, d := range decided {
		if d.chosen.Class != frame.DoNotBuild {
			return ""
		}
	}
	return "no bed is built"
}

// placesFor are the middles of squares over the plot, and those of them that keep
// a radius off the beds.
func (j judge) placesFor(radius float64, decided []decision) places {
	bound := j.plot.Boundary.Bound()
	cell := math.Max(toComeCell, math.Sqrt((bound.Max[0]-bound.Min[0])*(bound.Max[1]-bound.Min[1])/mostToCome))
	bound.Min = orb.Point{bound.Min[0] + cell/2, bound.Min[1] + cell/2}
	inside := func(p orb.Point) bool { return planar.PolygonContains(j.plot.Boundary, p) }
	at := places{grid: terrain.Sample(j.fit, bound, cell, inside)}
	stands := *at.grid
	stands.Z = append([]float64{}, at.grid.Z...)
	for i := range stands.Z {
		p := stands.Node(i%stands.Cols, i/stands.Cols)
		for _, d := range decided {
			if d.chosen.Class != frame.DoNotBuild && distanceTo(d.bed.Footprint(), p) < radius {
				stands.Z[i] = math.NaN()
			}
		}
	}
	at.stands = &stands
	return at
}

// free tells for each place, at the least, middle and most sun, whether the thing
// would take hardly any from every bed.
func (l sunlight) free(ctx context.Context, t geodata.TallThing, height float64, at places, beds []Bed, decided []decision) (free [3][]bool, err error) {
	over := make([][]bool, 3*len(decided)) // by end and bed
	err = shareOut(ctx, len(over), func(k int) {
		i, b := k%3, k/3
		if decided[b].chosen.Class == frame.DoNotBuild || beds[b].Light == nil {
			return
		}
		taken, hours := make([]float64, len(at.stands.Z)), 0.0
		points := pointsOver(decided[b].ground.Corners)
		for d, day := range l.days {
			h := beds[b].Light.Days[d].Hours
			hours += [3]float64{h.Low, h.Value, h.High}[i]
			l.scenes[d][i].Taken(day, points, standing(t, height, i, l.bare[d]), at.stands, taken)
		}
		over[k] = make([]bool, len(taken))
		for n, x := range taken {
			over[k][n] = x >= hardly*hours && x > 0
		}
	})
	for i := range free {
		free[i] = make([]bool, len(at.stands.Z))
		for n, z := range at.stands.Z {
			free[i][n] = !math.IsNaN(z)
		}
	}
	for k, taken := range over {
		for n := range taken {
			free[k%3][n] = free[k%3][n] && !taken[n]
		}
	}
	return free, err
}

// tell fills in what is free.
func (t *ToCome) tell(j judge, at places, free [3][]bool) {
	g := at.grid
	square := g.Cell * g.Cell
	var counts [3]float64
	var sure []int
	plot := 0.0
	for n, z := range g.Z {
		if math.IsNaN(z) {
			continue
		}
		plot++
		all := true
		for i := range free {
			if all = all && free[i][n]; free[i][n] {
				counts[i]++
			}
		}
		if all {
			sure = append(sure, n)
		}
	}
	area := geodata.Estimate{Value: counts[1] * square, Low: float64(len(sure)) * square, High: math.Max(counts[1], math.Max(counts[0], counts[2])) * square}
	share := area.Times(100 / math.Max(square, plot*square))
	t.Area, t.Share = &area, &share
	for _, r := range relief.Rings(g, sure) {
		t.Rings = append(t.Rings, r)
	}
	t.say(j, g, sure)
}
