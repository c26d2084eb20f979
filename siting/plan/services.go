package plan

import (
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
)

var (
	buriedStyle   = Style{Stroke: Black, Width: .4, Dash: []float64{4, 1}, Class: "service"}
	overheadStyle = Style{Stroke: Black, Width: .4, Dash: []float64{.6, 1.2}, Class: "service"}
	stripStyle    = Style{Stroke: Grey, Width: .15, Class: "clearance"}
	stripHatch    = Style{Stroke: Grey, Width: .15, Class: "clearance-hatch"}
	letterText    = TextStyle{Size: 2.6, Bold: true, Class: "label service-letter"}
)

// letters are what is repeated along a service's line.
var letters = []struct {
	carries geodata.Carrier
	letter  string
}{
	{geodata.Electricity, "E"}, {geodata.Gas, "G"}, {geodata.WaterPipe, "W"}, {geodata.Telecoms, "T"},
	{geodata.Drain, "D"}, {geodata.Oil, "O"},
}

func letterOf(carries string) string {
	for _, l := range letters {
		if string(l.carries) == carries {
			return l.letter
		}
	}
	return "?"
}

// services draws each service as a line with its letter, and hatches the strip
// to be kept free of pegs and digging.
func (p *painter) services(fs []siting.Feature) {
	for _, f := range fs {
		if f.Kind == string(geodata.ServiceKind) {
			p.service(f)
		}
	}
}

func (p *painter) service(f siting.Feature) {
	pts := p.ground(f.Points)
	if len(pts) == 0 {
		return
	}
	s, words := buriedStyle, ", buried"
	if f.Overhead {
		s, words = overheadStyle, ", overhead"
	}
	letter, carries := letterOf(f.Carries), f.Carries
	if letter == "?" {
		carries = "service, not known which"
	}
	p.strip(f)
	if f.Area && len(pts) > 2 {
		pts = append(pts, pts[0])
	}
	w := newWalk(pts)
	p.line(fixtureLayer, pts, s)
	p.labels.markLine(pts)
	for _, d := range w.every(6, 20) {
		b := box{centre: w.at(d), w: textWidth(letter, letterText.Size, true) + .6, h: letterText.Size}
		if at, ok := p.labels.place([]box{b}, false); ok {
			p.label(at, letter, letterText)
		}
	}
	p.use(entry{rank: rankService, text: carries + words, sample: func(p *painter, at orb.Point) {
		p.add(panelLayer, []orb.Point{{at[0] - 5, at[1]}, {at[0] + 5, at[1]}}, false, s)
		p.label(box{centre: at}, letter, letterText)
	}})
	p.named(f.Name, pts, false)
}

// strip hatches the ground within the clearance of a service.
func (p *painter) strip(f siting.Feature) {
	if f.ClearanceM <= 0 {
		return
	}
	rings := buffer(f, f.ClearanceM)
	if len(rings) == 0 {
		return
	}
	var paper [][]orb.Point
	for _, r := range rings {
		pts := p.ground(r)
		p.ring(areaLayer, pts, stripStyle)
		paper = append(paper, pts)
	}
	p.hatching(paper, 45, 1.8, stripHatch)
	p.use(entry{rank: rankStrip, text: "too near a service: no pegs, no digging", sample: hatchSample(stripStyle, stripHatch, 45, 1.8)})
}

// buffer is the outline of the ground within a distance of a feature; no ring
// where the feature's shape cannot be widened.
func buffer(f siting.Feature, distance float64) [][]orb.Point {
	var xy []float64
	for _, q := range f.Points {
		if finite(q) {
			xy = append(xy, q[0], q[1])
		}
	}
	if len(xy) == 0 {
		return nil
	}
	if len(xy) == 2 { // a line of no length keeps one code path
		xy = append(xy, xy[0]+1e-6, xy[1])
	}
	if f.Area {
		xy = append(xy, xy[0], xy[1])
	}
	line := geom.NewLineString(geom.NewSequence(xy, geom.DimXY))
	wide, err := geom.Buffer(line.AsGeometry(), distance)
	if err != nil {
		return nil
	}
	return ringsOf(wide)
}

// ringsOf lists every ring of a polygon or of many.
func ringsOf(g geom.Geometry) [][]orb.Point {
	var polygons []geom.Polygon
	if pg, ok := g.AsPolygon(); ok {
		polygons = append(polygons, pg)
	}
	if mp, ok := g.AsMultiPolygon(); ok {
		polygons = append(polygons, mp.Dump()...)
	}
	var out [][]orb.Point
	for _, pg := range polygons {
		for _, ring := range pg.DumpRings() {
			seq := ring.Coordinates()
			var pts []orb.Point
			for i := range seq.Length() {
				xy := seq.GetXY(i)
				pts = append(pts, orb.Point{xy.X, xy.Y})
			}
			out = append(out, pts)
		}
	}
	return out
}
