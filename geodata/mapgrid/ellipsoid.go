package mapgrid

import "math"

// Ellipsoid is a figure of the earth.
type Ellipsoid struct {
	Name              string
	Radius            float64 // equatorial, metres
	InverseFlattening float64
}

// The ellipsoids of the grids that are known here. WGS84: NIMA TR8350.2, 2000.
// GRS80: Moritz, Geodetic Reference System 1980. Airy: Ordnance Survey, A guide
// to coordinate systems in Great Britain, annexe A, which gives both half axes;
// the rest as the EPSG register has them, from memory.
var (
	WGS84        = Ellipsoid{"WGS84", 6378137, 298.257223563}
	GRS80        = Ellipsoid{"GRS80", 6378137, 298.257222101}
	Airy1830     = Ellipsoid{"Airy 1830", 6377563.396, 6377563.396 / (6377563.396 - 6356256.909)}
	AiryModified = Ellipsoid{"Airy modified 1849", 6377340.189, 299.3249646}
	Clarke1866   = Ellipsoid{"Clarke 1866", 6378206.4, 6378206.4 / (6378206.4 - 6356583.8)}
)

// flattening is (a - b)/a.
func (e Ellipsoid) flattening() float64 { return 1 / e.InverseFlattening }

// third is the third flattening, (a - b)/(a + b).
func (e Ellipsoid) third() float64 { return e.flattening() / (2 - e.flattening()) }

// eccentricity2 is the square of the first eccentricity.
func (e Ellipsoid) eccentricity2() float64 { return e.flattening() * (2 - e.flattening()) }

// cartesian is a place on the ellipsoid in metres from its centre; angles are
// radians.
func (e Ellipsoid) cartesian(lambda, phi float64) [3]float64 {
	s, c := math.Sincos(phi)
	n := e.Radius / math.Sqrt(1-e.eccentricity2()*s*s)
	return [3]float64{n * c * math.Cos(lambda), n * c * math.Sin(lambda), n * (1 - e.eccentricity2()) * s}
}

// angles turns metres from the centre into longitude and latitude in radians.
// Each round shrinks the error of the latitude by the squared eccentricity, so
// ten rounds are exact to rounding.
func (e Ellipsoid) angles(p [3]float64) (lambda, phi float64) {
	across := math.Hypot(p[0], p[1])
	phi = math.Atan2(p[2], across*(1-e.eccentricity2()))
	for range 10 {
		s := math.Sin(phi)
		n := e.Radius / math.Sqrt(1-e.eccentricity2()*s*s)
		phi = math.Atan2(p[2]+e.eccentricity2()*n*s, across)
	}
	return math.Atan2(p[1], p[0]), phi
}
