package frame

import (
	"math"

	"crossfall/siting/soil"
)

// restFactor is the factor by which friction under a bed is cut down before it
// is counted against the push on the boards; a default of ours.
const restFactor = 1.25

// SlipFactor is the factor of safety of a bed against sliding on its base by
// friction alone, on ground of the given slope: friction over the part of the
// weight that presses, over slope. Without slope it is +Inf. Plane sliding,
// any soil mechanics text.
func SlipFactor(lc LoadCase, slope float64) float64 {
	if slope <= 0 {
		return math.Inf(1)
	}
	return (1 - lc.PorePressure) * lc.BaseFriction / slope
}

// SlipShear is the pull down the slope that friction under the bed does not
// hold, kPa of plan area, for fill of mean depth d (m): what the boards must
// take. Friction is cut by 1.25, a default of ours.
func SlipShear(lc LoadCase, d, slope float64) float64 {
	a := math.Atan(slope)
	held := math.Cos(a) * (1 - lc.PorePressure) * lc.BaseFriction / restFactor
	return math.Max(0, lc.Weight*d*(math.Sin(a)-held))
}

// WetSlope describes a skin of wet topsoil parallel to the slope.
type WetSlope struct {
	Cohesion   float64 // drained, kPa
	Friction   float64 // drained, radians
	UnitWeight float64 // saturated, kN/m3
	Thickness  float64 // m
	Water      float64 // part of the thickness under water, 0 to 1
	Slope      float64 // ratio, over 0
	Load       float64 // weight of a bed on it, kPa
}

// Factor is the factor of safety of the skin against sliding: the infinite
// slope with seepage parallel to the surface, any slope stability text.
// Without slope it is +Inf.
func (w WetSlope) Factor() float64 {
	if w.Slope <= 0 {
		return math.Inf(1)
	}
	a := math.Atan(w.Slope)
	weight := w.UnitWeight*w.Thickness + w.Load
	grains := weight - w.Water*soil.WaterWeight*w.Thickness
	held := w.Cohesion + grains*sq(math.Cos(a))*math.Tan(w.Friction)
	return held / (weight * math.Sin(a) * math.Cos(a))
}

// refirmed is how much of the ground's strength stands in front of a board set
// in a slot and trodden firm; a default of ours. A tight slot would be 1.
const refirmed = 0.5

// ClayKey is the resistance, kN/m, of a board let into clay by c metres:
// passive pressure of twice the undrained strength over that depth, times the
// part eta (0.5 for a slot trodden firm, 1 for a tight one: defaults of ours),
// less on falling ground.
func ClayKey(c, undrained, slope, eta float64) float64 {
	return eta * 2 * undrained * c / (1 + slope)
}

// SandKey is the resistance, kN/m, of a board let into sand by c metres:
// Rankine's passive triangle with a coefficient that allows for falling ground.
func SandKey(c, unitWeight, passive float64) float64 {
	return unitWeight * passive * c * c / 2
}

// Key is the resistance of a board let into ground by c metres, kN/m.
func Key(g soil.Ground, c, slope float64) float64 {
	if g.Clay {
		return ClayKey(c, g.Undrained, slope, refirmed)
	}
	return SandKey(c, g.UnitWeight, Passive(g.FrictionAngle, slope))
}

// Limits of a sunken edge, m: defaults of ours.
const (
	leastSunken    = 0.03
	usualSunken    = 0.06
	greatestSunken = 0.10
)

// SunkenDepth is how far a board is let into the ground, m: the fall left along
// its lower edge (0 where the edge follows the ground), the gaps of ground with
// the given roughness (standard deviation of the ground along the board, m),
// and what water may scour at its foot, from 10 mm on slopes to 5 % up to 50 mm
// over 20 %. Not under 30 mm nor over 100 mm; over is true where more would be
// needed, and then the board must be stepped or shaped to the ground. Defaults
// of ours.
func SunkenDepth(residual, roughness, slope float64) (depth float64, over bool) {
	need := residual + 2.5*roughness + scour(slope)
	return math.Min(math.Max(need, leastSunken), greatestSunken), need > greatestSunken+tiny
}

func scour(slope float64) float64 {
	switch {
	case slope <= 0.05+tiny:
		return 0.01
	case slope <= 0.10+tiny:
		return 0.02
	case slope <= 0.15+tiny:
		return 0.03
	case slope <= 0.20+tiny:
		return 0.04
	}
	return 0.05
}

// CreepDepth is how far a board of thickness t (m) must be let in so that
// water standing head metres deep behind it does not wash grains out under it,
// in ground of Lane's weighted creep ratio (Lane 1935; flat lengths count a
// third). Not under 0.
func CreepDepth(ratio, head, t float64) float64 {
	return math.Max(0, (ratio*head-t/3)/2)
}
