package setout

import (
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// LongestTape is the longest tape that garden sets run to, m (common practice,
// no source).
const LongestTape = 30.0

// squareEnough is the least angle at which two tapes may meet, radians: 30
// degrees, and as much short of a straight line (common practice, no source).
const squareEnough = 30 * math.Pi / 180

// The band of an expected error: half of it with care, twice of it in wind or
// over tall grass; defaults of ours.
const withCare, withoutCare = 0.5, 2.0

// pair is two marks and how well they fix a point.
type pair struct {
	first, second Mark
	error         Covariance
}

// tied is a point with the tapes of the best pair of marks, or without.
func (g ground) tied(marks []Mark, name string, at orb.Point) Corner {
	c := Corner{Name: name, At: at, Height: g.heightAt(at), Ties: []Tie{}}
	best, ok := g.bestPair(marks, at)
	if !ok {
		return c
	}
	for _, m := range []Mark{best.first, best.second} {
		c.Ties = append(c.Ties, Tie{m.Name, g.taped(m.At, at)})
	}
	c.Side = side(best.first.At, best.second.At, at)
	e, total := best.error.Ellipse(), best.error.total()
	c.Ellipse = &e
	c.Error = geodata.Estimate{Value: total, Low: withCare * total, High: withoutCare * total}
	c.cov = best.error
	return c
}

// bestPair is the pair of marks with the least expected error of the position;
// of pairs alike to a thousandth of a millimetre, that drawn first.
func (g ground) bestPair(marks []Mark, at orb.Point) (best pair, ok bool) {
	seen := make([]Mark, 0, len(marks))
	for _, m := range marks {
		if d := distance(m.At, at); d > 1e-3 && d <= LongestTape && g.clear(m.At, at) {
			seen = append(seen, m)
		}
	}
	least := math.Inf(1)
	for i, a := range seen {
		for _, b := range seen[i+1:] {
			if !Sound(a.At, b.At, at) {
				continue
			}
			p := pair{a, b, Fixed(a.At, b.At, at, a.errorTo(at), b.errorTo(at))}
			if e := math.Round(p.error.total() * 1e3); e < least {
				best, least, ok = p, e, true
			}
		}
	}
	return best, ok
}

// errorTo is the standard deviation of a distance taped from a mark, mm, with
// what the mark itself may be off in that direction.
func (m Mark) errorTo(at orb.Point) float64 {
	return math.Sqrt(math.Pow(TapeError(distance(m.At, at)), 2) + m.cov.along(unit(m.At, at)))
}

// Sound says whether tapes from two marks meet at a point at 30 to 150 degrees.
func Sound(a, b, at orb.Point) bool {
	angle := Angle(a, b, at)
	return math.Abs(angle-math.Pi/2) <= math.Pi/2-squareEnough+1e-9
}

// Angle is the angle at which tapes from two marks meet at a point, radians
// from 0 to pi.
func Angle(a, b, at orb.Point) float64 {
	cross := (a[0]-at[0])*(b[1]-at[1]) - (a[1]-at[1])*(b[0]-at[0])
	dot := (a[0]-at[0])*(b[0]-at[0]) + (a[1]-at[1])*(b[1]-at[1])
	return math.Atan2(math.Abs(cross), dot)
}

// side says on which side of the line from one mark to another a point lies,
// for someone who stands at the first and looks to the second.
func side(a, b, at orb.Point) string {
	if (b[0]-a[0])*(at[1]-a[1])-(b[1]-a[1])*(at[0]-a[0]) > 0 {
		return "left"
	}
	return "right"
}

// checked is the tape from a third mark that shows whether a point stands
// right: the shortest there is; nil without one.
func (g ground) checked(marks []Mark, c Corner) *Check {
	var out *Check
	for _, m := range marks {
		d := distance(m.At, c.At)
		if m.Name == c.Ties[0].Mark || m.Name == c.Ties[1].Mark || d < 1e-3 || d > LongestTape || !g.clear(m.At, c.At) {
			continue
		}
		if out == nil || d < out.Distance {
			off := c.cov.along(unit(m.At, c.At)) + math.Pow(m.errorTo(c.At), 2)
			out = &Check{Tie: Tie{m.Name, g.taped(m.At, c.At)}, Allowed: normal95 * math.Sqrt(off)}
		}
	}
	return out
}

// normal95 is how many standard deviations hold a normal error 95 times in 100.
const normal95 = 1.959964
