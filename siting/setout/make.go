package setout

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Input is one bed to be set out.
type Input struct {
	Name      string
	Corners   [4]orb.Point // clockwise from the uphill left, m
	PegsAlong []float64    // running distances from the uphill-left corner, m
}

// cornerNames go with Input.Corners.
var cornerNames = [4]string{"uphill left", "uphill right", "downhill right", "downhill left"}

// Make works the taping sheet of all beds from the marks. A mark is a fixture
// whose shape is a point; other shapes, and points that are not numbers, are
// left out and named in the note. For each corner the pair of marks is taken
// whose tapes meet nearest to a right angle, no longer than LongestTape and at
// 30 to 150 degrees; of pairs alike in that, the one with the shorter tapes,
// then the one drawn first. A corner without such a pair has no ties, and the
// note says what to do.
func Make(marks []geodata.Fixture, beds []Input) Sheet {
	s := Sheet{Marks: []Mark{}, Beds: []Bed{}}
	var notes, untied []string
	for i, f := range marks {
		name := f.Name
		if name == "" {
			name = fmt.Sprintf("mark %d", i+1)
		}
		if p, ok := f.Shape.(orb.Point); ok && finite(p) {
			s.Marks = append(s.Marks, Mark{Name: name, At: p})
		} else {
			notes = append(notes, fmt.Sprintf("%s is not a point and cannot be taped from.", name))
		}
	}
	for _, in := range beds {
		bed, ok := setBed(s.Marks, in)
		if !ok {
			notes = append(notes, fmt.Sprintf("The corners of %s are not known, so it cannot be set out.", in.Name))
			continue
		}
		s.Beds = append(s.Beds, bed)
		if loose := withoutTies(bed); loose != "" {
			untied = append(untied, fmt.Sprintf("%s (%s)", in.Name, loose))
		}
	}
	s.Note = strings.Join(append(notes, advice(s, untied)...), " ")
	return s
}

// diagonalStep is the difference of diagonals for which the slide is given, m.
const diagonalStep = 0.010

// setBed ties the corners of one bed; false when a corner is not a place.
func setBed(marks []Mark, in Input) (Bed, bool) {
	b := Bed{Name: in.Name, Corners: []Corner{}, PegsAlong: append([]float64{}, in.PegsAlong...)}
	for i, at := range in.Corners {
		if !finite(at) {
			return Bed{}, false
		}
		b.Corners = append(b.Corners, tied(marks, cornerNames[i], at))
	}
	b.Diagonal = distance(in.Corners[0], in.Corners[2])
	long, wide := distance(in.Corners[0], in.Corners[1]), distance(in.Corners[1], in.Corners[2])
	b.Slide = 1000 * wide * OutOfSquare(b.Diagonal+diagonalStep/2, b.Diagonal-diagonalStep/2, wide, long)
	return b, true
}

// withoutTies names the corners of a bed that have no ties.
func withoutTies(b Bed) string {
	var names []string
	for _, c := range b.Corners {
		if len(c.Ties) == 0 {
			names = append(names, c.Name)
		}
	}
	return strings.Join(names, ", ")
}

// advice says how to go on where marks are missing or badly placed.
func advice(s Sheet, untied []string) []string {
	if len(s.Beds) == 0 {
		return nil
	}
	m := SquareMarks(1)
	squaring := fmt.Sprintf("Square a corner with one tape: bring its %.0f and %.0f m marks together and pull it tight at %.0f and %.0f m:"+
		" the right angle is where the ends meet. Then check the diagonals.", m[0], m[3], m[1], m[2])
	switch {
	case len(s.Marks) == 0:
		return []string{"There is no mark to tape from: set two canes at named spot heights or at corners of the boundary" +
			" that you can find again, as far apart as the beds are long or more, and draw them as marks.", squaring}
	case len(s.Marks) == 1:
		return []string{fmt.Sprintf("There is one mark, %s, and a corner needs two: set a cane at a named spot height or at a corner"+
			" of the boundary that you can find again, and draw it as a second mark.", s.Marks[0].Name), squaring}
	case len(untied) > 0:
		return []string{fmt.Sprintf("No two marks meet at 30 to 150 degrees within %.0f m of tape for: %s. Set these corners from the bed's"+
			" other corners by its sides and its diagonal, or set another mark off to the side.", LongestTape, strings.Join(untied, "; ")), squaring}
	}
	return nil
}

func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]+p[1]) && !math.IsInf(p[0], 0) && !math.IsInf(p[1], 0)
}

func distance(a, b orb.Point) float64 { return math.Hypot(b[0]-a[0], b[1]-a[1]) }
