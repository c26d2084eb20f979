package relief

import (
	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Contour is one line of equal height. Walking along it, the high ground is on
// the right.
type Contour struct {
	Level  float64        // metres
	Line   orb.LineString // metres; repeats its first point at the end when Closed
	Closed bool
}

// Contours draws the lines of equal height at the given levels (metres) by
// marching squares: a node is high when its height is the level or more, a
// line crosses the side between a high and a low node at the place that linear
// interpolation gives, and where all four sides are crossed the asymptotic
// decider (Nielson & Hamann 1991, Proc. IEEE Visualization, from memory) says
// which corners belong together. Squares with an unknown height are left out,
// so lines end there. No two lines cross.
//
// Lines come in the order of the levels; within a level open lines come first,
// then closed ones, each by the square it starts in, row by row from the south.
// A peak of one node exactly at the level leaves no line. A grid that
// Grid.Check refuses gives none.
func Contours(g *terrain.Grid, levels []float64) []Contour {
	if g.Check() != nil || g.Cols < 2 || g.Rows < 2 {
		return nil
	}
	m := newMarch(g)
	var out []Contour
	for _, level := range levels {
		if known(level) {
			m.collect(level)
			out = m.join(out, level)
		}
	}
	return out
}

// march holds the segments of one level. A crossed side has a number: twice
// the number of the node at its western or southern end, plus 1 if it runs
// north. Every segment leads from one crossed side to another, and a side ends
// at most one segment and starts at most one, so the segments of a level form
// chains.
type march struct {
	grid   *terrain.Grid
	next   []int32 // by side: the side its segment leads to, or none
	led    []bool  // by side: some segment leads here
	starts []int32 // sides that start a segment, in the order of the squares
}

const none = int32(-1)

func newMarch(g *terrain.Grid) *march {
	m := &march{grid: g, next: make([]int32, 2*len(g.Z)), led: make([]bool, 2*len(g.Z))}
	for i := range m.next {
		m.next[i] = none
	}
	return m
}

// collect finds the segments of a level.
func (m *march) collect(level float64) {
	m.starts = m.starts[:0]
	cols := m.grid.Cols
	for row := range m.grid.Rows - 1 {
		south := m.grid.Z[row*cols : (row+1)*cols]
		north := m.grid.Z[(row+1)*cols : (row+2)*cols]
		for col := range cols - 1 {
			sw, se, ne, nw := south[col]-level, south[col+1]-level, north[col+1]-level, north[col]-level
			if sum := sw + se + ne + nw; sum-sum != 0 { // a NaN or an infinity among them
				continue
			}
			high := highCorners(sw, se, ne, nw)
			if high == 0 || high == 15 {
				continue
			}
			node := int32(row*cols + col)
			side := [4]int32{2 * node, 2*(node+1) + 1, 2 * (node + int32(cols)), 2*node + 1}
			for _, s := range squareSegments(high, sw, se, ne, nw) {
				if s.from == s.to {
					break
				}
				m.add(side[s.from], side[s.to])
			}
		}
	}
}

func (m *march) add(from, to int32) {
	m.next[from] = to
	m.led[to] = true
	m.starts = append(m.starts, from)
}

// highCorners sets bit 0 to 3 for south-west, south-east, north-east and
// north-west when that corner, measured from the level, is high.
func highCorners(sw, se, ne, nw float64) (bits int) {
	if sw >= 0 {
		bits |= 1
	}
	if se >= 0 {
		bits |= 2
	}
	if ne >= 0 {
		bits |= 4
	}
	if nw >= 0 {
		bits |= 8
	}
	return bits
}

// segment joins two sides of a square; both the same means no segment.
type segment struct{ from, to int8 }

// The sides of a square.
const (
	southSide = iota
	eastSide
	northSide
	westSide
)

// segmentsOf has the segments by high corners. Going round a square against
// the clock, a segment starts on the side where the corners turn high and ends
// on the one where they turn low again; that keeps the high ground on the
// right. Rows 5 and 10 join the two high corners; splitSaddle parts them.
var segmentsOf = [16][2]segment{
	1:  {{westSide, southSide}},
	2:  {{southSide, eastSide}},
	3:  {{westSide, eastSide}},
	4:  {{eastSide, northSide}},
	5:  {{eastSide, southSide}, {westSide, northSide}},
	6:  {{southSide, northSide}},
	7:  {{westSide, northSide}},
	8:  {{northSide, westSide}},
	9:  {{northSide, southSide}},
	10: {{southSide, westSide}, {northSide, eastSide}},
	11: {{northSide, eastSide}},
	12: {{eastSide, westSide}},
	13: {{eastSide, southSide}},
	14: {{southSide, westSide}},
}

var splitSaddle = map[int][2]segment{
	5:  {{westSide, southSide}, {eastSide, northSide}},
	10: {{southSide, eastSide}, {northSide, westSide}},
}

// squareSegments gives the segments of one square from its high corners and
// its corners' heights measured from the level.
func squareSegments(high int, sw, se, ne, nw float64) [2]segment {
	if high != 5 && high != 10 {
		return segmentsOf[high]
	}
	// The height of the saddle above the level is (nw se - ne sw)/(nw + se -
	// ne - sw); the divisor is under 0 when south-west and north-east are the
	// high corners and over 0 when they are the low ones.
	product := nw*se - ne*sw
	joined := (high == 5 && product <= 0) || (high == 10 && product >= 0)
	if joined {
		return segmentsOf[high]
	}
	return splitSaddle[high]
}

// join strings the segments into lines and clears the march for another level.
func (m *march) join(out []Contour, level float64) []Contour {
	for _, start := range m.starts {
		if !m.led[start] {
			out = m.follow(out, level, start)
		}
	}
	for _, start := range m.starts {
		if m.next[start] != none {
			out = m.follow(out, level, start)
		}
	}
	return out
}

// follow takes the line that starts at a side out of the march.
func (m *march) follow(out []Contour, level float64, start int32) []Contour {
	line := orb.LineString{m.crossing(start, level)}
	side := start
	for {
		to := m.next[side]
		m.next[side] = none
		m.led[side] = false
		if to == none {
			break
		}
		side = to
		// Crossings at a node exactly at the level fall together.
		if p := m.crossing(side, level); p != line[len(line)-1] {
			line = append(line, p)
		}
	}
	if len(line) < 2 {
		return out
	}
	return append(out, Contour{Level: level, Line: line, Closed: side == start})
}

// crossing is where a side is cut by the level. The place is worked from the
// side's own two ends, so that both squares beside it get the same bits.
func (m *march) crossing(side int32, level float64) orb.Point {
	g := m.grid
	a := int(side / 2)
	b := a + 1
	if side%2 == 1 {
		b = a + g.Cols
	}
	t := (level - g.Z[a]) / (g.Z[b] - g.Z[a])
	col, row := float64(a%g.Cols), float64(a/g.Cols)
	if side%2 == 1 {
		row += t
	} else {
		col += t
	}
	return orb.Point{g.Origin[0] + col*g.Cell, g.Origin[1] + row*g.Cell}
}
