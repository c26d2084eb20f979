package geodata

import (
	"cmp"
	"math"
	"math/big"

	"github.com/paulmach/orb"
)

// side, of finite points, is 1 when p lies to the left of the line from a to b,
// -1 to the right and 0 on it. The floating-point answer is taken when it is
// beyond the bound (3 + 16 eps) eps of its rounding error, eps 2^-53 (J. R.
// Shewchuk, Adaptive precision floating-point arithmetic, 1997, from memory);
// else the answer is worked out in rational numbers.
func side(a, b, p orb.Point) int {
	const bound = 3.3306690738754716e-16
	l, r := (a[0]-p[0])*(b[1]-p[1]), (a[1]-p[1])*(b[0]-p[0])
	det := l - r
	if e := bound * (math.Abs(l) + math.Abs(r)); det > e || det < -e {
		return cmp.Compare(det, 0)
	}
	if exactSub(a[0], p[0]) && exactSub(b[1], p[1]) && exactSub(a[1], p[1]) && exactSub(b[0], p[0]) &&
		exactMul(a[0]-p[0], b[1]-p[1]) && exactMul(a[1]-p[1], b[0]-p[0]) {
		return cmp.Compare(l, r) // nothing was rounded, as on the nodes of a grid
	}
	return exactSide(a, b, p)
}

// exactSub tells whether a - b is free of rounding (T. J. Dekker 1971: the
// rounding error of a sum is itself a sum of its terms).
func exactSub(a, b float64) bool {
	d := a - b
	v := a - d
	return (a-(d+v))+(v-b) == 0
}

// exactMul tells whether a b is free of rounding.
func exactMul(a, b float64) bool {
	const least = 1e-290 // below it the rounding error itself may vanish
	p := a * b
	return math.FMA(a, b, -p) == 0 && (math.Abs(p) > least || a == 0 || b == 0)
}

func exactSide(a, b, p orb.Point) int {
	diff := func(u, v float64) *big.Rat {
		return new(big.Rat).Sub(new(big.Rat).SetFloat64(u), new(big.Rat).SetFloat64(v))
	}
	l := new(big.Rat).Mul(diff(a[0], p[0]), diff(b[1], p[1]))
	r := new(big.Rat).Mul(diff(a[1], p[1]), diff(b[0], p[0]))
	return l.Cmp(r)
}
