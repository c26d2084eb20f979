package words

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
)

// PlaceHeads are the heads of the table of places from ties.
func PlaceHeads() []string {
	return []string{"Station", "Method", "From", "East", "North", "Error", "Check"}
}

// PlaceRow is a place that a tie gave, its standard deviation, and whatever checks
// it; nil for a tie that gave none.
func (w Words) PlaceRow(r levelbook.TieResult) []string {
	if r.Where == nil {
		return nil
	}
	wrong := ""
	if r.Sigma > 0 {
		wrong = w.Small(r.Sigma * 1000)
	}
	return []string{r.Station, string(r.Method), strings.Join(r.From, ", "), w.Units.Length(r.Where[0]), w.Units.Length(r.Where[1]), wrong, w.tieCheck(r)}
}

// RiseHeads are the heads of the table of rises from ties.
func RiseHeads() []string {
	return []string{"Station", "Method", "From", "Rise", "Error", "Slope", "Check"}
}

// RiseRow is a rise that a tie gave; nil for a tie that gave none.
func (w Words) RiseRow(r levelbook.TieResult) []string {
	if r.Rise == nil {
		return nil
	}
	slope := ""
	if r.Rise.Plan > 0 {
		slope = geodata.Slope(r.Rise.Rise / r.Rise.Plan)
	}
	return []string{r.Station, string(r.Method), strings.Join(r.From, ", "), w.staff(r.Rise.Rise), w.Thin(r.Rise.Sigma * 1000), slope, w.tieCheck(r)}
}

// tieCheck is how well the readings of a tie agree.
func (w Words) tieCheck(r levelbook.TieResult) string {
	var out []string
	if r.Angle != 0 {
		out = append(out, "tapes meet at "+fixed(r.Angle*180/math.Pi, 0)+"°")
	}
	if r.OnLine {
		out = append(out, "just missed: put on the line of the marks")
	}
	if worst := greatest(r.Residuals); worst > 0 {
		out = append(out, "tapes agree to "+w.Small(worst*1000))
	}
	if r.Apart != nil && r.Closing == nil {
		out = append(out, fmt.Sprintf("%s from the place it already had", w.Small(*r.Apart*1000)))
	}
	if r.Misclosure != nil {
		t := "closes with " + w.misclosure(*r.Misclosure) + ", " + w.misclosure(r.Allowance) + " allowed"
		if r.Spread {
			t += "; spread over the loop"
		}
		out = append(out, t)
	}
	if c := r.Closing; c != nil {
		out = append(out, fmt.Sprintf("closes within %s in %s%s, about %s expected", w.Small(c.Linear*1000), w.Units.Length(c.Perimeter), oneIn(c.Precision()), w.Small(c.Expected*1000)))
	}
	if len(r.Reversed) > 0 {
		out = append(out, fmt.Sprintf("lines %s look booked backwards", strings.Trim(fmt.Sprint(r.Reversed), "[]")))
	}
	if !r.WithinLimit {
		out = append(out, "OUTSIDE what the method allows")
	}
	if len(out) == 0 {
		return "unchecked"
	}
	return strings.Join(out, "; ")
}

// oneIn is a closing precision; empty when it closes too well to say.
func oneIn(n float64) string {
	if n > 1e5 {
		return ""
	}
	return " (1 in " + significant(n, 2) + ")"
}

// TieHeed is what to heed with the simple instruments that the ties used, with
// what it costs here.
func (w Words) TieHeed(s levelbook.Solution) []Item {
	const (
		warmer = 10.0  // kelvins between two legs of a tube, one in the sun
		sag    = 0.025 // m, of a string of the usual span under a level of 25 g
		off    = 0.1   // m, by which the level hangs off the middle
		span   = 8.0   // m, the usual span
	)
	tallest, used := 0.0, map[levelbook.Method]bool{}
	for _, r := range s.Results {
		used[r.Method] = true
		for _, read := range r.Staff {
			tallest = math.Max(tallest, read)
		}
	}
	var out []Item
	if used[levelbook.WaterTubeTie] {
		out = append(out, Item{"Water tube", fmt.Sprintf("no bubbles, and both ends in the same sun: one leg %g degrees Celsius warmer shifts a reading of %s by %s",
			warmer, w.staff(tallest), w.Thin(levelbook.WaterTubeWarmth(tallest, warmer)*1000))})
	}
	if used[levelbook.LineLevelTie] {
		out = append(out, Item{"Line level", fmt.Sprintf("hang it at the very middle and turn it round on the string for a second reading: %s off the middle of %s costs %s",
			w.Small(off*1000), w.Units.Length(span), w.Thin(levelbook.LineLevelOff(sag, off, span)*1000))})
	}
	if used[levelbook.AFrameTie] {
		out = append(out, Item{"A-frame", "turn it end for end at every step: what it is out by itself then cancels"})
	}
	return out
}

func greatest(vs []float64) float64 {
	most := 0.0
	for _, v := range vs {
		most = math.Max(most, math.Abs(v))
	}
	return most
}
