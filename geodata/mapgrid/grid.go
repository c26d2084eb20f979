package mapgrid

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Grid is a national grid or a UTM zone: a transverse Mercator projection of
// one ellipsoid with its true and false origins.
type Grid struct {
	EPSG       int // code in the EPSG register; 0 for one of your own
	Name       string
	Datum      Datum
	Longitude  float64 // of the central meridian, degrees
	Latitude   float64 // of the true origin, degrees
	Scale      float64 // on the central meridian
	FalseEast  float64 // easting of the true origin, m
	FalseNorth float64 // northing of the true origin, m
}

// The range of the projection. Within it the series to the fourth power agrees
// with PROJ's, to the sixth, to a hundredth of a millimetre.
const (
	mostFromMeridian = 12.0 // degrees of longitude
	mostLatitude     = 84.0 // degrees
)

// ErrNotDegrees is for what is no longitude and latitude; ErrOutside for places
// outside the range of a grid: over 12 degrees of longitude from its central
// meridian, or over 84 degrees of latitude.
var (
	ErrNotDegrees = errors.New("no longitude and latitude in degrees")
	ErrOutside    = errors.New("too far from the grid's central meridian or too near a pole")
)

// From gives easting and northing in metres of a longitude and latitude on the
// grid's own datum. For WGS84, as satellites give it, use FromWGS84. Errors:
// ErrNotDegrees, ErrOutside.
func (g Grid) From(lonLat orb.Point) (orb.Point, error) {
	p, err := g.project(lonLat)
	if err != nil {
		return orb.Point{}, err
	}
	s := g.Datum.Ellipsoid.series()
	origin := s.forward(0, radians(g.Latitude))
	return orb.Point{
		g.FalseEast + g.Scale*s.radius*p.eta,
		g.FalseNorth + g.Scale*s.radius*(p.xi-origin.xi),
	}, nil
}

// Back gives longitude and latitude in degrees, on the grid's own datum, of an
// easting and northing. Error: ErrOutside.
func (g Grid) Back(eastNorth orb.Point) (orb.Point, error) {
	s := g.Datum.Ellipsoid.series()
	origin := s.forward(0, radians(g.Latitude))
	eta := (eastNorth[0] - g.FalseEast) / (g.Scale * s.radius)
	xi := (eastNorth[1]-g.FalseNorth)/(g.Scale*s.radius) + origin.xi
	if !(math.Abs(eta) < 0.3 && math.Abs(xi) < math.Pi/2) { // not a number fails too
		return orb.Point{}, g.outside(eastNorth)
	}
	lambda, phi := s.back(xi, eta)
	if math.Abs(lambda) > radians(mostFromMeridian)+1e-9 || math.Abs(phi) > radians(mostLatitude)+1e-9 {
		return orb.Point{}, g.outside(eastNorth)
	}
	return orb.Point{turned(g.Longitude + degrees(lambda)), degrees(phi)}, nil
}

// ScaleAt is how long a metre of the ground at sea level is on the grid at a
// place on the grid's datum. Errors: ErrNotDegrees, ErrOutside.
func (g Grid) ScaleAt(lonLat orb.Point) (float64, error) {
	p, err := g.project(lonLat)
	return g.Scale * p.scale, err
}

// Convergence is the bearing of grid north from true north at a place on the
// grid's datum, radians, positive where grid north lies east of true north.
// Errors: ErrNotDegrees, ErrOutside.
func (g Grid) Convergence(lonLat orb.Point) (float64, error) {
	p, err := g.project(lonLat)
	return p.convergence, err
}

// project checks a place and projects it.
func (g Grid) project(lonLat orb.Point) (plane, error) {
	lon, lat := lonLat[0], lonLat[1]
	if !(math.Abs(lon) <= 360 && math.Abs(lat) <= 90) {
		return plane{}, fmt.Errorf("%g, %g: %w", lon, lat, ErrNotDegrees)
	}
	from := turned(lon - g.Longitude)
	if math.Abs(from) > mostFromMeridian || math.Abs(lat) > mostLatitude {
		return plane{}, fmt.Errorf("longitude %g, latitude %g on the %s: %w", lon, lat, g.Name, ErrOutside)
	}
	return g.Datum.Ellipsoid.series().forward(radians(from), radians(lat)), nil
}

func (g Grid) outside(eastNorth orb.Point) error {
	return fmt.Errorf("easting %g, northing %g on the %s: %w", eastNorth[0], eastNorth[1], g.Name, ErrOutside)
}

func radians(deg float64) float64 { return deg * math.Pi / 180 }
func degrees(rad float64) float64 { return rad * 180 / math.Pi }

// turned brings a longitude, or a difference of two, to -180 to 180 degrees.
func turned(deg float64) float64 {
	if deg >= -180 && deg <= 180 {
		return deg
	}
	return math.Remainder(deg, 360)
}
