package access

import (
	"fmt"

	"crossfall/geodata"
	"crossfall/siting/bed"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// Keepout is ground that nobody wheels a barrow over.
type Keepout struct {
	Said  string // in the words that follow "is in the way: "
	Shape orb.Geometry
}

// gateHalf is how far each side of a gate's point a fence, hedge or wall is open,
// m: a default of ours.
const gateHalf = 0.6

// barrier is a Keepout made ready for measuring.
type barrier struct {
	said  string
	shape near.Shape
	grow  float64 // m about its shape: half a tree's stem
	opens bool    // where there is a gate
}

// barriers lists what stands on the plot. Services and roots are no hindrance
// to walking, nor is a break line: it is the ground that is steep there.
func barriers(p *geodata.Plot, more []Keepout) []barrier {
	var out []barrier
	for _, f := range p.Fixtures {
		b := barrier{said: said(f), shape: near.Of(f.Shape)}
		switch f.Kind {
		case geodata.NoGoKind:
		case geodata.ObstacleKind:
			_, b.opens = f.Shape.(orb.LineString)
		case geodata.TreeKind:
			b.grow = f.StemDiameter / 2
		default:
			continue
		}
		if b.shape.Measurable() {
			out = append(out, b)
		}
	}
	for _, k := range more {
		if b := (barrier{said: k.Said, shape: near.Of(k.Shape)}); b.shape.Measurable() {
			out = append(out, b)
		}
	}
	return out
}

func ofBed(b bed.Bed) barrier { return barrier{said: b.Name, shape: near.Of(b.Footprint())} }

// said names a fixture in a sentence.
func said(f geodata.Fixture) string {
	what := string(f.Kind)
	switch {
	case f.Kind == geodata.NoGoKind:
		what = "no-go area"
	case f.Kind == geodata.ObstacleKind && f.What != "":
		what = f.What
	}
	if f.Name == "" {
		return "the " + what
	}
	return fmt.Sprintf("the %s %q", what, f.Name)
}

// clearance is how far a point is from a barrier; under 0 inside it.
func (b barrier) clearance(p orb.Point) float64 {
	d := b.shape.EdgeDistance(p)
	if b.shape.Covers(p) {
		d = -d
	}
	return d - b.grow
}
