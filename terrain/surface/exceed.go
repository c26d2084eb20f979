package surface

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"crossfall/terrain"
)

// Limits of the integral over a gradient's ellipse.
const (
	// reachOfNormal is the number of standard deviations beyond which a normal
	// density is left out: 1e-10 of it.
	reachOfNormal = 6.5
	// narrowSpread is the largest standard deviation, as a part of the limit,
	// under which the circle |g| = limit counts as straight but for its
	// curvature at the second order: the error left is of the order of its square.
	narrowSpread = 1e-3
	// thinAxis is the part of the limit under which the smaller standard
	// deviation counts as 0.
	thinAxis = 1e-6
	// panelNodes is the Gauss-Legendre nodes of a panel, leastPanels the fewest
	// panels.
	panelNodes  = 16
	leastPanels = 2
)

// panelX and panelW are the Gauss-Legendre nodes and weights of -1 to 1.
var panelX, panelW = legendre(panelNodes)

func legendre(n int) (x, w []float64) {
	x, w = make([]float64, n), make([]float64, n)
	quad.Legendre{}.FixedLocations(x, w, -1, 1)
	return x, w
}

// FallExceeds is the probability that the fall |g| is over a limit (a ratio),
// the gradient being normal about g with covariance cov of (east, north).
//
// In the frame of the covariance's axes, standard deviations s1 >= s2 and means
// m1, m2, the probability of a fall up to t is the integral over x from -t to t
// of phi((x - m2)/s2)/s2 times the normal probability that the other part lies
// within +-sqrt(t^2 - x^2); x = t sin w takes away the root's corner, and
// Gauss-Legendre panels do the rest, to about 1e-9. With s1 = s2 it is the
// Rice distribution (Rice 1945, Bell System Technical Journal 24, 46-156, from
// memory). Where both are under a thousandth of the limit it is normal, with
// the mean of |g| to the second order, to about 1e-6.
//
// A limit under 0 is always exceeded. NaN where anything is not a number.
func FallExceeds(g terrain.Gradient, cov [2][2]float64, limit float64) float64 {
	if math.IsNaN(limit + g.East + g.North + cov[0][0] + cov[0][1] + cov[1][1]) {
		return math.NaN()
	}
	if limit < 0 {
		return 1
	}
	a := axesOf(cov)
	switch {
	case a.wide == 0:
		return step(g.Fall(), limit)
	case limit == 0:
		return 1
	case a.wide <= narrowSpread*limit:
		return straightExceeds(g, cov, limit)
	}
	m1, m2 := g.East*a.east+g.North*a.north, g.North*a.east-g.East*a.north
	return math.Max(0, math.Min(1, 1-insideCircle(m1, m2, a.wide, a.thin, limit)))
}

// normalExceeds is the probability that a normal figure is over a limit.
func normalExceeds(mean, sd, limit float64) float64 {
	if sd == 0 {
		return step(mean, limit)
	}
	return upper((limit - mean) / sd)
}

// step is the probability of a figure known without error.
func step(v, limit float64) float64 {
	if v > limit {
		return 1
	}
	return 0
}

// upper is the normal probability over z.
func upper(z float64) float64 { return 0.5 * math.Erfc(z/math.Sqrt2) }

// axes are the principal axes of a covariance: the standard deviations along
// them and the direction of the wide one.
type axes struct{ wide, thin, east, north float64 }

func axesOf(cov [2][2]float64) axes {
	mean, half := (cov[0][0]+cov[1][1])/2, (cov[0][0]-cov[1][1])/2
	d := math.Hypot(half, cov[0][1])
	turn := math.Atan2(cov[0][1], half) / 2
	north, east := math.Sincos(turn)
	return axes{math.Sqrt(math.Max(0, mean+d)), math.Sqrt(math.Max(0, mean-d)), east, north}
}

// straightExceeds takes |g| for normal with the mean |g| + v/(2|g|), v the
// variance square to g.
func straightExceeds(g terrain.Gradient, cov [2][2]float64, limit float64) float64 {
	f := g.Fall()
	if f < limit/2 {
		return 0 // hundreds of standard deviations away
	}
	e, n := g.East/f, g.North/f
	across := n*n*cov[0][0] - 2*e*n*cov[0][1] + e*e*cov[1][1]
	return normalExceeds(f+math.Max(0, across)/(2*f), fallError(g, cov), limit)
}

// insideCircle is the probability of a point within t of the origin, normal
// about (m1, m2) with standard deviations s1 >= s2.
func insideCircle(m1, m2, s1, s2, t float64) float64 {
	within := func(half float64) float64 {
		return upper((-half-m1)/s1) - upper((half-m1)/s1)
	}
	if s2 <= thinAxis*t {
		return within(math.Sqrt(math.Max(0, t*t-m2*m2)))
	}
	low, high := math.Max(-t, m2-reachOfNormal*s2), math.Min(t, m2+reachOfNormal*s2)
	if low >= high {
		return 0
	}
	from, to := math.Asin(low/t), math.Asin(high/t)
	// The wide part changes over s1/t of the angle: three of them to a panel.
	panels := max(leastPanels, int(math.Ceil((to-from)*t/(3*s1))))
	half := (to - from) / float64(2*panels)
	sum := 0.0
	for p := range panels {
		middle := from + half*float64(2*p+1)
		for i, x := range panelX {
			sin, cos := math.Sincos(middle + half*x)
			u := (t*sin - m2) / s2
			sum += panelW[i] * math.Exp(-u*u/2) * cos * within(t*cos)
		}
	}
	return sum * half * t / (s2 * math.Sqrt(2*math.Pi))
}
