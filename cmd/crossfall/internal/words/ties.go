package words

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata/levelbook"
)

// TieHeads are the heads of the table of ties.
func TieHeads() []string { return []string{"Station", "Method", "From", "Place", "Error", "Check"} }

// TieRow is what one tie gave: the place or the rise, its standard deviation,
// and whatever checks it.
func (w Words) TieRow(r levelbook.TieResult) []string {
	place, wrong := "", ""
	switch {
	case r.Where != nil:
		place, wrong = w.Place(*r.Where), w.Small(r.Sigma*1000)
	case r.Rise != nil:
		place, wrong = "rises "+w.staff(r.Rise.Rise), w.Thin(r.Rise.Sigma*1000)
	}
	return []string{r.Station, string(r.Method), list(r.From), place, wrong, w.tieCheck(r)}
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
	if r.Apart != nil {
		out = append(out, fmt.Sprintf("%s from the place it already had", w.Small(*r.Apart*1000)))
	}
	if r.Misclosure != nil {
		out = append(out, "closes with "+w.misclosure(*r.Misclosure))
	}
	if c := r.Closing; c != nil {
		out = append(out, fmt.Sprintf("closes within %s in %s, about %s expected", w.Small(c.Linear*1000), w.Units.Length(c.Perimeter), w.Small(c.Expected*1000)))
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

func greatest(vs []float64) float64 {
	most := 0.0
	for _, v := range vs {
		most = math.Max(most, math.Abs(v))
	}
	return most
}
