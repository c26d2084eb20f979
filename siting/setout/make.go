package setout

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/near"

	"github.com/paulmach/orb"
)

// Input is one bed to be set out.
type Input struct {
	Name    string
	Corners [4]orb.Point // clockwise from the uphill left, m
	Pegs    []orb.Point
	Boards  []Frame
	// Tops are the heights of the frame's top at the corners, m; nil without boards.
	Tops *[4]float64
}

// Frame is one board of a bed as it will stand.
type Frame struct {
	Name string
	Pegs []float64 // along it, as in Board, m
	Side string    // where its pegs stand
	// Tops are the heights of its top at both ends, as in Board, m above the
	// datum of the heights.
	Tops [2]float64
}

// Site is the ground on which beds are set out. The zero value of a field that
// is not known works.
type Site struct {
	Marks []geodata.Fixture
	Beds  []Input
	Left  []string // beds that must not be built
	// Boundary is a closed ring, m. CornerNames name its corners, one for each;
	// without them no cane is proposed along it.
	Boundary    orb.Ring
	CornerNames []string
	Stays       []Spot                       // where a cane can be set at what stays
	Allowed     func(orb.Point) bool         // where a cane may be pushed in; nil: everywhere
	InTheWay    []orb.Geometry               // what no tape passes through
	Height      func(orb.Point) float64      // of the fitted ground, m; nil: level
	HeightError func(a, b orb.Point) float64 // standard deviation of the difference of two heights, m; nil: 0
}

// cornerNames go with Input.Corners.
var cornerNames = [4]string{"uphill left", "uphill right", "downhill right", "downhill left"}

// Make works the setting out of all beds from the marks. A mark is a fixture
// whose shape is a point; other shapes, and points that are not numbers, are
// left out and named in the note. For each point the pair of marks with the
// least expected error is taken whose tapes are no longer than LongestTape,
// pass what is in the way, and meet at 30 to 150 degrees. Where the marks leave
// an end of a row without such a pair, canes are proposed as further marks, and
// the sheet is worked with them.
func Make(site Site) Sheet {
	g := ground{height: site.Height}
	for _, shape := range site.InTheWay {
		g.blocked = append(g.blocked, near.Of(shape))
	}
	s := Sheet{Rows: []Row{}, Beds: []Bed{}, Steps: []Step{}, Left: append([]string{}, site.Left...)}
	marks, notes := pointsOf(site.Marks)
	var sound []Input
	for _, in := range site.Beds {
		if !placed(in) {
			notes = append(notes, fmt.Sprintf("The corners of %s are not known, so it cannot be set out.", in.Name))
			continue
		}
		sound = append(sound, in)
	}
	rows := g.fromTheTop(g.rows(sound))
	drawn := len(marks)
	s.Marks = g.proposed(marks, ends(rows), site)
	for i, row := range rows {
		s.Rows = append(s.Rows, g.tapeRow(rowName(i), s.Marks, row))
	}
	s.Datum = datumOf(sound, site)
	for _, in := range sound {
		s.Beds = append(s.Beds, g.setBed(s, in, site))
	}
	s.Note = joined(append(notes, s.advice(drawn)...))
	s.order()
	return s
}

// pointsOf are the marks that can be taped from, and what is to be said of the
// others.
func pointsOf(fixtures []geodata.Fixture) (marks []Mark, notes []string) {
	marks = []Mark{}
	times := map[string]int{}
	for i, f := range fixtures {
		name := f.Name
		if name == "" {
			name = fmt.Sprintf("mark %d", i+1)
		}
		if times[name]++; times[name] > 1 { // two of one name cannot be told apart on the sheet
			name = fmt.Sprintf("%s (%d)", name, times[name])
		}
		if p, ok := f.Shape.(orb.Point); ok && finite(p) {
			marks = append(marks, Mark{Name: name, At: p})
		} else {
			notes = append(notes, fmt.Sprintf("%s is not a point and cannot be taped from.", name))
		}
	}
	return marks, notes
}

// placed says whether a bed's corners are four different places.
func placed(in Input) bool {
	for i, c := range in.Corners {
		if !finite(c) || !(distance(c, in.Corners[(i+1)%4]) > 1e-3) {
			return false
		}
	}
	return true
}

// ends are the points that must be taped.
func ends(rows [][]Input) []orb.Point {
	var out []orb.Point
	for _, r := range rows {
		l := rowLine(r)
		out = append(out, l.from, l.to)
	}
	return out
}

// setBed is the set-out of one bed.
func (g ground) setBed(s Sheet, in Input, site Site) Bed {
	c := in.Corners
	b := Bed{
		Name: in.Name, Corners: []Corner{}, Pegs: []Corner{}, Boards: []Board{},
		Length: distance(c[0], c[1]), Width: distance(c[1], c[2]), Diagonal: distance(c[0], c[2]),
	}
	for i, at := range c {
		b.Corners = append(b.Corners, g.tied(s.Marks, cornerNames[i], at))
	}
	for i, at := range in.Pegs {
		b.Pegs = append(b.Pegs, g.tied(s.Marks, fmt.Sprintf("peg %d", i+1), at))
	}
	b.Slide = 1000 * b.Width * OutOfSquare(b.Diagonal+diagonalStep/2, b.Diagonal-diagonalStep/2, b.Width, b.Length)
	b.OnSlope = Sloped{g.taut(c[0], c[3]), g.taut(c[1], c[2]), g.taut(c[0], c[2]), g.taut(c[1], c[3])}
	b.OnFrame = [2]float64{b.Diagonal, distance(c[1], c[3])}
	if t := in.Tops; t != nil {
		b.OnFrame = [2]float64{math.Hypot(b.OnFrame[0], t[0]-t[2]), math.Hypot(b.OnFrame[1], t[1]-t[3])}
	}
	for _, f := range in.Boards {
		board := Board{Name: f.Name, Pegs: append([]float64{}, f.Pegs...), Side: f.Side}
		for i, top := range f.Tops {
			board.Tops[i] = 1000 * (top - s.Datum.height)
		}
		b.Boards = append(b.Boards, board)
	}
	if len(b.Boards) > 0 && site.HeightError != nil {
		middle := orb.Point{(c[0][0] + c[2][0]) / 2, (c[0][1] + c[2][1]) / 2}
		b.GroundKnownTo = 1000 * normal95 * site.HeightError(s.Datum.At, middle)
	}
	return b
}

// datumOf is the peg at the bed whose frame stands highest at its uphill left
// corner; nil where no bed has boards.
func datumOf(beds []Input, site Site) *Datum {
	var d *Datum
	for _, b := range beds {
		if b.Tops == nil || (d != nil && b.Tops[0] <= d.height) {
			continue
		}
		d = &Datum{Bed: b.Name, At: b.Corners[0], height: b.Tops[0]}
	}
	if d != nil && site.Height != nil {
		d.Ground = site.Height(d.At)
		d.AboveGround = 1000 * (d.height - d.Ground)
	}
	return d
}
