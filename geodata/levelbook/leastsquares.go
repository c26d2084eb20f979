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
	best, err := choose(tapes, side, fitTapes(tapes, left.At), fitTapes(tapes, right.At))
	best.Angle = left.Angle
	return best, err
}

// fit is a place that tapes were fitted to; sum is the weighted sum of squared
// residuals.
type fit struct {
	Tie
	sum float64
	ok  bool
}

// distinct is by how much the weighted sums of squares of two places must
// differ for the tapes to decide between them: three standard deviations
// (default of ours).
const distinct = 9

// choose takes one of two places: the one on the named side, unless the tapes
// themselves say otherwise.
func choose(tapes []Tape, side Side, better, other fit) (Tie, error) {
	if !better.ok || other.ok && other.sum < better.sum {
		better, other = other, better
	}
	if !better.ok {
		return Tie{}, &TieError{"tie-marks-together", "the tapes fit no place", "measure again, or check the places of the marks"}
	}
	a, b := tapes[0].From, tapes[1].From
	apart := math.Hypot(better.At[0]-other.At[0], better.At[1]-other.At[1])
	decided := !other.ok || other.sum-better.sum >= distinct || apart <= better.Sigma
	sided := side != SideUnknown && (!other.ok || sideOf(a, b, better.At) != sideOf(a, b, other.At))
	// Where both lie in line with the first two marks, rounding alone puts them on its sides.
	inLine := offLine(a, b, better.At) <= 3*better.Sigma && offLine(a, b, other.At) <= 3*other.Sigma
	switch {
	case side != SideUnknown && inLine && !decided:
		return Tie{}, &TieError{"tie-side", "the tapes fit two places, both in line with the first two marks", "tape from another mark, out of line with these"}
	case !sided && !decided:
		return Tie{}, &TieError{"tie-side", "the tapes fit two places, one on each side of the marks", "say on which side of the line from the first mark to the second it lies: left or right"}
	case !sided || sideOf(a, b, better.At) == side:
		return better.Tie, nil
	case !decided:
		return other.Tie, nil
	case offLine(a, b, better.At) <= 3*better.Sigma: // so near the line its side means nothing
		return better.Tie, nil
	}
	return Tie{}, &TieError{"tie-side", "the tapes put the place on the other side of the line between the first two marks", "check the side and the tapes"}
}

// offLine is the distance of p from the line through a and b, or from a when
// they are one.
func offLine(a, b, p orb.Point) float64 {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if length == 0 {
		return math.Hypot(p[0]-a[0], p[1]-a[1])
	}
	return math.Abs((b[0]-a[0])*(p[1]-a[1])-(b[1]-a[1])*(p[0]-a[0])) / length
}

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

// fitTapes improves a place by Gauss and Newton's steps. The standard
// deviations are those of the tapes, or what the residuals show when that is
// more.
func fitTapes(tapes []Tape, at orb.Point) fit {
	var n normal
	settled := false
	for range 50 {
		if n = normalOf(tapes, at); !n.solvable() {
			return fit{}
		}
		step := n.step()
		at = orb.Point{at[0] + step[0], at[1] + step[1]}
		if settled = math.Hypot(step[0], step[1]) < 1e-9; settled {
			break
		}
	}
	f := fit{ok: settled}
	f.At = at
	for _, t := range tapes {
		r := t.Length - math.Hypot(at[0]-t.From[0], at[1]-t.From[1])
		f.Residuals = append(f.Residuals, r)
		f.sum += r * r / (t.Sigma * t.Sigma)
	}
	scale := math.Sqrt(max(1, f.sum/float64(len(tapes)-2)))
	f.SigmaX, f.SigmaY = scale*math.Sqrt(n.yy/n.det()), scale*math.Sqrt(n.xx/n.det())
	f.Sigma = math.Hypot(f.SigmaX, f.SigmaY)
	return f
}

// normal is the pair of normal equations for a step in x and y.
type normal struct{ xx, xy, yy, gx, gy float64 }

// normalOf linearises the tapes at a place; it is zero when a tape's mark is
// that place.
func normalOf(tapes []Tape, at orb.Point) (n normal) {
	for _, t := range tapes {
		dx, dy := at[0]-t.From[0], at[1]-t.From[1]
		d := math.Hypot(dx, dy)
		if d == 0 {
			return normal{}
		}
		dx, dy = dx/d, dy/d
		w, r := 1/(t.Sigma*t.Sigma), t.Length-d
		n.xx, n.xy, n.yy = n.xx+w*dx*dx, n.xy+w*dx*dy, n.yy+w*dy*dy
		n.gx, n.gy = n.gx+w*r*dx, n.gy+w*r*dy
	}
	return n
}

func (n normal) det() float64   { return n.xx*n.yy - n.xy*n.xy }
func (n normal) solvable() bool { return n.det() > 1e-9*(n.xx+n.yy)*(n.xx+n.yy) }

func (n normal) step() orb.Point {
	return orb.Point{(n.yy*n.gx - n.xy*n.gy) / n.det(), (n.xx*n.gy - n.xy*n.gx) / n.det()}
}
