package soil

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// RunOnInput is the slope above a bed, and the rain on it.
type RunOnInput struct {
	Rate   geodata.Estimate // rain, mm/h
	Ground Ground           // of the slope above; the zero Ground: not known
	Cover  string           // of the slope above: "turf", "rough grass", "bare" or "dug"; default "turf"
	Length geodata.Estimate // plan length of slope that drains to the edge, m
	Slope  geodata.Estimate // fall of that slope, m per m of plan
	// EdgeLength is the length of the bed's side that meets the water, m.
	EdgeLength float64
}

// RunOn is the sheet of water that reaches a bed's upper edge. The ends of
// each band come from the ends of what went in: rain, runoff coefficient,
// length, roughness and slope, all at once.
type RunOn struct {
	PerMetre geodata.Estimate // flow on each metre of the edge, m2/s
	Flow     geodata.Estimate // flow on the whole edge, L/s
	Depth    geodata.Estimate // m
	Speed    geodata.Estimate // m/s
	Shear    geodata.Estimate // pull of the water on the ground and its cover, Pa

	Coefficient geodata.Estimate // share of the rain that runs off
	Roughness   geodata.Estimate // Manning's n of the sheet
	// Channel is true when the depth passes 50 mm: water so deep has gathered,
	// and the figures for a sheet no longer hold.
	Channel bool
	Notes   []string // ranges passed and inputs not understood
}

const (
	// leastSlope is the flattest fall that the sheet is worked at, and
	// leastSlopeLow the flattest that its band allows for, where the ground is
	// flatter still: defaults of ours. On level ground water stands instead.
	leastSlope    = 0.002
	leastSlopeLow = 0.0005
	// thinSheet and deepSheet, m, are the depths between which Manning's
	// formula serves for a sheet over ground; under the first, the flow is
	// laminar and roughness rises (Woolhiser 1975), and the band is widened by
	// thinWider either way: a default of ours. Over it the widening fades as the
	// root of the depth grows, up to fadedSheet. The upper limit may grow less than
	// the depth does, where its rain is near the end of a table, but never so
	// little: more water does not get a lower upper limit.
	thinSheet  = 0.002
	deepSheet  = 0.05
	thinWider  = 1.5
	fadedSheet = thinSheet * thinWider * thinWider
	// steepestTabled is the upper end of the table of runoff coefficients.
	steepestTabled = 0.30
	// sheetWaterWeight is the weight of a cubic metre of water, N/m3.
	sheetWaterWeight = 9810.0
)

// RunOnTo works the sheet of water at the foot of a slope under steady rain:
// the flow q = C i L by the rational method, its depth y = (n q/sqrt S)^0.6 by
// Manning's formula for a wide sheet, its speed q/y, and the shear
// 9810 y sin(atan S) on everything the water touches. Good for depths of 2 to
// 50 mm. Under 2 mm the band is widened, and ever less so up to 4.5 mm; over 50 mm
// Channel is set; a fall under 0.002 is raised to it and the band widened; each
// with a note. Inputs that are not numbers or are negative count as 0, with a
// note.
func RunOnTo(in RunOnInput) RunOn {
	var r RunOn
	rate, length := r.sound(in.Rate, "rate of rain"), r.sound(in.Length, "length of slope")
	slope := r.fall(r.sound(in.Slope, "slope"))
	r.Coefficient, r.Roughness = r.surface(in, slope)

	c, n := r.Coefficient, r.Roughness
	r.PerMetre = geodata.Estimate{
		Value: rational(c.Value, rate.Value, length.Value),
		Low:   rational(c.Low, rate.Low, length.Low),
		High:  rational(c.High, rate.High, length.High),
	}
	q := r.PerMetre
	edge := r.sound(geodata.Exactly(in.EdgeLength), "length of the edge").Value
	r.Flow = q.Times(1000 * edge)
	r.Depth = geodata.Estimate{
		Value: sheetDepth(q.Value, n.Value, slope.Value),
		Low:   sheetDepth(q.Low, n.Low, slope.High),
		High:  sheetDepth(q.High, n.High, slope.Low),
	}
	r.Speed = geodata.Estimate{
		Value: sheetSpeed(q.Value, n.Value, slope.Value),
		Low:   sheetSpeed(q.Low, n.High, slope.Low),
		High:  sheetSpeed(q.High, n.Low, slope.High),
	}
	// Shear rises with flow, roughness and slope: depth falls with slope only
	// as its 0.3th power.
	r.Shear = geodata.Estimate{
		Value: sheetShear(q.Value, n.Value, slope.Value),
		Low:   sheetShear(q.Low, n.Low, slope.Low),
		High:  sheetShear(q.High, n.High, slope.High),
	}
	r.checkDepth()
	return r
}

// rational is the flow per metre of edge, m2/s, from a strip of slope: rational
// method with the rain in mm/h and the length in m.
func rational(c, rate, length float64) float64 { return c * rate * length / 3.6e6 }

// sheetDepth is Manning's depth of a wide sheet, m.
func sheetDepth(q, n, slope float64) float64 { return math.Pow(q*n/math.Sqrt(slope), 0.6) }

// sheetSpeed is the mean speed of the same sheet, m/s; 0 without water.
func sheetSpeed(q, n, slope float64) float64 {
	if q == 0 {
		return 0
	}
	return q / sheetDepth(q, n, slope)
}

// sheetShear is the bed shear of the same sheet, Pa.
func sheetShear(q, n, slope float64) float64 {
	return sheetWaterWeight * sheetDepth(q, n, slope) * math.Sin(math.Atan(slope))
}

func (r *RunOn) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// sound replaces what is not a number of 0 or more by 0, and brings the ends
// of the band round the value.
func (r *RunOn) sound(e geodata.Estimate, what string) geodata.Estimate {
	bad := func(v float64) bool { return !(v >= 0) || math.IsInf(v, 1) }
	if bad(e.Value) || bad(e.Low) || bad(e.High) {
		r.note("the %s was not a number of 0 or more and counts as 0", what)
		return geodata.Estimate{}
	}
	return geodata.Estimate{Value: e.Value, Low: math.Min(e.Low, e.Value), High: math.Max(e.High, e.Value)}
}

// fall raises a slope to the flattest one that water is taken to run on.
func (r *RunOn) fall(s geodata.Estimate) geodata.Estimate {
	floor := leastSlope
	if s.Value < leastSlope {
		floor = leastSlopeLow
		r.note("the slope above is nearly level, so water stands more than it runs: worked at a fall of 1 in 500, band widened")
	}
	return geodata.Estimate{
		Value: math.Max(s.Value, leastSlope),
		Low:   math.Max(s.Low, floor),
		High:  math.Max(s.High, leastSlope),
	}
}

// checkDepth says where the depth leaves the range of Manning's formula.
func (r *RunOn) checkDepth() {
	switch y := r.Depth.Value; {
	case y > deepSheet:
		r.Channel = true
		r.note("the water would stand %.0f mm deep: it is a channel and no longer a sheet, and these figures do not hold for it", 1000*y)
	case y > 0 && y < fadedSheet:
		wider := thinWider * math.Sqrt(math.Min(1, thinSheet/y))
		for _, e := range []*geodata.Estimate{&r.Depth, &r.Speed, &r.Shear} {
			e.Low, e.High = e.Low/wider, e.High*wider
		}
		if y < thinSheet {
			r.note("the sheet is under 2 mm deep, thinner than the formula is good for: band widened")
		} else {
			r.note("the sheet is little over 2 mm deep, about the least that the formula is good for: band widened")
		}
	}
}
