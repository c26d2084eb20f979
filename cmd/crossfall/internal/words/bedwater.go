package words

import (
	"crossfall/geodata"
	"crossfall/siting"
)

// EdgeWaterHeads are the heads of the table of a bed's upper edge, with the
// units of its columns.
func (w Words) EdgeWaterHeads() []string {
	if w.Units == geodata.FeetAndInch {
		return []string{"Storm", "Run-on, cubic feet a minute", "Depth, in", "Speed, ft a second", "Pull on compost, lb on 100 square ft", "Loose compost"}
	}
	return []string{"Storm", "Run-on, litres a second", "Depth, mm", "Speed, m a second", "Pull on compost, pascals", "Loose compost"}
}

// EdgeWaterRows are the storms at one bed's upper edge, one a row.
func (w Words) EdgeWaterRows(b siting.Bed) [][]string {
	if b.Water == nil {
		return nil
	}
	flow, depth, speed, pull := 1., 1., 1., 1.
	if w.Units == geodata.FeetAndInch {
		flow, depth, speed, pull = 60/litresInCubicFoot, 1/25.4, 1/float64(geodata.Foot), poundsForce
	}
	two := func(e geodata.Estimate, unit float64) string {
		return of(e.Times(unit), func(v float64) string { return significant(v, 2) })
	}
	var out [][]string
	for _, e := range b.Water.Edge {
		out = append(out, []string{
			"once in " + yearsSaid(e.ReturnYears), two(e.Flow, flow), two(e.Depth, depth), two(e.Speed, speed), two(e.Pull, pull), e.Moves,
		})
	}
	return out
}

// Draining says what ground drains on to a bed, and what winter may take.
func (w Words) Draining(b siting.Bed) []Item {
	if b.Water == nil {
		return nil
	}
	bw := b.Water
	out := []Item{
		{"Slope draining on to it", w.LengthBand(b.RunOnLength)},
	}
	if bw.RunOnWithBeds.Value < b.RunOnLength.Value-.05 {
		out = append(out, Item{"With the beds built", w.LengthBand(bw.RunOnWithBeds)})
	}
	if bw.Area.Said != "" {
		out = append(out, Item{"Ground draining on to it", sentence(w.Prose(bw.Area.Said))})
	}
	if m := bw.MovesFrom; m != nil {
		out = append(out, Item{"Loose compost moves from", of(*m, w.twoFigures) + " of slope above, in the storm met once in 10 years"})
	}
	return out
}

// twoFigures is a length in metres to two figures.
func (w Words) twoFigures(m float64) string {
	if w.Units == geodata.FeetAndInch {
		return significant(m/float64(geodata.Foot), 2) + " ft"
	}
	return significant(m, 2) + " m"
}

// RiskHeads are the heads of the table of compost at risk.
func RiskHeads() []string {
	return []string{"Edge", "Compost lost in a winter", "Of the fill"}
}

// RiskRows are the ways to edge or cover one bed, with the compost at risk.
func (w Words) RiskRows(b siting.Bed) [][]string {
	if b.Water == nil {
		return nil
	}
	var out [][]string
	for _, r := range b.Water.AtRisk {
		out = append(out, []string{r.Edge, of(r.Lost, w.risk), of(r.Share, func(v float64) string { return atLeast(v, .1, "%") })})
	}
	return out
}

// risk is a mass at risk, never to more than two figures, nor finer than a tenth
// of a unit.
func (w Words) risk(kg float64) string {
	if w.Units == geodata.FeetAndInch {
		return atLeast(kg/kilogramsInPound, .1, "lb")
	}
	return atLeast(kg, .1, "kg")
}

// atLeast is a figure of two places that is not told finer than a least one.
func atLeast(v, least float64, unit string) string {
	if v > 0 && v < least {
		return "under " + significant(least, 2) + " " + unit
	}
	return significant(v, 2) + " " + unit
}
