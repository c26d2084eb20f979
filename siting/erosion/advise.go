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
	Above    soil.RunOnInput
	Gathered bool   // a path in which runoff gathers crosses the bed
	Way      Way    // of edging, as chosen
	Risks    []Risk // of AtRisk, in its order; nil: not known
	// OwnOutlet is true where water led off along the contour comes out on the
	// grower's own land, and does not run on to a neighbour's.
	OwnOutlet bool
}

// Advice is one thing to do about winter water, and the figures that say so.
type Advice struct {
	What string
	Why  string
}

const (
	// cutOffFall is the fall that a cut-off channel is proposed at: the middle
	// of 0.5 to 2 %, rounded down (common practice, no source).
	cutOffFall = 0.01
	// worthCovering is the share of its compost that a bed may lose in a winter
	// before a sheet is proposed; a default of ours.
	worthCovering = 0.01
)

// Advise is what the figures ask for at a bed, what matters most first: to move
// it where runoff gathers; to grass dug or bare ground above it, or to lead off
// what runs on to it, where the one-in-ten storm likely moves loose compost at its
// edge; and to mulch or cover it over the winter where it may lose more than a
// hundredth of its compost. Beds whose upper edge is let into the ground need no
// help against run-on. It is empty where nothing is needed.
func Advise(b Bedside) []Advice {
	out := []Advice{}
	if b.Gathered {
		out = append(out, Advice{
			What: "move the bed off the path of the water",
			Why:  "runoff that has gathered crosses its place, and neither boards nor grass hold gathered water",
		})
	}
	if b.Way == OpenEdged || b.Way == Boarded {
		out = append(out, b.againstRunOn()...)
	}
	return append(out, b.overWinter()...)
}

// againstRunOn is a strip of grass where the ground above is broken, and a
// cut-off channel where grass is there or does not do.
func (b Bedside) againstRunOn() []Advice {
	now := soil.RunOnTo(b.Above)
	pull := now.OnLoose(b.Above.Slope)
	if pull.Value <= soil.MovingPull {
		return nil
	}
	var out []Advice
	if b.Above.Cover == "bare" || b.Above.Cover == "dug" {
		grass := b.Above
		grass.Cover = "turf"
		then := soil.RunOnTo(grass)
		after := then.OnLoose(grass.Slope)
		out = append(out, Advice{
			What: "keep grass on the ground above the bed",
			Why: fmt.Sprintf("%s ground sends %s to the upper edge in the storm met once in ten years, grass %s; the pull on loose compost falls from %s to %s, and it begins to move at about %.1f Pa",
				b.Above.Cover, litres(now.Flow), litres(then.Flow), pascals(pull), pascals(after), soil.MovingPull),
		})
		if now, pull = then, after; pull.Value <= soil.MovingPull {
			return out
		}
	}
	return append(out, b.leadOff(now, pull))
}

// leadOff is a cut-off channel above the bed, a soakaway where its outlet would
// be a neighbour's, or another place where neither will do.
func (b Bedside) leadOff(r soil.RunOn, pull geodata.Estimate) Advice {
	why := fmt.Sprintf("%s reaches the upper edge in the storm met once in ten years and pulls %s on loose compost, which begins to move at about %.1f Pa",
		litres(r.Flow), pascals(pull), soil.MovingPull)
	if !b.OwnOutlet {
		return Advice{
			What: "do not lead the water off along the slope; let it soak away in a trench on your own land, at least 5 m from buildings and 2.5 m from the boundary and not above a retaining edge, or sink the upper edge of the bed",
			Why:  why + "; a channel here would come out on a neighbour's land",
		}
	}
	channel, err := soil.SizeChannel(r.Flow, cutOffFall)
	if err != nil {
		return Advice{What: "move the bed: no garden channel carries the water that runs on to it", Why: why}
	}
	what := fmt.Sprintf("dig a grassed channel across the slope above the bed, %.2f m deep and %.1f m wide at the top, falling 1 m in 100, to an outlet on your own land and never on to a neighbour's",
		channel.Depth, channel.Width)
	if from, ok := soil.MovingLength(b.Above.Rate, r.Coefficient, b.Above.Slope); ok {
		what += fmt.Sprintf("; the ground between it and the bed no longer than %.1f m", math.Floor(from.Value*10)/10)
	}
	return Advice{What: what, Why: why}
}

// overWinter is mulch or a sheet over the bed, where the way chosen loses more
// than it should.
func (b Bedside) overWinter() []Advice {
	chosen, okChosen := b.risk(b.Way)
	sheet, okSheet := b.risk(SheetOver)
	if !okChosen || !okSheet || b.Way == SheetOver || chosen.Share.Value <= worthCovering {
		return nil
	}
	mulch := Mulched.factor()
	return []Advice{
		{
			What: "cover the bed over the winter with a sheet, pegged down and dug in at its upper side",
			Why:  fmt.Sprintf("a winter may take %s of its compost, and %s under a sheet", kilograms(chosen.Lost), kilograms(sheet.Lost)),
		},
		{
			What: "or mulch the bed, so that seven tenths of its top are hidden",
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
