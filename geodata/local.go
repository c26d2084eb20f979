package geodata

import (
	"math"

	"github.com/paulmach/orb"
)

// The World Geodetic System 1984 ellipsoid (NIMA TR8350.2, 2000).
const (
	wgs84Radius     = 6378137.0
	wgs84Flattening = 1 / 298.257223563
	wgs84Excentric2 = wgs84Flattening * (2 - wgs84Flattening) // first eccentricity squared
)

// LocalMetres turns longitude and latitude (degrees, WGS84) into metres east
// and north of an origin, and back, by the second-order development of a
// transverse Mercator projection on the origin's meridian with a scale of 1.
// Within 1.4 km of the origin it is that projection to 0.02 mm up to 55 degrees
// of latitude, and to 0.1 mm up to 70; it is meant for plots up to 2 km wide.
type LocalMetres struct {
	Origin orb.Point // longitude, latitude in degrees
}

// From gives metres east and north of the origin.
func (l LocalMetres) From(lonLat orb.Point) orb.Point {
	phi, phi0 := radians(lonLat[1]), radians(l.Origin[1])
	lambda := radians(turn(lonLat[0] - l.Origin[0]))
	n := primeRadius(phi)
	return orb.Point{
		n * math.Cos(phi) * lambda,
		meridianRadius((phi+phi0)/2)*(phi-phi0) + n*math.Sin(phi)*math.Cos(phi)*lambda*lambda/2,
	}
}

// Back gives longitude and latitude in degrees of a place in local metres. It
// solves From by repetition: each round shrinks the error by the size of the
// plot over the radius of the earth, so five rounds are exact to rounding.
func (l LocalMetres) Back(p orb.Point) orb.Point {
	phi, lambda := radians(l.Origin[1]), 0.0
	for range 5 {
		n := primeRadius(phi)
		north := p[1] - n*math.Sin(phi)*math.Cos(phi)*lambda*lambda/2
		phi = radians(l.Origin[1]) + north/meridianRadius((phi+radians(l.Origin[1]))/2)
		lambda = p[0] / (primeRadius(phi) * math.Cos(phi))
	}
	return orb.Point{turn(l.Origin[0] + lambda*180/math.Pi), phi * 180 / math.Pi}
}

// primeRadius is the radius of curvature across the meridian.
func primeRadius(phi float64) float64 {
	s := math.Sin(phi)
	return wgs84Radius / math.Sqrt(1-wgs84Excentric2*s*s)
}

// meridianRadius is the radius of curvature along the meridian.
func meridianRadius(phi float64) float64 {
	s := math.Sin(phi)
	return wgs84Radius * (1 - wgs84Excentric2) / math.Pow(1-wgs84Excentric2*s*s, 1.5)
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// turn brings a longitude, or a difference of two, to -180 to 180 degrees.
func turn(degrees float64) float64 {
	if degrees >= -180 && degrees <= 180 {
		return degrees
	}
	return math.Remainder(degrees, 360)
}

// CentreOf is the origin for local metres of some places given as longitude
// and latitude: the middle of their extent, rounded to a hundred-thousandth of
// a degree (about a metre), so that it does not depend on the order of the
// places. A group that crosses the 180th meridian is kept together.
func CentreOf(lonLat []orb.Point) orb.Point {
	if len(lonLat) == 0 {
		return orb.Point{}
	}
	box := orb.MultiPoint(lonLat).Bound()
	if box.Max[0]-box.Min[0] > 180 {
		east := make(orb.MultiPoint, len(lonLat))
		for i, p := range lonLat {
			if p[0] < 0 {
				p[0] += 360
			}
			east[i] = p
		}
		box = east.Bound()
	}
	round := func(v float64) float64 { return math.Round(v*1e5) / 1e5 }
	return orb.Point{turn(round((box.Min[0] + box.Max[0]) / 2)), round((box.Min[1] + box.Max[1]) / 2)}
}
