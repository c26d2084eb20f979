package takeoff

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Rolling resistance of a barrow over its weight: 0.02 on a good surface
// (Health and Safety Executive, pushing and pulling), 0.10 on a lawn and 0.15
// on wet, soft ground (defaults of ours).
const (
	RollingLawn = 0.10
	RollingGood = 0.02
	RollingSoft = 0.15
)

// Guideline forces for keeping a load moving, N: 10 kgf for men and 7 kgf for
// women (Health and Safety Executive, INDG143).
const (
	keepMoving      = 100.0
	keepMovingLower = 70.0
	gravity         = 9.81 // m/s2
)

// Push is the force, N, that keeps a mass (kg) rolling up a gradient (m per m
// of plan) against a rolling resistance mu: m g (sin a + mu cos a), a = atan
// of the gradient.
func Push(mass, gradient, mu float64) float64 {
	a := math.Atan(gradient)
	return mass * gravity * (math.Sin(a) + mu*math.Cos(a))
}

// LargestMass is the total mass, barrow and load, kg, that a force (N) keeps
// rolling up a gradient.
func LargestMass(force, gradient, mu float64) float64 { return force / Push(1, gradient, mu) }

// countPush works the push for one full load on the gradient, and warns
// where it is over the guideline. litres is the laid volume of a load.
func countPush(list *List, said *lines, rho geodata.Estimate, gradient, litres, barrow float64) {
	mass := func(of float64) float64 { return barrow + litres/1000*of }
	list.Push = &geodata.Estimate{
		Value: Push(mass(rho.Value), gradient, RollingLawn),
		Low:   Push(mass(rho.Low), gradient, RollingGood),
		High:  Push(mass(rho.High), gradient, RollingSoft),
	}
	said.add("the push is for a barrow of %.0f kg with %.0f litres of the fill on a lawn;"+
		" the band runs from a firm path to wet, soft ground", barrow, litres)
	if list.Push.Value <= keepMovingLower || list.Compost.Value == 0 {
		return
	}
	said.add("a full load up %s takes about %.0f newtons: the guideline for keeping a load moving is"+
		" %.0f newtons for men and %.0f newtons for women (Health and Safety Executive); %s", list.PushOn, list.Push.Value,
		keepMoving, keepMovingLower, lighterLoad(list.Compost.Value, rho.Value, gradient, barrow))
}

// LighterLoad is the litres of a fill of so many kg/m3 that a barrow of so many
// kg takes up a gradient of lawn within the lower guideline; ok is false where
// that is no useful load.
func LighterLoad(rho, gradient, barrow float64) (litres float64, ok bool) {
	litres = math.Floor((LargestMass(keepMovingLower, gradient, RollingLawn) - barrow) / rho * 1000)
	return litres, litres >= 5
}

// lighterLoad says which load keeps to the lower guideline, or that none does.
func lighterLoad(volume, rho, gradient, barrow float64) string {
	litres, ok := LighterLoad(rho, gradient, barrow)
	if !ok {
		return "no useful load keeps to that here: go up at a slant, tip from above, or hoist"
	}
	return fmt.Sprintf("loads of %.0f litres keep to the lower one: %.0f loads", litres, Loads(volume, litres))
}
