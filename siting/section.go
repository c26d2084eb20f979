package siting

import (
	"cmp"
	"math"
	"slices"

	"crossfall/siting/bed"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// Section is the cut through a bed that shows how it is built: across it, or
// along it where it is stepped that way. Points are the distance from the high
// side, falling away to positive, and the height, both m, heights as those of
// the spot heights.
type Section struct {
	Along  bool           `json:"along"`   // cut along the long side, else across it
	Length float64        `json:"bed_m"`   // of bed that is cut: from 0 to this
	Ground []orb.Point    `json:"ground"`  // line of the ground, past both sides
	Fill   [][]orb.Point  `json:"compost"` // outline of the compost in each bay
	Boards []SectionBoard `json:"boards"`
	Pegs   []SectionPeg   `json:"pegs"` // those behind the cut are shown as if they stood in it
}

// SectionBoard is a board, or boards on one another, cut through.
type SectionBoard struct {
	Name     string    `json:"name"`
	From     float64   `json:"from_m"` // its two faces
	To       float64   `json:"to_m"`
	Bottom   float64   `json:"bottom_m"`
	Joints   []float64 `json:"joints_m"` // heights between boards on one another
	Top      float64   `json:"top_m"`
	Retained float64   `json:"retained_mm"` // compost against it over the ground outside
}

// SectionPeg is a peg seen from the side.
type SectionPeg struct {
	From   float64 `json:"from_m"`
	To     float64 `json:"to_m"`
	Top    float64 `json:"top_m"`
	Bottom float64 `json:"bottom_m"` // of its whole section; the point reaches Tip
	Tip    float64 `json:"tip_m"`
}

// Ground shown beside a bed, m, where it is cut across and along.
const beyondAcross, beyondAlong = 0.4, 0.3

// cutter draws one section.
type cutter struct {
	j      judge
	d      decision
	along  bool
	length float64
}

// section cuts through a bed; nil where nothing is built.
func (j judge) section(d decision) *Section {
	c := d.chosen
	if c.Class == frame.DoNotBuild {
		return nil
	}
	k := cutter{j: j, d: d, length: d.bed.Width}
	if c.BaysAlong > 1 && (c.BaysAcross < 2 || c.RiseAlong >= c.RiseAcross) {
		k.along, k.length = true, d.bed.Length
	}
	s := &Section{Along: k.along, Length: k.length, Ground: k.ground(), Boards: []SectionBoard{}, Pegs: []SectionPeg{}}
	s.Fill = k.fill()
	if c.Boards != nil && c.Pegs != nil {
		k.frame(s)
	}
	return s
}

// place turns a distance from the high side into the bed's own measures.
func (k cutter) place(x float64) (right, up float64) {
	if !k.along {
		return 0, k.length/2 - x
	}
	if k.d.ground.LowEndRight {
		return x - k.length/2, 0
	}
	return k.length/2 - x, 0
}

// at is the height of the ground at a distance.
func (k cutter) at(x float64) float64 {
	right, up := k.place(x)
	z, _ := k.j.fit.HeightAt(k.d.bed.Place(k.d.ground.Axes, right, up))
	return z
}

// ground is the line of the ground, a point each 50 mm.
func (k cutter) ground() []orb.Point {
	const step = 0.05
	beyond := beyondAcross
	if k.along {
		beyond = beyondAlong
	}
	n := int(math.Round((k.length + 2*beyond) / step))
	out := make([]orb.Point, n+1)
	for i := range out {
		x := -beyond + (k.length+2*beyond)*float64(i)/float64(n)
		out[i] = orb.Point{x, k.at(x)}
	}
	return out
}

// fill is the outline of the compost of every bay that is cut, high side first.
func (k cutter) fill() [][]orb.Point {
	var out [][]orb.Point
	for _, b := range k.d.fill.Bays {
		if k.cuts(b) {
			out = append(out, k.bayOutline(b))
		}
	}
	slices.SortFunc(out, func(a, b []orb.Point) int { return cmp.Compare(a[0][0], b[0][0]) })
	return out
}

// cuts says whether the middle line of the bed passes through a bay.
func (k cutter) cuts(b bed.Bay) bool {
	if k.along {
		return b.Bottom <= 1e-9 && b.Top > 1e-9
	}
	return b.Left <= 1e-9 && b.Right > 1e-9
}

// bayOutline is the compost of one bay: along its top, and back along the
// ground.
func (k cutter) bayOutline(b bed.Bay) []orb.Point {
	from, to := k.length/2-b.Top, k.length/2-b.Bottom
	if k.along {
		from, to = b.Left+k.length/2, b.Right+k.length/2
		if !k.d.ground.LowEndRight {
			from, to = k.length/2-b.Right, k.length/2-b.Left
		}
	}
	var out []orb.Point
	for _, x := range []float64{from, to} {
		out = append(out, orb.Point{x, b.TopAt(k.place(x))})
	}
	if e := k.d.chosen.Edges; e != nil { // an open bed rakes back from its outline
		return k.raked(out, e.Uphill.Value, e.Downhill.Value)
	}
	const parts = 24
	for i := range parts + 1 {
		x := to + (from-to)*float64(i)/parts
		out = append(out, orb.Point{x, k.at(x)})
	}
	return out
}

// raked is the compost of an open bed: its edges rise from the outline to the
// top over their runs.
func (k cutter) raked(top []orb.Point, uphill, downhill float64) []orb.Point {
	at := func(x float64) orb.Point {
		t := x / k.length
		return orb.Point{x, top[0][1] + t*(top[1][1]-top[0][1])}
	}
	uphill, downhill = math.Min(uphill, k.length/2), math.Min(downhill, k.length/2)
	out := []orb.Point{at(uphill), at(k.length - downhill)}
	const parts = 24
	for i := range parts + 1 {
		x := k.length * (1 - float64(i)/parts)
		out = append(out, orb.Point{x, k.at(x)})
	}
	return out
}

// frame adds the boards that are cut, and their pegs on the low side.
func (k cutter) frame(s *Section) {
	c := k.d.chosen
	t, n, high, inner, low := c.Boards.Thickness, c.BaysAcross, "uphill board", "board of a step", "downhill board"
	first := c.Boards.Uphill
	at := []float64{}
	for i := 1; i < n; i++ {
		at = append(at, k.length*float64(i)/float64(n))
	}
	if k.along {
		// The places of cross boards are the same from either end.
		high, inner, low, first, at = "high end", "cross board", "low end", c.Boards.Downhill, c.Boards.CrossAt
	}
	s.board(k, high, 0, t, first)
	s.peg(k, -c.Pegs.Size, s.Boards[0].Top)
	for _, x := range at {
		if k.along { // cross boards stand on their line, those along the bed below it
			x -= t / 2
		}
		s.board(k, inner, x, x+t, c.Boards.Downhill)
		s.peg(k, x+t, s.Boards[len(s.Boards)-1].Top)
	}
	s.board(k, low, k.length-t, k.length, c.Boards.Downhill)
	s.peg(k, k.length, s.Boards[len(s.Boards)-1].Top)
}

// board stands a board on the ground at its low face, let in as designed.
func (s *Section) board(k cutter, name string, from, to float64, b frame.BoardChoice) {
	foot := k.at(to)
	if from <= 0 {
		foot = k.at(from)
	}
	out := SectionBoard{Name: name, From: from, To: to, Bottom: foot - k.d.chosen.Boards.Sunken, Joints: []float64{}}
	out.Top = out.Bottom
	for i, h := range b.Stack {
		if i > 0 {
			out.Joints = append(out.Joints, out.Top)
		}
		out.Top += h
	}
	for _, f := range s.Fill {
		if from > 0 && math.Abs(f[1][0]-to) < to-from+1e-9 {
			out.Retained = 1000 * (f[1][1] - foot)
		}
	}
	s.Boards = append(s.Boards, out)
}

// peg stands a peg beside a board, its top kept below the board's.
func (s *Section) peg(k cutter, from, board float64) {
	p := k.d.chosen.Pegs
	foot := k.at(from + p.Size/2)
	s.Pegs = append(s.Pegs, SectionPeg{
		From: from, To: from + p.Size, Top: board - frame.PegBelowTop,
		Bottom: foot - p.Embedment.Value, Tip: foot - p.Embedment.Value - frame.PointAllowance,
	})
}
