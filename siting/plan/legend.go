package plan

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// rank orders the legend.
type rank int

const (
	rankBoundary rank = iota
	rankContour
	rankSpot
	rankMark
	rankBed
	rankStep
	rankUphill
	rankLow
	rankPeg
	rankRunoff
	rankPath
	rankTurned
	rankHollow
	rankService
	rankStrip
	rankObstacle
	rankTree
	rankWay
	rankBreak
	rankNoGo
)

// entry is one line of the legend: what was drawn, in words, and a sample of
// it about a point of the panel.
type entry struct {
	rank   rank
	text   string
	sample func(p *painter, at orb.Point)
}

// use notes that something was drawn, once for each wording.
func (p *painter) use(e entry) {
	for _, have := range p.legend {
		if have.text == e.text {
			return
		}
	}
	p.legend = append(p.legend, e)
}

// entries are the legend in its order.
func (p *painter) entries() []entry {
	out := slices.Clone(p.legend)
	slices.SortStableFunc(out, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.text, b.text))
	})
	return out
}

const sampleHalf = 5.0 // mm, half the length of a sample

func lineSample(s Style) func(*painter, orb.Point) {
	return func(p *painter, at orb.Point) {
		p.add(panelLayer, []orb.Point{{at[0] - sampleHalf, at[1]}, {at[0] + sampleHalf, at[1]}}, false, s)
	}
}

func boxSample(s Style) func(*painter, orb.Point) {
	return func(p *painter, at orb.Point) { p.add(panelLayer, rectangle(at, 9, 3), true, s) }
}

func hatchSample(edge, lines Style, angle, spacing float64) func(*painter, orb.Point) {
	return func(p *painter, at orb.Point) {
		r := rectangle(at, 9, 3)
		for _, l := range hatch([][]orb.Point{r}, angle, spacing) {
			p.add(panelLayer, []orb.Point{l[0], l[1]}, false, lines)
		}
		p.add(panelLayer, r, true, edge)
	}
}

func arrowSample(s Style) func(*painter, orb.Point) {
	return func(p *painter, at orb.Point) {
		tip := orb.Point{at[0] + sampleHalf, at[1]}
		head := 2 + s.Width
		p.add(panelLayer, []orb.Point{{at[0] - sampleHalf, at[1]}, {tip[0] - head/2, tip[1]}}, false, s)
		p.add(panelLayer, arrowHead(tip, orb.Point{1, 0}, head), true, waterFill)
	}
}

func tickSample(step, from, to float64) func(*painter, orb.Point) {
	return func(p *painter, at orb.Point) {
		pts := []orb.Point{{at[0] - sampleHalf, at[1]}, {at[0] + sampleHalf, at[1]}}
		p.add(panelLayer, pts, false, thinStyle)
		for _, t := range ticks(newWalk(pts), step, from, to) {
			p.add(panelLayer, t, false, thinStyle)
		}
	}
}
