package frame

import (
	"fmt"

	"crossfall/geodata"
)

// stakeLife is how long a 50 mm square stake of heartwood lasts in the ground
// in Britain, years, by durability class of EN 350: over 25, 15 to 25, 10 to
// 15, 5 to 10, under 5 (Princes Risborough Laboratory field tests). The open
// ends, 35 and 3 years, and the middle values are defaults of ours. The sapwood
// of every kind of tree is class 5.
var stakeLife = [6]geodata.Estimate{
	1: {Value: 30, Low: 25, High: 35},
	2: {Value: 20, Low: 15, High: 25},
	3: {Value: 12.5, Low: 10, High: 15},
	4: {Value: 7.5, Low: 5, High: 10},
	5: {Value: 4, Low: 3, High: 5},
}

// StakeLife is the life of a 50 mm heartwood stake in the ground, years, by
// durability class of EN 350, 1 to 5.
func StakeLife(class int) (geodata.Estimate, error) {
	if class < 1 || class > 5 {
		return geodata.Estimate{}, fmt.Errorf("durability class %d is not one of EN 350's classes 1 to 5", class)
	}
	return stakeLife[class], nil
}

// faceLoss is how fast rot eats in from one face, m a year: a 50 mm stake is
// eaten through from both sides in its life.
func faceLoss(life float64) float64 { return 0.025 / life }

// Faces of a board that rot eats in from: defaults of ours.
const (
	facesAiry   = 1.0 // earth on one side, air on the other
	facesSunken = 1.5 // let into the ground
	facesPeg    = 2.0
)

// ThicknessLeft is what is left of a board or peg of thickness t (m) after so
// many years, with rot from so many faces: 1 airy, 1.5 let into the ground, 2
// for earth on both sides and for pegs. life is that of the 50 mm stake, and
// loss goes on at the same rate, because life grows with thickness (Princes
// Risborough Laboratory). Not under 0.
func ThicknessLeft(t, life, faces, years float64) float64 {
	return max(0, t-faces*faceLoss(life)*years)
}

// wornOut is the part of its thickness at which a board is to be replaced; a
// default of ours.
const wornOut = 0.4

// YearsUntil is when rot has brought a thickness t down to left (both m).
func YearsUntil(t, left, life, faces float64) float64 {
	return max(0, t-left) / (faces * faceLoss(life))
}

// serviceLife is the life of a board or peg of thickness t, years: until it is
// worn to two fifths, or to the thickness it needs to carry its drained load.
func serviceLife(t, needed float64, stake geodata.Estimate, faces float64) geodata.Estimate {
	left := max(wornOut*t, needed)
	return geodata.Estimate{
		Value: YearsUntil(t, left, stake.Value, faces),
		Low:   YearsUntil(t, left, stake.Low, faces),
		High:  YearsUntil(t, left, stake.High, faces),
	}
}

// LastingThickness is the least thickness, m, of which rot leaves two fifths
// and the thickness needed for the load after so many years.
func LastingThickness(years, needed, life, faces float64) float64 {
	lost := faces * faceLoss(life) * years
	return max(lost/(1-wornOut), needed+lost)
}
