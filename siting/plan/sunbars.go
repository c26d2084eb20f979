package plan

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ErrNoSun is returned where the hours of sun are not told.
var ErrNoSun = errors.New("plan: there are no hours of sun to draw")

// Sizes of the bars, mm; defaults of ours.
const (
	sunLeft = 46.0
	sunHead = 8.0
	sunStep = 4.2 // from one bar to the next
	sunGap  = 2.4 // after a bed
	sunFoot = 10.0
)

// SunFigure is the direct sun on each bed on four dates as bars, each with its
// band and the length of the day.
func SunFigure(a *siting.Assessment) (Figure, error) {
	var lit []siting.Bed
	rows, most := 0, 0.0
	for _, b := range a.Beds {
		if b.Light == nil || len(b.Light.Days) == 0 {
			continue
		}
		lit = append(lit, b)
		rows += len(b.Light.Days)
		for _, s := range b.Light.Days {
			most = math.Max(most, math.Max(s.DayLength, s.Hours.High))
		}
	}
	if len(lit) == 0 || most == 0 {
		return Figure{}, ErrNoSun
	}
	height := sunHead + sunStep*float64(rows) + sunGap*float64(len(lit)) + sunFoot
	return Figure{chartWide, height, "Hours of direct sun on each bed", sunSaid(lit), func(d Drawing) {
		x := scale{low: 0, high: most, from: sunLeft, to: chartWide - 4}
		d.Text(orb.Point{0, 2.6}, "Hours of direct sun on a clear day", chartTitle)
		foot := height - sunFoot
		for _, h := range ruled(0, most, 9) {
			d.Line([]orb.Point{{x.at(h), sunHead - 1}, {x.at(h), foot}}, ruleStyle)
			d.Text(orb.Point{x.at(h), foot + 2.5}, figured(h)+" h", chartText)
		}
		d.Text(orb.Point{sunLeft, foot + 7}, "bar: the sun reckoned with; line with ends: its band; upright stroke: length of the day", anchored(chartText, Start))
		y := sunHead
		for _, b := range lit {
			for i, s := range b.Light.Days {
				if i == 0 {
					name := anchored(chartText, Start)
					name.Bold = true
					d.Text(orb.Point{0, y + sunStep/2}, b.Name, name)
				}
				sunBar(d, x, y+sunStep/2, s)
				y += sunStep
			}
			y += sunGap
		}
		d.Line([]orb.Point{{sunLeft, sunHead - 1}, {sunLeft, foot}}, axisStyle)
	}}, nil
}

func sunBar(d Drawing, x scale, y float64, s siting.SunHours) {
	const half = 1.3
	d.Text(orb.Point{sunLeft - 2, y}, s.Date, anchored(chartText, End))
	if s.Hours.Value > 0 {
		d.Polygon(rectangle(orb.Point{(x.at(0) + x.at(s.Hours.Value)) / 2, y}, x.at(s.Hours.Value)-x.at(0), 2*half), barStyle)
	}
	if s.Hours.High > s.Hours.Low {
		banded(d, x, y, s.Hours.Low, math.NaN(), s.Hours.High)
	}
	long := x.at(s.DayLength)
	d.Line([]orb.Point{{long, y - 1.7}, {long, y + 1.7}}, Style{Stroke: Black, Width: .7, Class: "day-length"})
}

// sunSaid tells which bed has most sun when it is scarcest.
func sunSaid(lit []siting.Bed) string {
	var parts []string
	for _, b := range lit {
		var days []string
		for _, s := range b.Light.Days {
			days = append(days, fmt.Sprintf("%.1f hours on %s", s.Hours.Value, s.Date))
		}
		parts = append(parts, b.Name+": "+strings.Join(days, ", ")+".")
	}
	return strings.Join(parts, " ")
}
