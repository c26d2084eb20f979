package plan

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// chartWide is the width of charts, mm: they fit between the margins of A4 and
// Letter. A default of ours.
const chartWide = 178.0

// Styles of charts, which differ without colour.
var (
	axisStyle  = Style{Stroke: Black, Width: .3, Class: "axis"}
	ruleStyle  = Style{Stroke: Grey, Width: .12, Dash: []float64{.6, .8}, Class: "rule"}
	barStyle   = Style{Stroke: Black, Width: .25, Fill: "#c9c9c9", Class: "bar"}
	bandStyle  = Style{Stroke: Black, Width: .45, Class: "band"}
	dotStyle   = Style{Stroke: Black, Width: .3, Fill: Paper, Class: "dot"}
	chartText  = TextStyle{Size: 2.6, Ink: Black, Class: "chart"}
	chartTitle = TextStyle{Size: 3.2, Bold: true, Anchor: Start, Ink: Black, Class: "chart-title"}
)

// scale carries figures on to paper along one axis.
type scale struct {
	low, high float64 // figures at the ends
	from, to  float64 // mm
	log       bool
}

func (s scale) at(v float64) float64 {
	low, high := s.low, s.high
	if s.log {
		v, low, high = math.Log(v), math.Log(low), math.Log(high)
	}
	return s.from + (s.to-s.from)*(v-low)/(high-low)
}

// roundStep is the round step, 1, 2 or 5 times a power of ten, that cuts a span
// into at most so many.
func roundStep(span float64, most int) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, k := range [...]float64{1, 2, 5} {
		if span/(k*power) <= float64(most) {
			return k * power
		}
	}
	return 10 * power
}

// ruled gives the round figures from low to high.
func ruled(low, high float64, most int) []float64 {
	step := roundStep(high-low, most)
	var out []float64
	for i := math.Ceil(low/step - 1e-9); i*step <= high*(1+1e-9); i++ {
		out = append(out, i*step)
	}
	return out
}

// figured writes a round figure of an axis.
func figured(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6+0, 'f', -1, 64) // + 0: never minus zero
}

// banded draws a band along x as a line with ends, and its figure as a dot.
func banded(d Drawing, s scale, y, low, value, high float64) {
	const end = 1.1
	a, b := s.at(low), s.at(high)
	d.Line([]orb.Point{{a, y}, {b, y}}, bandStyle)
	for _, x := range [...]float64{a, b} {
		d.Line([]orb.Point{{x, y - end}, {x, y + end}}, bandStyle)
	}
	if !math.IsNaN(value) {
		d.Polygon(disc(orb.Point{s.at(value), y}, .8), dotStyle)
	}
}

func anchored(s TextStyle, a Anchor) TextStyle {
	s.Anchor = a
	return s
}
