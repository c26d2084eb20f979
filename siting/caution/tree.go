package caution

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/near"
)

// DefaultStem is the stem diameter, m, of a tree that names none: default of
// ours, a garden tree of middle size. The caution says that it was assumed.
const DefaultStem = 0.20

// ThinMulch is the depth of compost, m, that may lie over the roots of a tree:
// default of ours.
const ThinMulch = 0.05

const rootSource = "BS 5837:2012: a circle of 12 times the stem diameter at 1.5 m, 15 m at most"

// RootRadius is the radius of a tree's root protection area, m, from its stem
// diameter at 1.5 m height, m: min(12 D, 15), BS 5837:2012. A diameter that is
// not over 0 takes DefaultStem, and assumed says so. For 2 to 5 stems give the
// root of the sum of their squares.
func RootRadius(stem float64) (metres float64, assumed bool) {
	if !(stem > 0) {
		stem, assumed = DefaultStem, true
	}
	return math.Min(12*stem, 15), assumed
}

// Trees checks every bed against every root protection area: pegs, cuts or
// more than ThinMulch of compost inside are a Stop, a bed of thin mulch a Note.
// The area is measured from the shape drawn, so draw the stem as a point.
func Trees(plot *geodata.Plot, works []Work) []Caution {
	var out []Caution
	sites := prepare(works)
	for _, t := range name(plot.OfKind(geodata.TreeKind)) {
		shape := near.Of(t.Shape)
		radius, assumed := RootRadius(t.StemDiameter)
		said := fmt.Sprintf("%s of %s", metresUp(radius), t.said)
		if assumed {
			said += fmt.Sprintf(" (its stem is taken as %s thick: default of ours, set stem_diameter_m)", millimetres(DefaultStem))
		}
		for _, w := range sites {
			out = append(out, rooted(t, shape, radius, said, w)...)
		}
	}
	return out
}

func rooted(t named, shape near.Shape, radius float64, said string, w site) []Caution {
	pegs, _ := closest(w.pegs, shape)
	cuts, _ := closest(w.cuts, shape)
	bed, at := w.outline.Distance(shape)
	c := Caution{Kind: "tree", Bed: w.Bed, At: &at, Source: rootSource}
	deep := !(w.Fill <= ThinMulch+1e-9)
	switch {
	case under(pegs, radius), under(cuts, radius), under(bed, radius) && deep:
		c.ID, c.Severity = id("tree-roots", w.Bed, t.key), Stop
		c.Text = fmt.Sprintf("%s reaches within %s, where roots must not be cut, pegged through or buried. Do not %s a qualified tree adviser; "+
			"a protected tree needs the local authority's consent.", w.Bed, said,
			w.instead("build here: move the bed, or ask", "dig it before you have asked"))
	case under(bed, radius):
		c.ID, c.Severity = id("tree-mulch", w.Bed, t.key), Note
		c.Text = fmt.Sprintf("%s reaches within %s. Up to %s of mulch does no harm there, kept 150 mm off the stem; drive and cut nothing.", w.Bed, said, millimetres(ThinMulch))
		c.Source += "; mulch: default of ours"
	default:
		return nil
	}
	return []Caution{c}
}
