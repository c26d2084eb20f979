package soil

import "crossfall/geodata"

// farmRunoff holds the rational-method runoff coefficients for farmland on
// three soils, of the United States Natural Resources Conservation Service's
// hydrology training module 206D. One row for each class of slope: under 5 %,
// 5 to 10 %, over 10 to 30 %.
type farmRunoff [3]struct{ sandyLoam, claySiltLoam, tightClay float64 }

var (
	pastureRunoff = farmRunoff{{.10, .30, .40}, {.16, .36, .55}, {.22, .42, .60}}
	tilledRunoff  = farmRunoff{{.30, .50, .60}, {.40, .60, .70}, {.52, .72, .82}}
	// sandyLawn is the lower end for lawns on sandy soil in the same module,
	// flat, 2 to 7 % and over 7 %.
	sandyLawn = [3]float64{.05, .10, .15}
)

// wetterRunoff is the greatest frequency factor of the rational method, the
// one for 100 years (from memory): by it the coefficient of ground wetter than
// the table's is raised, and never over 1.
const wetterRunoff = 1.25

// runoffCover is what lies on the slope above a bed.
type runoffCover struct {
	tilled    bool             // cultivated rows of the table; else pasture
	roughness geodata.Estimate // Manning's n
}

// coverNamed is the roughness of a sheet of water by cover: TR-55 (1986) table
// 3-1 after Engman. Turf: short grass 0.15, range 0.13 to dense grass 0.24.
// Rough grass: dense grass 0.24, short grass 0.15 to 0.41. Bare: fallow 0.05,
// smooth bare soil 0.011 to cultivated with little residue 0.06. Dug:
// cultivated with little residue 0.06, fallow 0.05 to plenty of residue 0.17.
func coverNamed(word string) (c runoffCover, known bool) {
	n := func(v, low, high float64) geodata.Estimate { return geodata.Estimate{Value: v, Low: low, High: high} }
	switch word {
	case "turf", "":
		return runoffCover{false, n(.15, .13, .24)}, true
	case "rough grass":
		return runoffCover{false, n(.24, .15, .41)}, true
	case "bare":
		return runoffCover{true, n(.05, .011, .06)}, true
	case "dug":
		return runoffCover{true, n(.06, .05, .17)}, true
	}
	return runoffCover{false, n(.15, .13, .24)}, false
}

// surface is the runoff coefficient and the roughness of the slope above. The
// ends of the slope's band choose their own rows of the table.
func (r *RunOn) surface(in RunOnInput, slope geodata.Estimate) (coefficient, roughness geodata.Estimate) {
	c, known := coverNamed(in.Cover)
	if !known {
		r.note("%q is not a cover that the tables know: turf was taken", in.Cover)
	}
	if slope.Value > steepestTabled {
		r.note("the slope above is steeper than 30 %%, the end of the table of runoff coefficients: its last row was taken and raised")
	}
	low := coefficientOn(in.Ground, c.tilled, slope.Low)
	high := coefficientOn(in.Ground, c.tilled, slope.High)
	return geodata.Estimate{
		Value: coefficientOn(in.Ground, c.tilled, slope.Value).Value, Low: low.Low, High: high.High,
	}, c.roughness
}

// coefficientOn is the runoff coefficient in winter, when the ground is wet:
// the value is the top of the ground's range in the table and the high end
// goes past it. Ground that behaves as clay: clay and silt loam to tight clay,
// and a quarter more. Sand: lawn on sand (dug ground: pasture on sandy loam) to
// sandy loam, and the next finer soil. Not known: tight clay, down to sandy
// loam. Which row stands for which ground word is a default of ours.
func coefficientOn(ground Ground, tilled bool, slope float64) geodata.Estimate {
	i := slopeClass(slope)
	t, sandyLow := pastureRunoff[i], sandyLawn[i]
	if tilled {
		t, sandyLow = tilledRunoff[i], pastureRunoff[i].sandyLoam
	}
	e := geodata.Estimate{Value: t.tightClay, Low: t.sandyLoam, High: min(1, wetterRunoff*t.tightClay)}
	switch {
	case ground.Clay:
		e.Low = t.claySiltLoam
	case ground.Word != "":
		e = geodata.Estimate{Value: t.sandyLoam, Low: sandyLow, High: t.claySiltLoam}
	}
	if slope > steepestTabled {
		e.High = min(1, wetterRunoff*e.High)
	}
	return e
}

// slopeClass is the row of the table for a slope.
func slopeClass(slope float64) int {
	switch {
	case slope < 0.05:
		return 0
	case slope <= 0.10:
		return 1
	}
	return 2
}
