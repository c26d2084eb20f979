package erosion

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// Bedside is a bed, the slope above it and what would be built there.
type Bedside struct {
	// Above is the slope that drains to the upper edge, in the storm met once in
	// ten years.
	Above soil.RunOnInput
	Way   Way    // of edging, as chosen
	Risks []Risk // of AtRisk, in its order; nil: not known
}

// Advice is one thing to do about winter water, and the figures that say so.
type Advice struct {
	What string
	Why  string
}

// WorthCovering is the share of its compost that a bed may lose in a winter
// before a sheet is proposed; a default of ours.
const WorthCovering = 0.01

// Advise is what the figures ask for at a bed, what matters most first: to grass
// dug or bare ground above it, where the one-in-ten storm likely moves loose
// compost at its edge; and to mulch or cover it over the winter where it may lose
// more than a hundredth of its compost. Beds whose upper edge is let into the
// ground need no help against run-on. It is empty where nothing is needed.
func Advise(b Bedside) []Advice {
	out := []Advice{}
	if b.Way == OpenEdged || b.Way == Boarded {
		out = append(out, b.againstRunOn()...)
	}
	return append(out, b.overWinter()...)
}

// againstRunOn is a strip of grass where the ground above is broken.
func (b Bedside) againstRunOn() []Advice {
	now := soil.RunOnTo(b.Above)
	pull := now.OnLoose(b.Above.Slope)
	if pull.Value <= soil.MovingPull || (b.Above.Cover != "bare" && b.Above.Cover != "dug") {
		return nil
	}
	grass := b.Above
	grass.Cover = "turf"
	then := soil.RunOnTo(grass)
	return []Advice{{
		What: "keep grass on the ground above it",
		Why: fmt.Sprintf("%s ground sends %s to the upper edge in the storm met once in 10 years, grass %s; the pull on loose compost falls from %s to %s, and it begins to move at about %.1f Pa",
			b.Above.Cover, litres(now.Flow), litres(then.Flow), pascals(pull), pascals(then.OnLoose(grass.Slope)), soil.MovingPull),
	}}
}

// overWinter is mulch or a sheet over the bed, where the way chosen loses more
// than it should.
func (b Bedside) overWinter() []Advice {
	chosen, okChosen := b.risk(b.Way)
	sheet, okSheet := b.risk(SheetOver)
	if !okChosen || !okSheet || b.Way == SheetOver || chosen.Share.Value <= WorthCovering {
		return nil
	}
	mulch := Mulched.factor()
	return []Advice{
		{
			What: "cover it over the winter with a sheet, pegged down and dug in at its upper side",
			Why:  fmt.Sprintf("a winter may take %s of its compost, and %s under a sheet", kilograms(chosen.Lost), kilograms(sheet.Lost)),
		},
		{
			What: "or mulch it, so that seven tenths of its top are hidden",
			Why: fmt.Sprintf("of what rain loosens on a bare top, such a mulch lets %.2g %% go (%.2g to %.2g)",
				100*mulch.Value, 100*mulch.Low, 100*mulch.High),
		},
	}
}

func (b Bedside) risk(w Way) (Risk, bool) {
	for _, r := range b.Risks {
		if r.Way == w {
			return r, true
		}
	}
	return Risk{}, false
}

func litres(e geodata.Estimate) string {
	return fmt.Sprintf("%.2g litres a second (%.2g to %.2g)", e.Value, e.Low, e.High)
}

func pascals(e geodata.Estimate) string {
	return fmt.Sprintf("%.2g Pa (%.2g to %.2g)", e.Value, e.Low, e.High)
}

func kilograms(e geodata.Estimate) string {
	return fmt.Sprintf("%s kg (%s to %s)", twoFigures(e.Value), twoFigures(e.Low), twoFigures(e.High))
}

// twoFigures writes a mass to two significant figures, and none finer than a
// tenth.
func twoFigures(v float64) string {
	switch {
	case v < 0.05:
		return "0"
	case v < 9.95:
		return fmt.Sprintf("%.1f", v)
	}
	step := math.Pow(10, math.Floor(math.Log10(v))-1)
	return fmt.Sprintf("%.0f", math.Round(v/step)*step)
}
