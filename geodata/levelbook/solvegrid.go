package levelbook

import (
	"math"
	"slices"
	"strconv"

	"crossfall/geodata"
)

// grid places the stations of a grid walk and looks for lines booked backwards.
func (s *solver) grid(i int) {
	r := s.ties.Rows[i]
	corner, towards := s.placed(r.From), s.placed(r.To)
	along, okA := s.plan(i, r.A, r.From, "")
	across, okB := s.plan(i, r.B, r.From, "")
	if !okA || !okB {
		return
	}
	g := GridWalk{
		Corner: corner.Where, Towards: towards.Where, Along: along.length, Across: across.length,
		Nodes: r.Nodes, Lines: r.Lines, Side: r.Side, Serpentine: r.Serpentine,
	}
	places := g.Places()
	if len(places) == 0 {
		s.faults.Add(s.fault(i, geodata.Problem, "base-too-short", "the corner of the grid and the mark its first line points to are one place", "name a mark farther along the first line"))
		return
	}
	base := math.Max(corner.Sigma, towards.Sigma)
	for n, p := range places {
		line, k := g.Node(n)
		x, y := float64(k), float64(line)
		// Each spacing is taped anew: the errors add up by squares.
		tapes := math.Hypot(along.sigma*math.Sqrt(math.Max(x, 1)), across.sigma*math.Sqrt(math.Max(y, 1)))
		sigma := math.Hypot(math.Hypot(tapes, y*across.length*squareSigma), base)
		s.put(i, gridStation(r.Point, n), TieResult{Method: GridTie, From: []string{corner.Station, towards.Station}, Where: &p, Sigma: sigma})
	}
	s.reversed(i, g)
}

// gridStation is the name of the n-th station of a grid, from 0.
func gridStation(stem string, n int) string { return stem + strconv.Itoa(n+1) }

// reversed warns of lines of a grid that look booked backwards.
func (s *solver) reversed(i int, g GridWalk) {
	heights, sigma := make([][]float64, g.Lines), s.opt.GroundSigma
	for l := range heights {
		heights[l] = slices.Repeat([]float64{math.NaN()}, g.Nodes)
	}
	for n := range g.Nodes * g.Lines {
		if l, found := s.level[nameKey(gridStation(s.ties.Rows[i].Point, n))]; found {
			line, along := g.Node(n)
			heights[line][along] = l.Level
			sigma = math.Max(sigma, l.Sigma)
		}
	}
	lines := ReversedLines(heights, sigma)
	if len(lines) == 0 {
		return
	}
	for k := range lines {
		lines[k]++
	}
	s.out.Results[len(s.out.Results)-1].Reversed = lines
	want := "compare the booking of these lines with the ground"
	if len(lines) > 1 && len(lines) == g.Lines/2 {
		want = "see whether every second line was walked backwards: the order says " + orderWord(g.Serpentine)
	}
	s.faults.Add(s.fault(i, geodata.Warning, "grid-line-reversed", "turned round, "+linesNamed(lines)+" of this grid would fit the lines beside much better", want))
}

// linesNamed lists lines of a grid: "line 2", "lines 2, 4".
func linesNamed(lines []int) string {
	text := "line"
	if len(lines) > 1 {
		text = "lines"
	}
	for i, l := range lines {
		if i > 0 {
			text += ","
		}
		text += " " + strconv.Itoa(l)
	}
	return text
}

func orderWord(serpentine bool) string {
	if serpentine {
		return "serpentine"
	}
	return "raster"
}
