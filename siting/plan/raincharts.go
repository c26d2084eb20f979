package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// Sizes of the rain charts, mm; defaults of ours.
const (
	rainLeft = 22.0
	rainHead = 9.0
	rainTall = 46.0
	rainFoot = 12.0
)

// RainFigures are the charts of the rain that there are figures for: the mean
// rain of the months, and how deep the greatest day of a winter is by how seldom
// it is met.
func RainFigures(a *siting.Assessment, opt Options) []Figure {
	var out []Figure
	if f, ok := monthFigure(a, opt); ok {
		out = append(out, f)
	}
	if f, ok := returnFigure(a.Water.Days, opt); ok {
		out = append(out, f)
	}
	return out
}

// depthUnit is the unit of rain on an axis, and its size in mm.
func depthUnit(u geodata.Units) (name string, size float64) {
	if u == geodata.FeetAndInch {
		return "in", 25.4
	}
	return "mm", 1
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// monthFigure is the mean rain of twelve months as bars, those of the winter
// half filled.
func monthFigure(a *siting.Assessment, opt Options) (Figure, bool) {
	months := a.Water.Months
	if len(months) != 12 {
		return Figure{}, false
	}
	unit, size := depthUnit(opt.Units)
	most, wettest, driest := 0.0, 0, 0
	for i, m := range months {
		most = math.Max(most, m/size)
		if m > months[wettest] {
			wettest = i
		}
		if m < months[driest] {
			driest = i
		}
	}
	if !(most > 0) {
		return Figure{}, false
	}
	title := "Mean rain of the months: most in " + monthNames[wettest] + ", least in " + monthNames[driest]
	said := fmt.Sprintf("%s %s in %s, %s %s in %s.", figured(tenth(months[wettest]/size)), unit, monthNames[wettest], figured(tenth(months[driest]/size)), unit, monthNames[driest])
	return Figure{chartWide, rainHead + rainTall + rainFoot, title, said, func(d Drawing) {
		y := scale{low: 0, high: most * 1.08, from: rainHead + rainTall, to: rainHead}
		upright(d, y, most, unit, "Mean rain of the months")
		step := (chartWide - 4 - rainLeft) / 12
		for i, m := range months {
			mid := rainLeft + step*(float64(i)+.5)
			top := y.at(m / size)
			s := barStyle
			if !winterMonth(a.Water.WinterMonths, i) {
				s.Fill = Paper
			}
			d.Polygon([]orb.Point{{mid - step*.36, y.from}, {mid - step*.36, top}, {mid + step*.36, top}, {mid + step*.36, y.from}}, s)
			d.Text(orb.Point{mid, top - 1.9}, figured(axisRound(m/size, most)), chartText)
			d.Text(orb.Point{mid, y.from + 2.6}, monthNames[i][:3], chartText)
		}
		d.Text(orb.Point{rainLeft, y.from + 7.5}, "grey: the wet half of the year, "+a.Water.WinterMonths, anchored(chartText, Start))
	}}, true
}

// axisRound rounds a figure to a whole one, or to a tenth where all are small.
func axisRound(v, most float64) float64 {
	if most < 20 {
		return tenth(v)
	}
	return math.Round(v)
}

// winterMonth tells whether month i, from 0, is in the wet half of the year.
func winterMonth(half string, i int) bool {
	south := half == "April to September"
	return (i >= 3 && i <= 8) == south
}

// upright draws the axis of a depth with its rules.
func upright(d Drawing, y scale, most float64, unit, title string) {
	d.Text(orb.Point{0, 2.6}, title, chartTitle)
	for _, v := range ruled(0, most, 6) {
		d.Line([]orb.Point{{rainLeft, y.at(v)}, {chartWide - 4, y.at(v)}}, ruleStyle)
		d.Text(orb.Point{rainLeft - 2, y.at(v)}, figured(v)+" "+unit, anchored(chartText, End))
	}
	d.Line([]orb.Point{{rainLeft, y.to}, {rainLeft, y.from}, {chartWide - 4, y.from}}, axisStyle)
}

// returnFigure is the depth of the greatest day of a winter over how seldom it
// is met, as a curve with its 95 % band, and the winters of the record as dots
// at the plotting positions (i - 0.44)/(n + 0.12) of Gringorten (1963).
func returnFigure(days *siting.RainDays, opt Options) (Figure, bool) {
	if days == nil || len(days.Winters) < 2 {
		return Figure{}, false
	}
	unit, size := depthUnit(opt.Units)
	var middle, band, back []orb.Point
	most, longest := 0.0, 0.0
	for _, l := range days.Winters {
		most, longest = math.Max(most, l.Depth.High/size), math.Max(longest, l.ReturnYears)
	}
	dots := plotted(days.Greatest)
	for _, p := range dots {
		most = math.Max(most, p[1]/size)
	}
	if !(most > 0) || math.IsInf(most, 0) {
		return Figure{}, false
	}
	x := scale{low: 1.2, high: longest, from: rainLeft, to: chartWide - 6, log: true}
	y := scale{low: 0, high: most * 1.05, from: rainHead + rainTall, to: rainHead}
	for _, l := range days.Winters {
		at := x.at(l.ReturnYears)
		middle = append(middle, orb.Point{at, y.at(l.Depth.Value / size)})
		band = append(band, orb.Point{at, y.at(l.Depth.Low / size)})
		back = append(back, orb.Point{at, y.at(l.Depth.High / size)})
	}
	slices.Reverse(back)
	last := days.Winters[len(days.Winters)-1]
	said := fmt.Sprintf("Met once in %s winters: %s %s (%s to %s).", figured(last.ReturnYears), figured(axisRound(last.Depth.Value/size, most)), unit,
		figured(axisRound(last.Depth.Low/size, most)), figured(axisRound(last.Depth.High/size, most)))
	return Figure{chartWide, rainHead + rainTall + rainFoot, "The greatest day of a winter, by how seldom it is met. " + said, fmt.Sprintf("%d winters were read.", len(days.Greatest)), func(d Drawing) {
		d.Polygon(append(band, back...), fanStyle)
		upright(d, y, most, unit, "Greatest day of a winter")
		d.Line(middle, Style{Stroke: Black, Width: .7, Class: "return-level"})
		for _, p := range dots {
			if p[0] >= x.low && p[0] <= x.high {
				d.Polygon(disc(orb.Point{x.at(p[0]), y.at(p[1] / size)}, .7), dotStyle)
			}
		}
		for _, t := range [...]float64{2, 5, 10, 20, 30, 50, 100, 200} {
			if t <= longest {
				d.Line([]orb.Point{{x.at(t), y.from}, {x.at(t), y.from + 1}}, axisStyle)
				d.Text(orb.Point{x.at(t), y.from + 2.9}, figured(t), chartText)
			}
		}
		d.Text(orb.Point{rainLeft, y.from + 7.5}, "met once in so many winters on average; grey: the 95 % band; dots: the winters of the record", anchored(chartText, Start))
	}}, true
}

// plotted are the values of a record at their return periods, by Gringorten.
func plotted(values []float64) []orb.Point {
	sorted := slices.Clone(values)
	slices.SortFunc(sorted, cmp.Compare)
	n := float64(len(sorted))
	out := make([]orb.Point, len(sorted))
	for i, v := range sorted {
		p := (float64(i+1) - .44) / (n + .12) // not passed in a winter
		out[i] = orb.Point{1 / (1 - p), v}
	}
	return out
}
