package caution

import (
	"fmt"
	"math"

	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// ToddlerDepth is the depth of standing water, m, from which small children
// are warned of (common practice, no source).
const ToddlerDepth = 0.05

// Hollow is a place where water stands.
type Hollow struct {
	Name  string       // such as "hollow 1"; used in the id
	Shape orb.Geometry // outline, or the points known to stand under water
	At    orb.Point    // deepest point
	Depth float64      // of the water when it spills, m
}

// Runoff is a line along which water runs gathered together.
type Runoff struct {
	Name string // such as "runoff path 1"; used in the id
	Line orb.LineString
}

// Ponding gives a Stop to every bed over a hollow, and a Warning, once, when
// the deepest holds more than ToddlerDepth.
func Ponding(hollows []Hollow, works []Work) []Caution {
	var out []Caution
	sites := prepare(works)
	deepest := -1
	for i, h := range hollows {
		if h.Depth > ToddlerDepth && (deepest < 0 || h.Depth > hollows[deepest].Depth) {
			deepest = i
		}
		shape := near.Of(h.Shape)
		for _, w := range sites {
			d, at := w.outline.Distance(shape)
			if !(d <= 0) && !math.IsNaN(d) {
				continue
			}
			out = append(out, Caution{
				ID: id("ponding", w.Bed, h.Name), Severity: Stop, Kind: "ponding", Bed: w.Bed, At: &at,
				Text: fmt.Sprintf("%s lies over %s, where water stands up to %s deep before it spills. Do not build here: move the bed, "+
					"or drain the hollow on your own land first.", w.Bed, h.Name, millimetres(h.Depth)),
				Source: "default of ours",
			})
		}
	}
	if deepest >= 0 {
		h := hollows[deepest]
		out = append(out, Caution{
			ID: "standing-water", Severity: Warning, Kind: "standing water", At: &h.At,
			Text: fmt.Sprintf("Water may stand %s deep in %s. A small child can drown in %s: fence it or drain it.",
				millimetres(h.Depth), h.Name, millimetres(ToddlerDepth)),
			Source: "common practice, no source",
		})
	}
	return out
}

// Crossed gives a Stop to every bed that gathered runoff crosses.
func Crossed(paths []Runoff, works []Work) []Caution {
	var out []Caution
	sites := prepare(works)
	for _, p := range paths {
		shape := near.Of(p.Line)
		for _, w := range sites {
			d, at := w.outline.Distance(shape)
			if !(d <= 0) && !math.IsNaN(d) {
				continue
			}
			out = append(out, Caution{
				ID: id("runoff", w.Bed, p.Name), Severity: Stop, Kind: "runoff", Bed: w.Bed, At: &at,
				Text: fmt.Sprintf("%s crosses %s: water running together there would get under the boards. Move the bed, "+
					"or lead the water round it on your own land.", p.Name, w.Bed),
				Source: "default of ours",
			})
		}
	}
	return out
}
