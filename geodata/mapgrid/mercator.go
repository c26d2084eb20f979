package mapgrid

import "math"

// series are the figures of an ellipsoid for the transverse Mercator projection
// in powers of the third flattening n, by L. Krueger, Konforme Abbildung des
// Erdellipsoids in der Ebene, 1912, to the fourth power; the coefficients as in
// C. Karney, Transverse Mercator with an accuracy of a few nanometers, Journal
// of Geodesy 85, 2011, as are the formulas below (from memory; checked against PROJ).
type series struct {
	e           float64    // first eccentricity
	radius      float64    // of the circle as long as the meridian, m
	alpha, beta [4]float64 // from the sphere to the plane and back
	equatorial  float64    // radius of the equator, m
}

func (e Ellipsoid) series() series {
	n := e.third()
	n2, n3, n4 := n*n, n*n*n, n*n*n*n
	return series{
		e:          math.Sqrt(e.eccentricity2()),
		radius:     e.Radius / (1 + n) * (1 + n2/4 + n4/64),
		equatorial: e.Radius,
		alpha: [4]float64{
			n/2 - 2*n2/3 + 5*n3/16 + 41*n4/180,
			13*n2/48 - 3*n3/5 + 557*n4/1440,
			61*n3/240 - 103*n4/140,
			49561 * n4 / 161280,
		},
		beta: [4]float64{
			n/2 - 2*n2/3 + 37*n3/96 - n4/360,
			n2/48 + n3/15 - 437*n4/1440,
			17*n3/480 - 37*n4/840,
			4397 * n4 / 161280,
		},
	}
}

// plane is a place in the plane, in units of the meridian's radius, with the
// scale (times the scale on the central meridian) and the turn of grid north
// from true north.
type plane struct{ xi, eta, scale, convergence float64 }

// conformal is the tangent of the conformal latitude from that of the
// latitude (Karney 2011).
func (s series) conformal(tau float64) float64 {
	sigma := math.Sinh(s.e * math.Atanh(s.e*tau/math.Hypot(1, tau)))
	return tau*math.Hypot(1, sigma) - sigma*math.Hypot(1, tau)
}

// forward projects a place lambda east of the central meridian, radians.
func (s series) forward(lambda, phi float64) plane {
	tau := math.Tan(phi)
	t := s.conformal(tau)
	sin, cos := math.Sincos(lambda)
	xi, eta := math.Atan2(t, cos), math.Asinh(sin/math.Hypot(t, cos))
	out := plane{xi: xi, eta: eta}
	p, q := 1.0, 0.0
	for i, a := range s.alpha {
		j := 2 * float64(i+1)
		out.xi += a * math.Sin(j*xi) * math.Cosh(j*eta)
		out.eta += a * math.Cos(j*xi) * math.Sinh(j*eta)
		p += j * a * math.Cos(j*xi) * math.Cosh(j*eta)
		q += j * a * math.Sin(j*xi) * math.Sinh(j*eta)
	}
	// Turn and scale are those of the derivative of the series (Karney 2011).
	sinPhi := math.Sin(phi)
	out.convergence = math.Atan2(t*sin, cos*math.Hypot(1, t)) + math.Atan2(q, p)
	out.scale = s.radius / s.equatorial * math.Hypot(p, q) *
		math.Sqrt(1-s.e*s.e*sinPhi*sinPhi) * math.Hypot(1, tau) / math.Hypot(t, cos)
	return out
}

// back gives longitude from the central meridian and latitude of a place in
// the plane.
func (s series) back(xi, eta float64) (lambda, phi float64) {
	x, y := xi, eta
	for i, b := range s.beta {
		j := 2 * float64(i+1)
		x -= b * math.Sin(j*xi) * math.Cosh(j*eta)
		y -= b * math.Cos(j*xi) * math.Sinh(j*eta)
	}
	t := math.Sin(x) / math.Hypot(math.Sinh(y), math.Cos(x))
	return math.Atan2(math.Sinh(y), math.Cos(x)), math.Atan(s.geodetic(t))
}

// geodetic is conformal the other way, by Newton's method as Karney (2011) has
// it, which is exact to rounding after three rounds.
func (s series) geodetic(t float64) float64 {
	tau := t / (1 - s.e*s.e)
	for range 5 {
		got := s.conformal(tau)
		tau += (t - got) / math.Hypot(1, got) *
			(1 + (1-s.e*s.e)*tau*tau) / ((1 - s.e*s.e) * math.Hypot(1, tau))
	}
	return tau
}
