package levelbook

import (
	"math"

	"github.com/paulmach/orb"
)

// manyTapes fits a place to three tapes or more by weighted least squares,
// beginning from the two places where the best pair of tapes meets.
func manyTapes(tapes []Tape, side Side) (Tie, error) {
	i, j := bestPair(tapes)
	if i < 0 {
		return Tie{}, &TieError{"tie-marks-together", "no two of the tapes meet", "measure again, or check the places of the marks"}
	}
	left, err := twoTapes(tapes[i], tapes[j], LeftSide)
	if err != nil {
		return Tie{}, err
	}
	right, _ := twoTapes(tapes[i], tapes[j], RightSide)
	l, sumL, okL := fitTapes(tapes, left.At)
	r, sumR, okR := fitTapes(tapes, right.At)
	if !okL && !okR {
		return Tie{}, &TieError{"tie-marks-together", "the tapes fit no place", "measure again, or check the places of the marks"}
	}
	best := l
	switch first, second := tapes[0].From, tapes[1].From; {
	case side != SideUnknown && sideOf(first, second, left.At) == sideOf(first, second, right.At):
		// The base of the two best tapes tells the places apart, the first
		// two marks do not: the tapes must decide, as without a side.
		fallthrough
	case side == SideUnknown:
		if math.Abs(sumL-sumR) < distinct && okL && okR && math.Hypot(l.At[0]-r.At[0], l.At[1]-r.At[1]) > l.Sigma {
			return Tie{}, &TieError{"tie-side", "the tapes fit two places, one on each side of the marks", "say on which side of the line from the first mark to the second it lies: left or right"}
		}
		if !okL || okR && sumR < sumL {
			best = r
		}
	case sideOf(first, second, left.At) != side:
		best = r
	}
	if best.Sigma == 0 {
		return Tie{}, &TieError{"tie-marks-together", "the tapes fit no place on that side", "measure again, or check the places of the marks"}
	}
	best.Angle = left.Angle
	return best, nil
}

// distinct is by how much the weighted sums of squares of two places must
// differ for the tapes to decide between them: three standard deviations
// (default of ours).
const distinct = 9

// bestPair finds the two tapes that meet nearest to a right angle.
func bestPair(tapes []Tape) (int, int) {
	bi, bj, best := -1, -1, -1.0
	for i := range tapes {
		for j := i + 1; j < len(tapes); j++ {
			a, b := tapes[i], tapes[j]
			c := math.Hypot(b.From[0]-a.From[0], b.From[1]-a.From[1])
			if c == 0 || a.Length+b.Length <= c || math.Abs(a.Length-b.Length) >= c {
				continue
			}
			if s := math.Sin(cut(a.Length, b.Length, c)); s > best {
				bi, bj, best = i, j, s
			}
		}
	}
	return bi, bj
}

// sideOf is the side of p on the line from a to b.
func sideOf(a, b, p orb.Point) Side {
	if (b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0]) < 0 {
		return RightSide
	}
	return LeftSide
}

// fitTapes improves a place by Gauss and Newton's steps; sum is the weighted
// sum of squared residuals. The standard deviations are those of the tapes, or
// what the residuals show when that is more.
func fitTapes(tapes []Tape, at orb.Point) (tie Tie, sum float64, ok bool) {
	var nxx, nxy, nyy float64
	for range 50 {
		var gx, gy float64
		nxx, nxy, nyy = 0, 0, 0
		for _, t := range tapes {
			dx, dy := at[0]-t.From[0], at[1]-t.From[1]
			d := math.Hypot(dx, dy)
			if d == 0 {
				return Tie{}, 0, false
			}
			w, r := 1/(t.Sigma*t.Sigma), t.Length-d
			nxx, nxy, nyy = nxx+w*dx*dx/(d*d), nxy+w*dx*dy/(d*d), nyy+w*dy*dy/(d*d)
			gx, gy = gx+w*r*dx/d, gy+w*r*dy/d
		}
		det := nxx*nyy - nxy*nxy
		if !(det > 1e-9*nxx*nyy) {
			return Tie{}, 0, false
		}
		sx, sy := (nyy*gx-nxy*gy)/det, (nxx*gy-nxy*gx)/det
		at = orb.Point{at[0] + sx, at[1] + sy}
		if ok = math.Hypot(sx, sy) < 1e-9; ok {
			break
		}
	}
	tie.At = at
	for _, t := range tapes {
		r := t.Length - math.Hypot(at[0]-t.From[0], at[1]-t.From[1])
		tie.Residuals = append(tie.Residuals, r)
		sum += r * r / (t.Sigma * t.Sigma)
	}
	scale := math.Sqrt(max(1, sum/float64(len(tapes)-2)))
	det := nxx*nyy - nxy*nxy
	tie.SigmaX, tie.SigmaY = scale*math.Sqrt(nyy/det), scale*math.Sqrt(nxx/det)
	tie.Sigma = math.Hypot(tie.SigmaX, tie.SigmaY)
	return tie, sum, ok
}
