package caution

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// Retained heights, m, from the ground outside a board to the top of what it
// holds back: defaults of ours. 600 mm is where the New South Wales exempt
// development code ends, and 24 inches (610 mm) where the International
// Residential Code, R404.4, asks for a design.
const (
	RetainedNote    = 0.30
	RetainedWarning = 0.45
	RetainedStop    = 0.60
	// RetainedStopLoaded takes RetainedStop's place, and must be passed, near
	// a boundary or with something bearing behind.
	RetainedStopLoaded = 0.30
)

// NearBoundary is how near a boundary, and BearsWithin how near the uphill
// side of a wall, counts, m. SteepBehind is the slope behind, as a ratio,
// above which the ground itself bears. Defaults of ours; 1 m from a lot
// boundary is in the New South Wales exempt development code.
const (
	NearBoundary = 1.0
	BearsWithin  = 1.0
	SteepBehind  = 0.10
)

// Wall is what the boards of one bed hold back.
type Wall struct {
	Bed     string
	Outline orb.Polygon
	// Rises are the retained heights of the lines of boards, m, from the
	// lowest up: one for a bed without steps. Give upper limits.
	Rises []float64
	// Goings are the plan distances between one line and the next, m, one
	// fewer than Rises; one left out counts as 0.
	Goings []float64
	// Uphill is the unit vector up the slope; zero when it cannot be told, and
	// then what stands on any side counts as behind.
	Uphill      orb.Point
	SlopeBehind float64 // of the ground above the bed, ratio, 0 or more
}

// OneWall is the greatest height that counts as one wall, m. A line of boards
// joins the wall below it when the distance between them is under twice the
// height of that wall as counted so far (2 horizontal to 1 vertical, as the
// District of Sechelt, British Columbia, counts a series of walls).
func OneWall(rises, goings []float64) float64 {
	tallest, wall := 0.0, 0.0
	for i, rise := range rises {
		going := 0.0
		if i > 0 && i-1 < len(goings) {
			going = goings[i-1]
		}
		if i > 0 && going >= 2*wall {
			wall = 0
		}
		wall += rise
		tallest = math.Max(tallest, wall)
	}
	return tallest
}

const retainedSource = "default of ours, beside 600 mm in the New South Wales exempt development code and 24 inches in the International Residential Code R404.4; counting steps together: District of Sechelt, British Columbia"

const askLocally = "Ask a competent person and the local authority; the local code rules."

// Retained checks what each bed holds back: a Stop from RetainedStop, or over
// RetainedStopLoaded near a boundary or with something bearing behind; under
// that a Warning over RetainedWarning and a Note over RetainedNote. Where the
// plot's place publishes less than RetainedStop, that stands for it.
func Retained(plot *geodata.Plot, walls []Wall) []Caution {
	var out []Caution
	stop, place, source := RetainedStop, "", ""
	if r, ok := RetainedRuleIn(plot.Site.Place.Country); ok {
		place, source = " Published there: "+r.Text+".", "; "+r.Source
		if r.Stop > 0 {
			stop = math.Min(stop, r.Stop)
		}
	}
	for _, w := range walls {
		h := OneWall(w.Rises, w.Goings)
		why := bearing(plot, w)
		c := Caution{ID: id("retained-height", w.Bed), Kind: "retained height", Bed: w.Bed, At: middle(w.Outline), Source: retainedSource}
		switch {
		case h >= stop-1e-9:
			c.Severity = Stop
			c.Text = fmt.Sprintf("%s holds back %s, and %s or more is a retaining wall. %s", w.Bed, millimetres(h), millimetres(stop), askLocally)
		case why != "" && h > RetainedStopLoaded+1e-9:
			c.Severity = Stop
			c.Text = fmt.Sprintf("%s holds back %s, and %s: over %s is too much there. %s", w.Bed, millimetres(h), why, millimetres(RetainedStopLoaded), askLocally)
		case h > RetainedWarning+1e-9:
			c.Severity = Warning
			c.Text = fmt.Sprintf("%s holds back %s: a low retaining wall that wants deep pegs, bolted corner posts and a drain behind it. Take advice before building; the local code rules.", w.Bed, millimetres(h))
		case h > RetainedNote+1e-9:
			c.Severity = Note
			c.Text = fmt.Sprintf("%s holds back %s: use deep pegs and keep it drained, or bolt the boards to corner posts. The local code rules.", w.Bed, millimetres(h))
		default:
			continue
		}
		c.Text += place
		c.Source += source
		out = append(out, c)
	}
	return out
}

// bearing says what makes a wall a loaded one; empty when nothing does. A
// slope that cannot be told (NaN) counts as steep.
func bearing(plot *geodata.Plot, w Wall) string {
	if !(w.SlopeBehind <= SteepBehind) {
		return fmt.Sprintf("the ground behind it is, or may be, steeper than %.0f %%", SteepBehind*100)
	}
	outline := near.Of(w.Outline)
	if s := beside(plot, w, outline); s != "" {
		return s
	}
	switch {
	case !outline.Closer(edges(plot.Boundary), NearBoundary):
		return ""
	case !plot.BoundaryDrawn:
		return "it lies within 1 m of the edge of the surveyed heights, taken for the boundary because none is drawn"
	}
	return "it lies within 1 m of the boundary"
}

// beside names the first path or obstacle that bears behind the wall.
func beside(plot *geodata.Plot, w Wall, outline near.Shape) string {
	behind, reach := strip(w)
	if reach > 0 {
		behind = outline
	}
	for _, f := range name(plot.Fixtures) {
		if bears(f.Fixture) && near.Of(f.Shape).Closer(behind, reach+1e-9) {
			return f.said + " bears on the ground behind it"
		}
	}
	return ""
}

// bears is true for a path and for every obstacle but a hedge or a fence,
// which stand on their own roots and posts.
func bears(f geodata.Fixture) bool {
	return f.Kind == geodata.PathKind ||
		f.Kind == geodata.ObstacleKind && f.What != "hedge" && f.What != "fence"
}

// strip is the ground behind the wall: from the bed's uphill edge BearsWithin
// up the slope. When the way up is not known it is empty, and reach is the
// distance that counts round the whole bed.
func strip(w Wall) (behind near.Shape, reach float64) {
	if len(w.Outline) == 0 || len(w.Outline[0]) < 4 || !(math.Hypot(w.Uphill[0], w.Uphill[1]) > 0.5) {
		return near.Shape{}, BearsWithin
	}
	up := func(p orb.Point) float64 { return p[0]*w.Uphill[0] + p[1]*w.Uphill[1] }
	ring := w.Outline[0]
	a, b, highest := ring[0], ring[1], math.Inf(-1)
	for i := 1; i < len(ring); i++ {
		if h := up(ring[i-1]) + up(ring[i]); h > highest {
			a, b, highest = ring[i-1], ring[i], h
		}
	}
	raised := func(p orb.Point) orb.Point {
		return orb.Point{p[0] + BearsWithin*w.Uphill[0], p[1] + BearsWithin*w.Uphill[1]}
	}
	return near.Of(orb.Ring{a, b, raised(b), raised(a), a}), 0
}

// edges are the rings of a polygon as lines, without its inside.
func edges(p orb.Polygon) near.Shape {
	lines := make(orb.MultiLineString, len(p))
	for i, r := range p {
		lines[i] = orb.LineString(r)
	}
	return near.Of(lines)
}

// middle is the middle of a bed's outline; nil when it has none.
func middle(p orb.Polygon) *orb.Point {
	if len(p) == 0 || len(p[0]) == 0 {
		return nil
	}
	c := p.Bound().Center()
	return &c
}
