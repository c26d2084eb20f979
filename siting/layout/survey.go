package layout

import (
	"context"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/near"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// Places are all places of a plot where a bed may lie, each with its marks. They
// hold nothing of pinned beds, and so serve again when one is moved. They may be
// used from several goroutines at once.
type Places struct {
	s     *surveyor
	field *field
	up    terrain.Gradient // mean of the plot
}

// Count is the number of places, and Directions of the directions tried.
func (p *Places) Count() int      { return len(p.field.sites) }
func (p *Places) Directions() int { return len(p.field.directions) }

// Step is how far apart the places of a row are, m.
func (p *Places) Step() float64 { return p.s.opt.Step }

// surveyor holds what every place is tried against.
type surveyor struct {
	plot     *geodata.Plot
	wish     Wish
	opt      Options
	ground   Ground
	weigh    Weigh
	inside   near.Shape // the boundary's ground
	edge     near.Shape // the boundary's line
	gates    near.Shape
	barriers []barrier
	room     room
}

// Survey finds and weighs the places. A nil weigh takes full marks less what
// PlainWeigh takes off. The error is of input that cannot be searched, or
// ctx.Err() wrapped.
func Survey(ctx context.Context, plot *geodata.Plot, ground Ground, wish Wish, keep []Keepout, weigh Weigh, opt Options) (*Places, error) {
	opt = opt.settled(wish)
	if err := check(plot, ground, wish, keep, opt); err != nil {
		return nil, fmt.Errorf("look for places for beds: %w", err)
	}
	s := &surveyor{
		plot: plot, wish: wish, opt: opt, ground: ground, weigh: weigh,
		inside: near.Of(plot.Boundary), edge: near.Of(lines(plot.Boundary)), barriers: barriersOf(keep),
	}
	var gates orb.Collection
	for _, g := range plot.OfKind(geodata.GateKind) {
		gates = append(gates, g.Shape)
	}
	s.gates = near.Of(gates)
	if weigh == nil {
		s.weigh = s.plainWeigh
	}
	s.room = newRoom(s)
	samples := s.samples()
	bearings := s.bearings(samples)
	sites, err := s.sites(ctx, bearings)
	if err != nil {
		return nil, fmt.Errorf("look for places for beds: %w", err)
	}
	return &Places{s, newField(wish.Length, wish.Width, wish.Path, opt.RowCost, bearings, sites), meanOf(samples)}, nil
}

// Marks taken off by a nil Weigh: for each unit of fall along the long side, and
// each metre from the gate; defaults of ours.
const (
	plainAlong = 100.0
	plainGate  = 0.01
)

// toldMarks is how many parts of a mark are told apart. It is a power of two, so
// that marks of a few decimals never lie half way between two parts.
const toldMarks = 1024.0

// Told is marks rounded to what is told apart, so that those of like places compare
// equal wherever the plot lies: far more than the rounding of coordinates of a map
// grid leaves in doubt.
func Told(marks float64) float64 { return math.Round(marks*toldMarks) / toldMarks }

// plainWeigh prefers the contour, and then the gate.
func (s *surveyor) plainWeigh(b bed.Bed) (float64, bool) {
	g, _ := s.ground.GradientAt(b.Centre)
	w := FullMarks - plainAlong*math.Abs(g.Along(b.LongSide))
	if s.gates.Measurable() {
		d, _ := near.Of(b.Centre).Distance(s.gates)
		w -= plainGate * d
	}
	return w, true
}

// sites tries every place of every direction.
func (s *surveyor) sites(ctx context.Context, bearings []terrain.Bearing) ([]site, error) {
	found := make([][]site, len(bearings))
	err := shareOut(ctx, len(bearings), func(d int) {
		l := s.latticeOf(bearings[d])
		for _, v := range s.acrosses(l) {
			if ctx.Err() != nil {
				return
			}
			for _, u := range s.alongs(l, v) {
				b := bed.New("", l.at(u, v), bearings[d], s.wish.Length, s.wish.Width)
				if w, ok := s.weigh(b); ok && !math.IsNaN(w) && !math.IsInf(w, 0) {
					found[d] = append(found[d], site{direction: d, along: u, across: v, weight: Told(w)})
				}
			}
		}
	})
	if err != nil {
		return nil, err
	}
	var out []site
	for _, f := range found {
		out = append(out, f...)
	}
	return out, nil
}

// stopped tells whether the boundary, the survey or a keepout stops a bed.
func (s *surveyor) stopped(b bed.Bed) bool {
	switch s.room.judge(b) {
	case stopped:
		return true
	case unclear:
		shape := near.Of(b.Footprint())
		if !s.inside.Covers(b.Centre) || s.boundary().stops(b, shape) {
			return true
		}
		for _, k := range s.barriers {
			if k.stops(b, shape) {
				return true
			}
		}
	}
	return s.unsurveyed(b)
}

// boundary is the boundary's line as a barrier.
func (s *surveyor) boundary() barrier {
	return barrier{s.edge, s.opt.Margin, "the boundary, with the path kept inside it"}
}

func (s *surveyor) unsurveyed(b bed.Bed) bool {
	if s.ground.Extrapolated(b.Centre) {
		return true
	}
	for _, p := range b.Corners(b.Axes(terrain.Gradient{})) {
		if s.ground.Extrapolated(p) {
			return true
		}
	}
	return false
}
