package levelbook

import (
	"math"

	"github.com/paulmach/orb"
)

// Leg is one side of a traverse.
type Leg struct {
	Bearing  float64 // radians clockwise from the +y axis
	Distance float64 // metres, level
}

// Traverse is a traverse that closes on a known place.
type Traverse struct {
	Raw       []orb.Point // place after each leg, as booked
	Adjusted  []orb.Point // the same with the misclosure spread
	Error     orb.Point   // misclosure east and north, metres
	Linear    float64     // its length, metres
	Perimeter float64     // metres
}

// Bowditch adjusts a traverse that starts and ends at known places, which are
// one for a closed figure, by the compass rule: each leg takes the share of the
// misclosure that it has of the perimeter (U.S. Navy training manual NAVEDTRA
// 14071; J. Mahun, open notes, traverse computations).
func Bowditch(legs []Leg, start, end orb.Point) Traverse {
	var t Traverse
	at := start
	for _, l := range legs {
		at = BearingDistance(at, l.Bearing, l.Distance)
		t.Raw = append(t.Raw, at)
		t.Perimeter += l.Distance
	}
	t.Error = orb.Point{at[0] - end[0], at[1] - end[1]}
	t.Linear = math.Hypot(t.Error[0], t.Error[1])
	run := 0.0
	for i, l := range legs {
		run += l.Distance
		share := 0.0
		if t.Perimeter > 0 {
			share = run / t.Perimeter
		}
		t.Adjusted = append(t.Adjusted, orb.Point{t.Raw[i][0] - share*t.Error[0], t.Raw[i][1] - share*t.Error[1]})
	}
	return t
}

// BalanceAngles spreads the misclosure of the inner angles of a closed figure
// of n sides, whose sum is (n-2) 180 degrees, evenly (FAO Training Series 16/1,
// chapter 3; U.S. Navy training manual NAVEDTRA 14071). Angles are radians;
// correction is what each angle was given.
func BalanceAngles(angles []float64) (balanced []float64, correction float64) {
	sum := 0.0
	for _, a := range angles {
		sum += a
	}
	if len(angles) > 0 {
		correction = (float64(len(angles)-2)*math.Pi - sum) / float64(len(angles))
	}
	for _, a := range angles {
		balanced = append(balanced, a+correction)
	}
	return balanced, correction
}
