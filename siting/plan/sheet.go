package plan

import (
	"fmt"
	"math"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// Sheet is the paper of a plan and how the ground lies on it.
type Sheet struct {
	Paper         string // "A4" or "A3"
	Width, Height float64
	Scale         int // 1 mm on paper is Scale mm on the ground

	area, panel orb.Bound // where the ground and the words go, mm
	ground      orb.Point // the point of the ground at the middle of area, m
}

// Sizes of the sheet's parts, mm: defaults of ours.
const (
	margin      = 8.0
	gutter      = 3.0
	panelWide   = 66.0 // on a landscape sheet, at the right
	panelTall   = 78.0 // on a portrait sheet, at the foot
	areaPadding = 7.0  // free rim inside the drawing's frame
	nearBy      = 3.0  // m: features this near to the plot are shown in full
)

// scales are those of a usual scale rule, then coarser ones for ground too
// wide for them.
var scales = [...]int{20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}

// fineEnough is the coarsest scale at which a bed still carries its name; a
// larger sheet is taken only where the smaller one is coarser than that.
const fineEnough = 100

type paper struct {
	name        string
	short, long float64 // mm (ISO 216)
}

var papers = [...]paper{{"A4", 210, 297}, {"A3", 297, 420}}

// Lay chooses the sheet: the finest scale on A4, either way round, or on A3
// where A4 is coarser than 1:100 and A3 is finer.
func Lay(a *siting.Assessment, opt Options) (Sheet, error) {
	b, err := extent(a)
	if err != nil {
		return Sheet{}, err
	}
	var best Sheet
	for _, p := range papers {
		if opt.Paper != "" && opt.Paper != p.name {
			continue
		}
		s, ok := finest(p, b)
		if ok && (best.Scale == 0 || (best.Scale > fineEnough && s.Scale < best.Scale)) {
			best = s
		}
	}
	if best.Scale == 0 {
		return Sheet{}, fmt.Errorf("plan: no sheet %q holds ground of %.0f by %.0f m", opt.Paper, b.Right()-b.Left(), b.Top()-b.Bottom())
	}
	best.ground = b.Center()
	return best, nil
}

// finest is the sheet of the finest scale that holds the ground b.
func finest(p paper, b orb.Bound) (Sheet, bool) {
	for _, scale := range scales {
		for _, s := range [...]Sheet{landscape(p), portrait(p)} {
			s.Scale = scale
			w := (b.Right()-b.Left())*1000/float64(scale) + 2*areaPadding
			h := (b.Top()-b.Bottom())*1000/float64(scale) + 2*areaPadding
			if w <= s.area.Right()-s.area.Left() && h <= s.area.Top()-s.area.Bottom() {
				return s, true
			}
		}
	}
	return Sheet{}, false
}

func landscape(p paper) Sheet {
	split := p.long - margin - panelWide
	return Sheet{
		Paper: p.name, Width: p.long, Height: p.short,
		area:  orb.Bound{Min: orb.Point{margin, margin}, Max: orb.Point{split - gutter, p.short - margin}},
		panel: orb.Bound{Min: orb.Point{split, margin}, Max: orb.Point{p.long - margin, p.short - margin}},
	}
}

func portrait(p paper) Sheet {
	split := p.long - margin - panelTall
	return Sheet{
		Paper: p.name, Width: p.short, Height: p.long,
		area:  orb.Bound{Min: orb.Point{margin, margin}, Max: orb.Point{p.short - margin, split - gutter}},
		panel: orb.Bound{Min: orb.Point{margin, split}, Max: orb.Point{p.short - margin, p.long - margin}},
	}
}

// extent is the ground that must be seen: the boundary and the beds, and
// features that lie on the plot or close beside it.
func extent(a *siting.Assessment) (orb.Bound, error) {
	var must orb.MultiPoint
	for _, p := range a.Frame.Boundary {
		must = appendFinite(must, p)
	}
	if len(must) < 3 {
		return orb.Bound{}, ErrNothingToDraw
	}
	for _, b := range a.Beds {
		for _, c := range b.Corners {
			must = appendFinite(must, orb.Point{c[0], c[1]})
		}
	}
	near := must.Bound().Pad(nearBy)
	for _, f := range a.Features {
		for _, p := range f.Points {
			if near.Contains(p) {
				must = append(must, p)
			}
		}
	}
	for _, m := range a.SettingOut.Marks {
		if near.Contains(m.At) {
			must = append(must, m.At)
		}
	}
	return must.Bound(), nil
}

func appendFinite(pts orb.MultiPoint, p orb.Point) orb.MultiPoint {
	if !finite(p) {
		return pts
	}
	return append(pts, p)
}

func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]+p[1]) && !math.IsInf(p[0]+p[1], 0)
}

// onPaper is where a point of the ground lies on the sheet, mm.
func (s Sheet) onPaper(p orb.Point) orb.Point {
	c := s.area.Center()
	k := 1000 / float64(s.Scale)
	return orb.Point{c[0] + (p[0]-s.ground[0])*k, c[1] - (p[1]-s.ground[1])*k}
}

// length is a length of ground on paper, mm.
func (s Sheet) length(m float64) float64 { return m * 1000 / float64(s.Scale) }
