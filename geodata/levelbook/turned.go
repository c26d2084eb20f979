package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// bearings are the bearings of the legs of a traverse as they were read, or
// carried on by the angles turned at the stations. A ring that ends by turning
// the angle to its first leg again has all its angles, which are balanced; that
// last row is no leg and is left out.
func (s *solver) bearings(rows []int) (legs []int, bearings []float64) {
	angles := map[int]float64{}
	for _, i := range rows {
		if r := s.ties.Rows[i]; r.Method == AngleTie {
			angles[i] = r.A.Value
		}
	}
	if n := len(rows) - 1; n > 2 && len(angles) == n && s.again(rows[0], rows[n]) {
		s.balance(rows[1:], angles)
		rows = rows[:n]
	}
	for k, i := range rows {
		b := s.ties.Rows[i].A.Value
		if turned, ok := angles[i]; ok {
			b = math.Mod(bearings[k-1]+math.Pi+turned, 2*math.Pi)
		}
		bearings = append(bearings, b)
	}
	return rows, bearings
}

// again tells whether two rows are the same leg.
func (s *solver) again(i, j int) bool {
	a, b := s.ties.Rows[i], s.ties.Rows[j]
	return nameKey(a.From) == nameKey(b.From) && nameKey(a.Point) == nameKey(b.Point)
}

// turnedSigma is the standard deviation of an angle turned on the circle of a
// builders' level, radians: a quarter of a degree, a default of ours (its circle
// is marked in degrees).
const turnedSigma = 0.25 * math.Pi / 180

// balance spreads what the angles of a ring miss by evenly. Walked with the
// ground on the right hand the angles turned are the outer ones.
func (s *solver) balance(rows []int, angles map[int]float64) {
	n, sum := float64(len(rows)), 0.0
	for _, i := range rows {
		sum += angles[i]
	}
	outer := sum > n*math.Pi
	inner := make([]float64, len(rows))
	for k, i := range rows {
		if inner[k] = angles[i]; outer {
			inner[k] = 2*math.Pi - angles[i]
		}
	}
	balanced, correction := BalanceAngles(inner)
	last := rows[len(rows)-1]
	miss, allowed := -correction*n, 3*turnedSigma*math.Sqrt(n)
	if math.Abs(miss) > allowed {
		s.faults.Add(s.fault(last, geodata.Warning, "angles-misclosure",
			fmt.Sprintf("the %d inner angles miss their sum of %.0f degrees by %+.2f, and %.2f are allowed: they were not balanced", len(rows), (n-2)*180, degrees(miss), degrees(allowed)),
			"turn the angles again"))
		return
	}
	s.faults.Add(s.fault(last, geodata.Note, "angles-balanced",
		fmt.Sprintf("the %d inner angles miss their sum of %.0f degrees by %+.2f: each was given %+.3f", len(rows), (n-2)*180, degrees(miss), degrees(correction)), ""))
	for k, i := range rows {
		if angles[i] = balanced[k]; outer {
			angles[i] = 2*math.Pi - balanced[k]
		}
	}
}
