package plan

import (
	"crossfall/siting"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"
	"github.com/paulmach/orb/planar"
)

var barrowStyle = Style{Stroke: Grey, Width: .4, Dash: []float64{2.4, 1.2}, Class: "barrow"}

// barrow draws the ways by which compost gets to the beds, each from where it
// leaves those drawn before it, and writes what they are along the longest.
func (p *painter) barrow(beds []siting.Bed) {
	var drawn []orb.LineString
	var longest orb.LineString
	for _, b := range beds {
		if b.Access == nil {
			continue
		}
		line := apart(routeOf(b.Access.Route), drawn)
		if len(line) < 2 {
			continue
		}
		drawn = append(drawn, line)
		for _, part := range clip.LineString(p.sheet.area, orb.LineString(p.ground(line))) {
			p.add(areaLayer, part, false, barrowStyle)
			if longest == nil || planar.Length(part) > planar.Length(longest) {
				longest = part
			}
			p.use(entry{rank: rankWay, text: "way of the barrow to the beds", sample: lineSample(barrowStyle)})
		}
	}
	p.named("barrow", longest, false)
}

func routeOf(route []siting.Corner) orb.LineString {
	var line orb.LineString
	for _, c := range route {
		line = append(line, orb.Point{c[0], c[1]})
	}
	return line
}

// together is how near one way must be to another to be drawn as one, m.
const together = 0.2

// apart is the part of a line after it has left lines drawn before it for good.
func apart(line orb.LineString, before []orb.LineString) orb.LineString {
	for i := len(line) - 1; i > 0; i-- {
		for _, b := range before {
			// the last point that lies on another way
			if planar.DistanceFrom(b, line[i]) < together {
				return line[i:]
			}
		}
		for _, b := range before {
			if at, ok := leaves(line[i-1], line[i], b); ok {
				return append(orb.LineString{at}, line[i:]...)
			}
		}
	}
	return line
}

// leaves is the last place on a segment that lies on another way; ok is false
// where none does.
func leaves(from, to orb.Point, other orb.LineString) (orb.Point, bool) {
	const parts = 20
	for k := parts - 1; k >= 0; k-- {
		t := float64(k) / parts
		at := orb.Point{from[0] + t*(to[0]-from[0]), from[1] + t*(to[1]-from[1])}
		if planar.DistanceFrom(other, at) < together {
			return at, true
		}
	}
	return orb.Point{}, false
}
