package frame

import (
	"fmt"
	"math"
)

// Limits of the classes: defaults of ours.
const (
	openAcross     = 0.05 // open edges: fall across, along, depth, water
	openAlong      = 0.03
	openFill       = 0.15
	openSheet      = 0.002
	plainSlope     = 0.10 // boards without sunken edges
	plainHeight    = 0.21
	softest        = 15.0 // kPa
	slipWithout    = 2.0  // factor of safety by friction alone
	steepest       = 0.20 // without steps
	stepAlong      = 0.05
	stepAlongFall  = 0.15
	mostRetained   = 0.30
	offContourFall = 0.12
	offContourTurn = 15 * math.Pi / 180
	adviceSlope    = 0.25 // steps over this only with advice
	noBuildSlope   = 0.33
	bareSlope      = 0.24 // wet soil without roots or cohesion stands no steeper
	wetSlopeFactor = 1.3
	// Water over this deep, or over so many litres a second, or off so long a slope
	// as steep as that, is to be led round the bed.
	channelSheet = 0.003
	channelFlow  = 0.5
	channelAbove = 20.0
	channelSlope = 0.10
)

// forbidden gives the reason not to build that no frame can mend, or "".
func (c *Case) forbidden() string {
	switch {
	case c.Refused != "":
		return c.Refused
	case c.Slope > noBuildSlope+tiny:
		return "the ground falls " + overPercent(c.Slope, noBuildSlope) + ", steeper than a bed can be held on"
	case c.Cohesion == nil && !c.Turf && c.Slope > bareSlope+tiny:
		return "the ground falls " + overPercent(c.Slope, bareSlope) + " without turf: wet topsoil may slide"
	case c.Cohesion != nil:
		if f := c.wetSlopeFactor(); f < wetSlopeFactor {
			return fmt.Sprintf("wet topsoil of the cohesion given (%s kPa) may slide on a fall of %s: factor of safety %s, not 1.3",
				decimals(*c.Cohesion, 1), percent(c.Slope), under(f, wetSlopeFactor))
		}
	}
	return ""
}

// wetSlopeFactor is the least factor of safety of 0.3 m of topsoil full of
// water under a bed, from the lightest bed that may come of the wish to the
// heaviest. It changes one way with the load, so the ends are enough. Topsoil
// of 18 kN/m3 and 28 degrees, a default of ours.
func (c *Case) wetSlopeFactor() float64 {
	skin := WetSlope{
		Cohesion: *c.Cohesion, Friction: 28 * math.Pi / 180, UnitWeight: 18,
		Thickness: 0.3, Water: 1, Slope: c.Slope,
	}
	skin.Load = c.Material.Wet * math.Min(c.Fill, leastFill)
	light := skin.Factor()
	skin.Load = c.Material.Wet * c.wedge(c.Fill, 1, 1).Low()
	return math.Min(light, skin.Factor())
}

// stepping says why a bed must be stepped, and what that asks of the steps.
type stepping struct {
	reasons []string
	along   bool // there must be steps along the bed
	whole   bool // a bed so small that it is one step by itself may stay whole
}

func (c *Case) steps() stepping {
	var s stepping
	low := c.wedge(c.Fill, 1, 1).Low()
	if fall := c.Along * c.Length; c.Along > stepAlong+tiny && fall > stepAlongFall+tiny {
		s.along = true
		s.reasons = append(s.reasons, c.told(func() string {
			return fmt.Sprintf("the ground falls %s along the bed, %s from end to end",
				overPercent(c.Along, stepAlong), overMillimetres(fall, stepAlongFall))
		}))
	}
	if low > mostRetained+tiny {
		s.reasons = append(s.reasons, c.told(func() string {
			return "in one piece the compost would stand " + overMillimetres(low, mostRetained) + " against a board"
		}))
	}
	if off := c.offContour(); c.Slope > offContourFall+tiny && off > offContourTurn+tiny {
		s.along = true
		s.reasons = append(s.reasons, c.told(func() string {
			return fmt.Sprintf("the long side lies %s off the contour (over %s) on a fall of %s",
				degrees(off), degrees(offContourTurn), overPercent(c.Slope, offContourFall))
		}))
	}
	s.whole = len(s.reasons) == 0
	if c.Slope > steepest+tiny {
		s.reasons = append(s.reasons, c.told(func() string { return "the ground falls " + overPercent(c.Slope, steepest) }))
	}
	return s
}

// sinking says why a bed's edges must be sunken.
func (c *Case) sinking() []string {
	var r []string
	if c.Slope > plainSlope+tiny {
		r = append(r, c.told(func() string { return "the ground falls " + overPercent(c.Slope, plainSlope) }))
	}
	if low := c.wedge(c.Fill, 1, 1).Low(); low > plainHeight+tiny {
		r = append(r, c.told(func() string { return "the compost stands " + overMillimetres(low, plainHeight) + " against a board" }))
	}
	if c.tooSoft() {
		r = append(r, c.told(func() string { return fmt.Sprintf("the ground is too soft for pegs alone (%s)", c.Ground.Word) }))
	}
	if c.SheetDepth > openSheet+tiny {
		r = append(r, c.told(func() string { return "water runs on to it " + overSheet(c.SheetDepth, openSheet) + " deep" }))
	}
	if f := SlipFactor(c.winter(), c.Slope); f < slipWithout && c.Slope <= plainSlope+tiny {
		r = append(r, c.told(func() string {
			return fmt.Sprintf("it could slide in a wet winter (factor of safety %s, not 2)", under(f, slipWithout))
		}))
	}
	return r
}

// boarding says why a bed cannot have open edges, besides what sinks them.
func (c *Case) boarding() []string {
	var r []string
	if c.Across > openAcross+tiny {
		r = append(r, c.told(func() string { return "the ground falls " + overPercent(c.Across, openAcross) + " across the bed" }))
	}
	if c.Along > openAlong+tiny {
		r = append(r, c.told(func() string { return "the ground falls " + overPercent(c.Along, openAlong) + " along the bed" }))
	}
	if c.Fill > openFill+tiny {
		r = append(r, c.told(func() string { return "the compost is " + overMillimetres(c.Fill, openFill) + " deep" }))
	}
	return r
}

// told is a reason in words, worked out only where somebody reads it.
func (c *Case) told(words func() string) string {
	if c.quiet {
		return "not told"
	}
	return words()
}

// openBecause says why open edges will do.
func (c *Case) openBecause() string {
	if c.quiet {
		return ""
	}
	return fmt.Sprintf("the ground falls %s across (5 %% or less) and %s along (3 %% or less), "+
		"the compost is %s deep (150 mm or less), and no more than 2 mm of water runs on to it",
		percent(c.Across), percent(c.Along), millimetres(c.Fill))
}
