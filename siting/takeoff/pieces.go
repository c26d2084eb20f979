package takeoff

import (
	"errors"
	"fmt"
	"math"
)

// section is a board's height and thickness, mm.
type section struct{ height, thickness float64 }

// want is one piece to be cut and the section it is cut from.
type want struct {
	section
	Piece
}

// wanted lists the pieces of one bed: long sides over the whole length, ends
// and cross boards between them in the downhill section, course by course.
func wanted(b BedInput, o offer) ([]want, error) {
	var out []want
	between := 2 * b.Thickness
	add := func(height, length float64, side string, chosen, pegs []float64) error {
		built := chosen
		if len(built) == 0 {
			built = courses(height, o.heights)
		}
		if built == nil && height > 0 {
			return fmt.Errorf("%s, %s, %.0f mm high: %w, the highest being %.0f mm and no more than %d standing on one another", b.Name, side, height, ErrTooHigh, o.heights[len(o.heights)-1], maxCourses)
		}
		if len(built) == 0 {
			return nil
		}
		parts := joined(length, o.longest(), pegs)
		if parts == nil {
			return fmt.Errorf("%s, %s, %.0f mm long: %w, the longest being %.0f mm; %s", b.Name, side, length, ErrTooLong, o.longest(), o.wouldDo(length, pegs))
		}
		for i, h := range built {
			for k, part := range parts {
				out = append(out, want{section{h, b.Thickness}, Piece{For: pieceName(b.Name, side, i, len(built), k, len(parts)), Length: part}})
			}
		}
		return nil
	}
	long, wide := 1000*b.Length, 1000*b.Width
	behind, inside := b.pegsBehind(0), b.pegsBehind(b.Thickness)
	err := errors.Join(
		add(b.BoardUphill, long, "uphill side", b.CoursesUphill, behind),
		add(b.BoardDownhill, long, "downhill side", b.CoursesDownhill, behind),
		add(b.BoardDownhill, wide-between, "left end", b.CoursesDownhill, nil),
		add(b.BoardDownhill, wide-between, "right end", b.CoursesDownhill, nil),
	)
	along := max(0, b.BaysAcross-1)
	for i := range max(b.CrossBoards, along) {
		length, side, pegs := wide-between, fmt.Sprintf("cross board %d", i+1), []float64(nil)
		if i < along {
			length, side, pegs = long-between, fmt.Sprintf("step along the bed %d", i+1), inside
		}
		err = errors.Join(err, add(b.BoardDownhill, length, side, b.CoursesDownhill, pegs))
	}
	return out, err
}

// pegsBehind are the pegs along a long side, mm from where its board begins.
func (b BedInput) pegsBehind(begins float64) []float64 {
	out := make([]float64, len(b.PegsAlong))
	for i, x := range b.PegsAlong {
		out[i] = 1000*x - begins
	}
	return out
}

// pieceName names a piece by its bed, its side, its course and its part of it.
func pieceName(bed, side string, course, courses, part, parts int) string {
	name := fmt.Sprintf("%s, %s", bed, side)
	if courses > 1 {
		name += fmt.Sprintf(", course %d from the ground", course+1)
	}
	if parts > 1 {
		name += fmt.Sprintf(", part %d from the left", part+1)
	}
	return name
}

// wouldDo says what boards a side could be made of; there are no pegs for one that is
// not joined.
func (o offer) wouldDo(length float64, pegs []float64) string {
	switch least := shortestThatWould(length, pegs); {
	case len(pegs) == 0:
		return fmt.Sprintf("a board of %.0f mm would do, or a bed %.0f mm smaller that way, or one in two parts with a cross board between them",
			math.Ceil(length), math.Ceil(length-o.longest()))
	case least < length-1e-6:
		return fmt.Sprintf("boards of %.0f mm and longer would do, joined over the pegs", math.Ceil(least))
	}
	return fmt.Sprintf("a board of %.0f mm would do, or pegs 300 mm and more from its ends to join it over", math.Ceil(length))
}
