package soil

import (
	"math"

	"crossfall/geodata"
)

// The pull of water under which loose compost lies still and over which it is
// carried off, Pa, and the one at which it is taken to begin to move. Shields's
// criterion with .045 for particles of 5 mm and 1100 to 1300 kg/m3 gives .22 and
// .66 (worked; nothing is published for compost): .2, .7 and the middle .5 are
// defaults of ours after it.
const (
	StillPull  = 0.2
	MovingPull = 0.5
	CarryPull  = 0.7
)

// OnLoose is the pull, Pa, of the same run-on where it meets loose compost: the
// compost is as rough as bare ground to the water, whatever grows above it. slope
// is the fall of the ground there.
func (r RunOn) OnLoose(slope geodata.Estimate) geodata.Estimate {
	bare, _ := coverNamed("bare")
	n := bare.roughness
	at := func(q, n, s float64) float64 { return sheetShear(q, n, math.Max(s, leastSlopeLow)) }
	return geodata.Estimate{
		Value: at(r.PerMetre.Value, n.Value, slope.Value),
		Low:   at(r.PerMetre.Low, n.Low, slope.Low),
		High:  at(r.PerMetre.High, n.High, slope.High),
	}
}

// MovingLength is the plan length of slope, m, above an edge at which run-on
// begins to move loose compost there, in rain of a rate in mm/h of which a share
// runs off. From the pull back: the depth y = pull / (9810 sin), the flow y^(5/3)
// sqrt(S) / n, and the length that yields it. The low end is the length at which
// the pull reaches StillPull with the most water, the high end that of CarryPull
// with the least. ok is false on ground under 1 in 500, where water stands more
// than it runs.
func MovingLength(rate, share, slope geodata.Estimate) (e geodata.Estimate, ok bool) {
	if !(slope.Value >= leastSlope && slope.Low > 0 && rate.Low > 0 && share.Low > 0) {
		return geodata.Estimate{}, false
	}
	bare, _ := coverNamed("bare")
	n := bare.roughness
	length := func(pull, n, s, rate, share float64) float64 {
		depth := pull / (sheetWaterWeight * math.Sin(math.Atan(s)))
		return 3.6e6 * math.Pow(depth, 5./3) * math.Sqrt(s) / n / (rate * share)
	}
	e = geodata.Estimate{
		Value: length(MovingPull, n.Value, slope.Value, rate.Value, share.Value),
		Low:   length(StillPull, n.High, slope.High, rate.High, share.High),
		High:  length(CarryPull, n.Low, math.Max(slope.Low, leastSlopeLow), rate.Low, share.Low),
	}
	return e, true
}
