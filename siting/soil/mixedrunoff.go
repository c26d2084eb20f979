package soil

import (
	"fmt"

	"crossfall/geodata"
)

// Sealed is the cover of roofs, paving and sheets, next to the covers of
// CurveNumber; it is as wet in summer as in winter.
const Sealed = "sealed"

// Part is a part of a plot under one cover, m2.
type Part struct {
	Cover string
	Area  float64
}

// MixedDayRunoff is DayRunoff of a plot in parts: the depth from each, weighted by
// its area, since one number averaged over them would lose what sealed ground
// sheds. told is false, and said tells why, where under 12 mm run off the whole
// and no part is sealed. Parts without area do not count; without any the runoff
// is nothing.
func MixedDayRunoff(rain geodata.Estimate, parts []Part, t Texture) (e geodata.Estimate, said string, told bool) {
	if one, ok := onlyPart(parts); ok && one.Cover != Sealed {
		return DayRunoff(rain, one.Cover, t)
	}
	whole, sealed := 0.0, 0.0
	for _, p := range parts {
		if !(p.Area > 0) {
			continue
		}
		whole += p.Area
		one := dayDepth(rain, p.Cover, t)
		if p.Cover == Sealed {
			sealed += p.Area
			one = geodata.Estimate{Value: Runoff(rain.Value, SealedNumber), Low: Runoff(rain.Low, SealedNumber), High: Runoff(rain.High, SealedNumber)}
		}
		one = one.Times(p.Area)
		e = geodata.Estimate{Value: e.Value + one.Value, Low: e.Low + one.Low, High: e.High + one.High}
	}
	if whole == 0 {
		return geodata.Estimate{}, "no ground", false
	}
	e = e.Times(1 / whole)
	if e.Value < leastRunoff && sealed == 0 {
		return geodata.Estimate{}, littleSaid(e), false
	}
	return e, fmt.Sprintf("each cover by its own curve number, %.0f %% of the ground sealed", 100*sealed/whole), true
}

// onlyPart is the part that has area, where there is just one.
func onlyPart(parts []Part) (only Part, ok bool) {
	for _, p := range parts {
		switch {
		case !(p.Area > 0):
		case ok:
			return Part{}, false
		default:
			only, ok = p, true
		}
	}
	return only, ok
}
