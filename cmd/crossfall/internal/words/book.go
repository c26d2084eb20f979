package words

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
)

// Run is how one run of levels closes.
func (w Words) Run(r levelbook.Run) []Item {
	out := []Item{
		{"Datum", sentence(w.Prose(r.Datum))},
		{"Set-ups", fmt.Sprint(r.Setups)},
		{"Sums", fmt.Sprintf("backsights %s, foresights %s; rises %s, falls %s",
			w.staff(r.Sums.Back), w.staff(r.Sums.Fore), w.staff(r.Sums.Rise), w.staff(r.Sums.Fall))},
		{"Arithmetic", checksSaid(r.Checks)},
	}
	for _, s := range r.Sections {
		out = append(out, Item{s.From + " to " + s.To, w.closing(s)})
		for _, x := range s.Suspects {
			out = append(out, Item{"Look at", sentence(w.Prose(x.Words))})
		}
	}
	for _, p := range r.Repeats {
		word := "agrees"
		if !p.OK {
			word = "does not agree"
		}
		out = append(out, Item{p.Station + " again", fmt.Sprintf("%s: %s off, %s allowed", word, w.misclosure(p.Difference), w.misclosure(p.Allowance))})
	}
	return out
}

// PegTest is what a two-peg test of the level showed.
func (w Words) PegTest(t levelbook.PegTest) []Item {
	far := 10.0 // m of sight over which the tilt is told
	if w.Units == geodata.FeetAndInch {
		far = 30 * float64(geodata.Foot)
	}
	over := func(e float64) string { return w.Thin(math.Abs(e) * far * 1000) }
	word := "rises "
	if t.E < 0 {
		word = "falls "
	}
	out := []Item{
		{"Rise between the pegs", w.staff(t.True) + "; from unequal sights it seemed " + w.staff(t.Apparent)},
		{"Line of sight", word + over(t.E) + " in " + w.Units.Length(far) + " of sight, give or take " + over(2*t.Sigma)},
	}
	cost := "nothing where sights back and fore are equally long; " + over(t.E) + " for each " + w.Units.Length(far) + " by which they differ"
	if t.Unequal > 0 {
		cost = w.Thin(math.Abs(t.E)*t.Unequal*1000) + " in the set-up with the most unequal sights, which differ by " + w.Units.Length(t.Unequal)
	}
	out = append(out, Item{"What it costs", cost})
	taken := "it is no more than the errors of the four readings: nothing was corrected"
	if t.Tilted() {
		taken = "the readings that have a length of sight were corrected; have the level adjusted"
	}
	return append(out, Item{"So", taken})
}

// checksSaid names the sums that do not come out.
func checksSaid(checks []levelbook.Check) string {
	var wrong []string
	for _, c := range checks {
		if !c.OK {
			wrong = append(wrong, c.Name)
		}
	}
	if len(wrong) == 0 {
		return "all checks come out; they prove the sums, not the field work"
	}
	return "does not come out: " + list(wrong)
}

// closing is how one part of a run closes.
func (w Words) closing(s levelbook.Section) string {
	if s.Verdict == levelbook.Unchecked {
		return "unchecked: it closes on nothing; level back to a known point"
	}
	t := fmt.Sprintf("%s: closes with %s, %s allowed in %s", s.Verdict, w.misclosure(s.Misclosure), w.misclosure(s.Allowance), count(s.Setups, "set-up"))
	switch {
	case s.Verdict == levelbook.NotClosed:
		t += "; not spread"
	case s.Spread != "":
		t += "; spread " + w.Prose(s.Spread)
	}
	return t
}

// staff is a reading or a sum of readings, metres.
func (w Words) staff(m float64) string {
	if w.Units == geodata.FeetAndInch {
		return w.Units.Height(m)
	}
	return fixed(m, 3) + " m"
}

// misclosure is a small difference of level, metres, to a tenth of a millimetre.
func (w Words) misclosure(m float64) string { return w.Thin(m * 1000) }

// BookHeads are the heads of the table of reduced levels.
func BookHeads() []string {
	return []string{"Station", "Set-up", "Collimation", "Rise", "Level", "Corrected by", "Reduced level"}
}

// BookRow is one booked line reduced both ways.
func (w Words) BookRow(l levelbook.Level) []string {
	return []string{
		l.Station, fmt.Sprint(l.Setup), w.staff(l.Collimation), w.staff(l.Rise), w.staff(l.Raw), w.misclosure(l.Correction), w.staff(l.Level),
	}
}
