package plan

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ErrNoFall is returned for an assessment without a fall.
var ErrNoFall = errors.New("plan: there is no fall to draw")

// Sizes of the picture of the fall, mm; defaults of ours.
const (
	fanHead  = 8.0
	fanTall  = 40.0
	fanLong  = 78.0 // of the level line
	fanStep  = 5.0  // from one bed to the next
	fanNames = 40.0
	fanFoot  = 9.0
)

var fanStyle = Style{Stroke: Black, Width: .2, Fill: "#d9d9d9", Class: "fan"}

// fallRow is one fall with its band.
type fallRow struct {
	name string
	fall geodata.Estimate // %
}

// FallFigure is how well the fall is known: the slopes that the heights allow as
// a fan, the ways that water may leave by as a sector, and the bands of the fall
// under the beds beside that of the plot.
func FallFigure(a *siting.Assessment) (Figure, error) {
	fall := a.Ground.FallPercent
	if !(fall.High > 0) || math.IsInf(fall.High, 0) {
		return Figure{}, ErrNoFall
	}
	rows := []fallRow{{"the plot", fall}}
	for _, b := range a.Beds {
		if b.FallPercent.High > 0 {
			rows = append(rows, fallRow{b.Name, b.FallPercent})
		}
	}
	height := fanHead + fanTall + fanStep*float64(len(rows)) + fanFoot + 6
	said := "Fall of the ground: " + a.Ground.FallSaid + "."
	return Figure{chartWide, height, "How well the fall of the ground is known. " + said, rowsSaid(rows), func(d Drawing) {
		d.Text(orb.Point{0, 2.6}, "What the heights say of the fall of the plot", chartTitle)
		fan(d, a.Ground)
		compass(d, a)
		bands(d, rows, fanHead+fanTall+6)
	}}, nil
}

// fan draws the slopes between the ends of the band, steeper than they are.
func fan(d Drawing, g siting.Ground) {
	e := g.FallPercent
	corner := orb.Point{2, fanHead + 6}
	deep := fanTall - 14
	times := steeper(fanLong * e.High / 100 / deep)
	end := func(percent float64) orb.Point {
		return orb.Point{corner[0] + fanLong, corner[1] + fanLong*percent/100*times}
	}
	d.Polygon([]orb.Point{corner, end(math.Max(0, e.Low)), end(e.High)}, fanStyle)
	d.Line([]orb.Point{corner, end(0)}, ruleStyle)
	d.Text(orb.Point{corner[0] + fanLong/2, corner[1] - 2.4}, "level", chartText)
	label := anchored(chartText, Start)
	d.Text(orb.Point{corner[0] + fanLong + 1.5, end((math.Max(0, e.Low) + e.High) / 2)[1]},
		fmt.Sprintf("%.1f to %.1f %%", math.Max(0, e.Low), e.High), label)
	if g.Determined {
		d.Line([]orb.Point{corner, end(e.Value)}, Style{Stroke: Black, Width: .7, Class: "fall"})
	}
	said := "the fall lies in the grey fan 95 times in 100"
	if times != 1 {
		said += fmt.Sprintf("; drawn %s times as steep", figured(times))
	}
	d.Text(orb.Point{corner[0], fanHead + fanTall - 2}, said, label)
}

func tenth(v float64) float64 { return math.Round(v*10) / 10 }

// steeper is a round number of times by which a slope is drawn steeper, so that
// its part of the room becomes 1 at the most.
func steeper(part float64) float64 {
	best := 1.0
	for _, k := range [...]float64{2, 5, 10, 20, 50, 100} {
		if part*k <= 1 {
			best = k
		}
	}
	if part > 1 { // steeper than the room
		return 1 / math.Ceil(part)
	}
	return best
}

// compass draws the ways that water may leave by; the whole circle where that
// cannot be told.
func compass(d Drawing, a *siting.Assessment) {
	const radius = 13.0
	c := orb.Point{132, fanHead + 20}
	r := a.Ground.RunoffBearing
	at := func(bearing, k float64) orb.Point {
		sin, cos := math.Sincos((bearing - a.Frame.AxisBearing) * math.Pi / 180)
		return orb.Point{c[0] + k*sin, c[1] - k*cos}
	}
	d.Polygon(disc(c, radius), Style{Stroke: Black, Width: .2, Fill: Paper, Class: "compass"})
	if r.Value != nil && r.Low != nil && r.High != nil {
		d.Polygon(sector(c, at, *r.Low, *r.High, radius), fanStyle)
		tip := at(*r.Value, radius-1)
		dir := orb.Point{tip[0] - c[0], tip[1] - c[1]}
		d.Line([]orb.Point{c, at(*r.Value, radius-3.5)}, Style{Stroke: Accent, Width: .9, Class: "runoff"})
		d.Polygon(arrowHead(tip, dir, 4), waterFill)
	}
	north := chartText
	north.Bold = true
	d.Text(at(0, radius+2.6), "N", north)
	d.Line([]orb.Point{at(0, radius), at(0, radius-2)}, axisStyle)
	d.Text(orb.Point{c[0], fanHead + fanTall - 2}, "way the water leaves, from "+northName(a.Frame), chartText)
	if r.Value == nil {
		d.Text(c, "cannot tell", chartText)
	}
}

// sector is the part of a disc between two bearings, clockwise.
func sector(c orb.Point, at func(bearing, k float64) orb.Point, low, high, radius float64) []orb.Point {
	wide := math.Mod(high-low+720, 360)
	pts := []orb.Point{c}
	n := max(2, int(wide/3))
	for i := range n + 1 {
		pts = append(pts, at(low+wide*float64(i)/float64(n), radius))
	}
	return pts
}

// bands draws falls under one another on one axis.
func bands(d Drawing, rows []fallRow, top float64) {
	most := 0.0
	for _, r := range rows {
		most = math.Max(most, r.fall.High)
	}
	x := scale{low: 0, high: most * 1.02, from: fanNames, to: chartWide - 6}
	foot := top + fanStep*float64(len(rows))
	for _, v := range ruled(0, most, 8) {
		d.Line([]orb.Point{{x.at(v), top - 1}, {x.at(v), foot}}, ruleStyle)
		d.Text(orb.Point{x.at(v), foot + 2.8}, figured(v)+" %", chartText)
	}
	d.Line([]orb.Point{{x.at(0), top - 1}, {x.at(0), foot}}, axisStyle)
	for i, r := range rows {
		y := top + fanStep*(float64(i)+.5)
		d.Text(orb.Point{fanNames - 2, y}, r.name, anchored(chartText, End))
		banded(d, x, y, math.Max(0, r.fall.Low), r.fall.Value, r.fall.High)
	}
	d.Text(orb.Point{fanNames, foot + 6.6}, "fall of the ground: dot, the figure; line with ends, its band", anchored(chartText, Start))
}

func rowsSaid(rows []fallRow) string {
	t := ""
	for _, r := range rows {
		t += fmt.Sprintf("%s: %.1f %% (%.1f to %.1f). ", r.name, r.fall.Value, r.fall.Low, r.fall.High)
	}
	return t
}
