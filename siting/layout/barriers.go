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

	"github.com/paulmach/orb"
)

// hair is the length, m, that rounding may take off a distance.
const hair = 1e-9

// pinch is how far an outline is drawn in, m, to tell overlap from touching.
const pinch = 0.001

// barrier is a Keepout made ready.
type barrier struct {
	shape near.Shape
	clear float64
	why   string
}

// barriersOf makes keepouts ready, those of the same words together.
func barriersOf(keep []Keepout) []barrier {
	out := make([]barrier, 0, len(keep))
	for _, k := range keep {
		out = append(out, barrier{near.Of(k.Shape), k.Clear, k.Why})
	}
	slices.SortStableFunc(out, func(a, b barrier) int { return cmp.Compare(a.why, b.why) })
	return out
}

// stops is true when a bed comes nearer to the barrier than its clearance, or,
// where that is 0, overlaps it.
func (k barrier) stops(b bed.Bed, shape near.Shape) bool {
	if k.clear > hair {
		return shape.Closer(k.shape, k.clear-hair)
	}
	if near.BoundGap(shape.Bound, k.shape.Bound) > 0 {
		return false
	}
	b.Length, b.Width = math.Max(b.Length-2*pinch, pinch), math.Max(b.Width-2*pinch, pinch)
	return near.Of(b.Footprint()).Closer(k.shape, hair)
}

// pinnedKeepouts are the beds that stay.
func pinnedKeepouts(pinned []bed.Bed, path float64) []Keepout {
	var out []Keepout
	for _, b := range pinned {
		out = append(out, Keepout{Why: fmt.Sprintf("the drawn bed %q", b.Name), Shape: b.Footprint(), Clear: path})
	}
	return out
}

// checkShapes refuses shapes that cannot be measured: they would stop nothing
// or everything.
func checkShapes(plot *geodata.Plot, keep []Keepout) error {
	if !near.Of(plot.Boundary).Measurable() {
		return errors.New("the boundary has a corner that is not a number")
	}
	return checkKeepouts(keep)
}

func checkKeepouts(keep []Keepout) error {
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
