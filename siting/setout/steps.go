package setout

import (
	"fmt"
	"strings"

	"crossfall/geodata"
)

// How long the parts of the work take two people, minutes: defaults of ours.
const (
	minutesCane  = 4.0
	minutesEnd   = 4.0 // two tapes to one end of a row, and its check
	minutesRow   = 2.0 // stringing it
	minutesBed   = 3.0 // two canes along the string and two squared off
	minutesDatum = 4.0
	minutesLevel = 5.0 // marking the heights of one bed
)

// The band of a time: quick on short grass, slow in wind and rough ground.
const quick, slow = 0.7, 1.6

func (s *Sheet) step(minutes float64, format string, args ...any) {
	e := geodata.Estimate{Value: minutes, Low: quick * minutes, High: slow * minutes}
	s.Steps = append(s.Steps, Step{Do: fmt.Sprintf(format, args...), Minutes: e})
	s.Minutes = geodata.Estimate{Value: s.Minutes.Value + e.Value, Low: s.Minutes.Low + e.Low, High: s.Minutes.High + e.High}
}

// order writes the steps.
func (s *Sheet) order() {
	if len(s.Beds) == 0 {
		return
	}
	if n := s.canes(); len(n) > 0 {
		s.step(minutesCane*float64(len(n)), "Set upright canes as marks, as told above: %s. Check how far they stand apart.", strings.Join(n, ", "))
	}
	for _, r := range s.Rows {
		s.stepRow(r)
	}
	var boarded, open []string
	for _, b := range s.Beds {
		if len(b.Boards) > 0 {
			boarded = append(boarded, b.Name)
		} else {
			open = append(open, b.Name)
		}
	}
	if s.Datum == nil {
		return
	}
	s.step(minutesDatum, "Before any peg is driven, heed the cautions. Then drive the datum peg at the uphill left corner of %s and bring its top to its height above the ground.", s.Datum.Bed)
	s.step(minutesLevel*float64(len(boarded)), "With a level, or a hose filled with water, mark on the canes at the corners of %s how high the boards come against the datum peg.", strings.Join(boarded, ", "))
	if len(open) > 0 {
		s.step(1, "No boards, and no heights, are given for %s: spread the compost within the four canes.", strings.Join(open, ", "))
	}
}

// stepRow are the steps of one row.
func (s *Sheet) stepRow(r Row) {
	names := make([]string, len(r.Beds))
	for i, b := range r.Beds {
		names[i] = b.Bed
	}
	beds := strings.Join(names, ", ")
	if !r.tied() {
		s.step(0, "%s (%s): leave it until there is a mark to tape it from.", capital(r.Name), beds)
		return
	}
	s.step(2*minutesEnd, "%s (%s): tape both ends from their marks, set a cane at each, and check it.", capital(r.Name), beds)
	s.step(minutesRow+minutesBed*float64(len(names)), "%s: string it and measure between the canes, set canes along it at the running distances, and square off %s.", capital(r.Name), beds)
}

func capital(t string) string { return strings.ToUpper(t[:1]) + t[1:] }

// canes are the names of the marks that are not there yet.
func (s *Sheet) canes() []string {
	var out []string
	for _, m := range s.Marks {
		if m.Proposed {
			out = append(out, m.Name)
		}
	}
	return out
}

// advice says what is missing and how the sheet goes on.
func (s *Sheet) advice(drawn int) []string {
	if len(s.Beds) == 0 {
		return nil
	}
	var out []string
	canes, loose := s.canes(), s.untied()
	if len(canes)+len(loose) > 0 {
		out = s.tooNear(drawn)
	}
	switch {
	case drawn == 0:
		out = append(out, "There is no mark to tape from, and a corner needs two.")
	case drawn == 1:
		out = append(out, fmt.Sprintf("There is one mark, %s, and a corner needs two.", s.Marks[0].Name))
	case len(canes) > 0:
		out = append(out, "The marks do not reach every row: two tapes must meet at 30 to 150 degrees, "+
			fmt.Sprintf("be no longer than %.0f m and pass clear of sheds, walls and hedges.", LongestTape))
	}
	if len(canes) > 0 {
		out = append(out, fmt.Sprintf("Set canes as further marks: %s. The sheet is worked with them, and is as good as what they are set at is drawn.", s.canesSaid()))
	}
	if drawn < 2 {
		out = append(out, "Best is to measure two things that stay, such as gate posts or corners of walls, with the heights, and to draw them as marks.")
	}
	if len(loose) > 0 {
		m := SquareMarks(1)
		out = append(out, fmt.Sprintf("No two marks fix %s: set another mark off to the side, no further than %.0f m. Until then square it from what stands:"+
			" bring the %.0f and %.0f m marks of one tape together and pull it tight at %.0f and %.0f m: the right angle is where its ends meet, to about %.0f mm in a metre; twice as large it is twice as good.",
			strings.Join(loose, ", "), LongestTape, m[0], m[3], m[1], m[2], SquareError(1, ReadingError)))
	}
	return out
}

// tooNear tells of drawn marks that are of no use together.
func (s *Sheet) tooNear(drawn int) []string {
	var out []string
	for i, a := range s.Marks[:drawn] {
		for _, b := range s.Marks[i+1 : drawn] {
			if d := distance(a.At, b.At); d < leastApart {
				out = append(out, fmt.Sprintf("%s and %s stand %.2f m apart, too near each other to tape from both.", a.Name, b.Name, d))
			}
		}
	}
	return out
}

// canesSaid tells where each cane goes.
func (s *Sheet) canesSaid() string {
	var out []string
	for _, m := range s.Marks {
		switch {
		case !m.Proposed:
			continue
		case strings.Contains(m.Where, m.Name):
			out = append(out, m.Where)
		case m.Where != "":
			out = append(out, m.Name+", "+m.Where)
		default:
			out = append(out, fmt.Sprintf("%s, on open ground, %.2f m from %s and %.2f m from %s, %s of the line from the first to the second",
				m.Name, m.Ties[0].Distance, m.Ties[0].Mark, m.Ties[1].Distance, m.Ties[1].Mark, m.Side))
		}
	}
	return strings.Join(out, "; ")
}

// untied names the rows of which an end cannot be taped.
func (s *Sheet) untied() []string {
	var out []string
	for _, r := range s.Rows {
		if !r.tied() {
			out = append(out, r.Name)
		}
	}
	return out
}

func joined(parts []string) string { return strings.Join(parts, " ") }
