package plan

import (
	"crossfall/siting"

	"github.com/paulmach/orb"
)

var heapStyle = Style{Stroke: Black, Width: .3, Fill: Pale, Class: "heap"}

// heap draws the place that compost is carried from: a mound seen from the side.
func (p *painter) heap(f siting.Feature, pts []orb.Point) {
	for _, at := range pts {
		p.ring(fixtureLayer, mound(at), heapStyle)
		p.labels.mark(at, 2.2)
	}
	p.named(f.Name, pts, false)
	p.use(entry{rank: rankWay, text: "heap that compost is carried from", sample: func(p *painter, at orb.Point) {
		p.add(panelLayer, mound(at), true, heapStyle)
	}})
}

// mound is the outline of a heap about a point of the paper.
func mound(at orb.Point) []orb.Point {
	var out []orb.Point
	for _, d := range [...]orb.Point{{-2, 1}, {-1.3, -.1}, {-.5, -.9}, {0, -1.1}, {.5, -.9}, {1.3, -.1}, {2, 1}} {
		out = append(out, orb.Point{at[0] + d[0], at[1] + d[1]})
	}
	return out
}
