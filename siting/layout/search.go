package layout

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/near"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// search holds what every place is tried against.
type search struct {
	wish   Wish
	opt    Options
	ground Ground
	slopes *terrain.SlopeField
	score  func(bed.Bed) (float64, bool)

	boundary orb.Polygon
	inside   near.Shape // the boundary's ground
	edge     near.Shape // the boundary's line
	gates    near.Shape
	barriers []barrier // of one reason together
	reasons  []string  // why a place was refused; barriers point into it
	pinned   map[string]bool
}

// The reasons that are not barriers come first in search.reasons.
const (
	byBoundary = iota
	bySurvey
	byTurn
	byScore
	byBeds
	fixedReasons
)

// barrier is a Keepout or a pinned bed made ready.
type barrier struct {
	shape  near.Shape
	clear  float64
	reason int
}

func newSearch(plot *geodata.Plot, ground Ground, wish Wish, pinned []bed.Bed, keep []Keepout,
	score func(bed.Bed) (float64, bool), opt Options) *search {
	bound := plot.Boundary.Bound()
	size := (bound.Max[0] - bound.Min[0]) * (bound.Max[1] - bound.Min[1])
	opt.Step = math.Max(opt.Step, math.Sqrt(size/MaxPlaces))
	s := &search{
		wish: wish, opt: opt, ground: ground, score: score,
		slopes:   terrain.NewSlopeField(bound.Pad(opt.Step), opt.Step, ground.GradientAt),
		boundary: plot.Boundary,
		inside:   near.Of(plot.Boundary),
		edge:     near.Of(lines(plot.Boundary)),
		pinned:   map[string]bool{},
		reasons: []string{
			byBoundary: "the boundary, with the path kept inside it",
			bySurvey:   "ground that was not surveyed",
			byTurn:     "a contour that turns away from the rows",
			byScore:    "ground on which a bed must not be built",
			byBeds:     "the beds placed and the paths between them",
		},
	}
	for _, b := range pinned {
		s.pinned[nameKey(b.Name)] = true
		s.addBarrier(near.Of(b.Footprint()), wish.Path, fmt.Sprintf("the drawn bed %q", b.Name))
	}
	for _, k := range keep {
		s.addBarrier(near.Of(k.Shape), k.Clear, k.Why)
	}
	slices.SortStableFunc(s.barriers, func(a, b barrier) int { return cmp.Compare(a.reason, b.reason) })
	var gates orb.Collection
	for _, g := range plot.OfKind(geodata.GateKind) {
		gates = append(gates, g.Shape)
	}
	s.gates = near.Of(gates)
	return s
}

// addBarrier adds one barrier; those of the same words share a reason.
func (s *search) addBarrier(shape near.Shape, clear float64, why string) {
	reason := len(s.reasons)
	for i := fixedReasons; i < len(s.reasons); i++ {
		if s.reasons[i] == why {
			reason = i
		}
	}
	if reason == len(s.reasons) {
		s.reasons = append(s.reasons, why)
	}
	s.barriers = append(s.barriers, barrier{shape, clear, reason})
}

// checkShapes refuses shapes that cannot be measured: they would stop nothing
// or everything.
func checkShapes(plot *geodata.Plot, keep []Keepout) error {
	if !near.Of(plot.Boundary).Measurable() {
		return errors.New("the boundary has a corner that is not a number")
	}
	for _, k := range keep {
		if !near.Of(k.Shape).Measurable() {
			return fmt.Errorf("%s has no shape that can be measured", k.Why)
		}
		if !(k.Clear >= 0) {
			return fmt.Errorf("%s is kept clear by %v m: give 0 or more", k.Why, k.Clear)
		}
	}
	return nil
}

func lines(p orb.Polygon) orb.MultiLineString {
	out := make(orb.MultiLineString, len(p))
	for i, r := range p {
		out[i] = orb.LineString(r)
	}
	return out
}
