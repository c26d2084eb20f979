package plotfolder

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// What heights must be for a plane to be told from them: defaults of ours.
const (
	leastHeights = 3
	inLine       = 0.05  // m; heights within a strip of this width are in one line
	inLineShare  = 0.005 // or within this share of its length
	onePoint     = 0.05  // m; heights within this extent are of one place
)

// checkSpread refuses heights that fix no plane: fewer than three, or all in one
// line.
func checkSpread(spots []geodata.SpotHeight, name string, c *collector) {
	at := geodata.Pos{File: name}
	if len(spots) < leastHeights {
		c.problem(at, "too-few-heights", "", fmt.Sprintf("there are fewer than three heights (%d)", len(spots)),
			"give at least three heights that are not in one line; ten or more tell much better")
		return
	}
	if length, width := strip(spots); width < max(inLine, inLineShare*length) {
		c.problem(at, "heights-in-line", "", fmt.Sprintf("all heights lie in one line, %.2f m wide and %.1f m long", width, length),
			"give at least one height well to the side of the line")
	}
}

// checkOnePlace refuses heights that all lie within a hand's breadth: most likely
// degrees that were taken for metres.
func checkOnePlace(s survey, c *collector) bool {
	if len(s.spots) < leastHeights {
		return true
	}
	length, _ := strip(s.spots)
	if length >= onePoint {
		return true
	}
	c.problem(geodata.Pos{File: s.file}, "heights-at-one-place", "", fmt.Sprintf("all heights lie within %.3g mm of each other", length*1000),
		"if x and y are degrees, name the columns longitude and latitude")
	return false
}

// strip is the length of the heights along their main direction and their
// width across it. The direction is that of the greatest scatter, the angle
// half of atan2(2 sxy, sxx - syy).
func strip(spots []geodata.SpotHeight) (length, width float64) {
	points := make([]orb.Point, len(spots))
	for i, s := range spots {
		points[i] = s.At
	}
	m := centre(points)
	var xx, yy, xy float64
	for _, p := range points {
		dx, dy := p[0]-m[0], p[1]-m[1]
		xx, yy, xy = xx+dx*dx, yy+dy*dy, xy+dx*dy
	}
	sin, cos := math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	along, across := span{math.Inf(1), math.Inf(-1)}, span{math.Inf(1), math.Inf(-1)}
	for _, p := range points {
		dx, dy := p[0]-m[0], p[1]-m[1]
		along.take(dx*cos + dy*sin)
		across.take(dy*cos - dx*sin)
	}
	return along.high - along.low, across.high - across.low
}

type span struct{ low, high float64 }

func (s *span) take(v float64) { s.low, s.high = min(s.low, v), max(s.high, v) }

// checkExtent refuses a plot wider than two kilometres, at the place of what
// lies furthest from the middle.
func checkExtent(spots []geodata.SpotHeight, shapes []drawn, c *collector) bool {
	var places []located
	for _, s := range spots {
		places = append(places, located{s.At, s.Source})
	}
	for _, d := range shapes {
		for _, k := range d.parts {
			places = append(places, located{k.at, k.pos})
		}
	}
	return checkWidth(places, c)
}

// located is a place with where it was read.
type located struct {
	at  orb.Point
	pos geodata.Pos
}

func checkWidth(places []located, c *collector) bool {
	if len(places) == 0 {
		return true
	}
	x, y := make([]float64, len(places)), make([]float64, len(places))
	box := orb.Bound{Min: places[0].at, Max: places[0].at}
	for i, p := range places {
		x[i], y[i] = p.at[0], p.at[1]
		box = box.Extend(p.at)
	}
	w := max(box.Max[0]-box.Min[0], box.Max[1]-box.Min[1])
	if w <= geodata.WidestPlot {
		return true
	}
	mx, my := median(x), median(y)
	far, most := places[0], -1.0
	for _, p := range places {
		if d := math.Hypot(p.at[0]-mx, p.at[1]-my); d > most {
			far, most = p, d
		}
	}
	c.problem(far.pos, "plot-too-wide", fmt.Sprintf("%.2f, %.2f", far.at[0], far.at[1]),
		fmt.Sprintf("the plot would be %.0f m wide, over %.0f m; this place lies furthest out", w, geodata.WidestPlot),
		"check the figure and its unit; heights and features must be in one frame")
	return false
}

// median is the middle value, the lower of two; it sorts its argument.
func median(v []float64) float64 {
	slices.Sort(v)
	return v[(len(v)-1)/2]
}
