package mapgrid

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"
)

// Datum is an ellipsoid tied to the ground.
type Datum struct {
	Name      string
	Ellipsoid Ellipsoid
	// Shift brings places from WGS84 on to the datum. The zero Shift leaves
	// them as they are.
	Shift Shift
	// Error is how far a place brought over from WGS84 may be off as a whole,
	// metres; 0 with NoShift.
	Error float64
	// NoShift is true when no way from WGS84 is known here.
	NoShift bool
}

// Shift is a turn, a stretch and a move of the axes, by seven parameters, with
// turns in the sense of the position vector.
type Shift struct {
	Move  [3]float64 // metres
	Turn  [3]float64 // seconds of arc about the three axes
	Scale float64    // parts in a million
}

// The datums of the grids here. ETRS89, GDA94, GDA2020, NAD83 and NZGD2000 were
// laid to agree with WGS84 and have drifted since with their plates, or lay a
// little apart from the start; their Errors are defaults of ours on that ground.
// OSGB36: Ordnance Survey, A guide to coordinate systems in Great Britain,
// section 6.6, whose parameters are good to about 5 m (from memory; checked
// against PROJ).
var (
	onWGS84    = Datum{Name: "WGS84", Ellipsoid: WGS84}
	onETRS89   = Datum{Name: "ETRS89", Ellipsoid: GRS80, Error: 1}
	onGDA94    = Datum{Name: "GDA94", Ellipsoid: GRS80, Error: 3}
	onGDA2020  = Datum{Name: "GDA2020", Ellipsoid: GRS80, Error: 1}
	onNAD83    = Datum{Name: "NAD83", Ellipsoid: GRS80, Error: 3}
	onNZGD2000 = Datum{Name: "NZGD2000", Ellipsoid: GRS80, Error: 2}
	onOSGB36   = Datum{
		Name: "OSGB36", Ellipsoid: Airy1830, Error: 5,
		Shift: Shift{Move: [3]float64{-446.448, 125.157, -542.060}, Turn: [3]float64{-0.1502, -0.2470, -0.8421}, Scale: 20.4894},
	}
	onTM75 = Datum{Name: "TM75", Ellipsoid: AiryModified, NoShift: true}
)

// ErrNoShift is for grids whose datum cannot be reached from WGS84 here: join
// such a survey to the other by marks that are in both.
var ErrNoShift = errors.New("no way from WGS84 to the grid's datum is known: join the two by shared marks")

// FromWGS84 gives easting and northing of a longitude and latitude on WGS84, and
// how many metres the place may be off as a whole. Two places of one plot are
// off alike, so what lies between them is right; but do not join them to places
// that were measured on the grid itself without shared marks unless so many
// metres do not matter. Errors: ErrNotDegrees, ErrOutside, ErrNoShift.
func (g Grid) FromWGS84(lonLat orb.Point) (eastNorth orb.Point, off float64, err error) {
	if g.Datum.NoShift {
		return orb.Point{}, 0, fmt.Errorf("%s: %w", g.Name, ErrNoShift)
	}
	if _, err := g.project(lonLat); err != nil {
		return orb.Point{}, 0, err
	}
	eastNorth, err = g.From(g.Datum.fromWGS84(lonLat))
	return eastNorth, g.Datum.Error, err
}

// BackWGS84 gives longitude and latitude on WGS84 of an easting and northing,
// and how many metres the place may be off as a whole. Errors: ErrOutside,
// ErrNoShift.
func (g Grid) BackWGS84(eastNorth orb.Point) (lonLat orb.Point, off float64, err error) {
	if g.Datum.NoShift {
		return orb.Point{}, 0, fmt.Errorf("%s: %w", g.Name, ErrNoShift)
	}
	lonLat, err = g.Back(eastNorth)
	if err != nil {
		return orb.Point{}, 0, err
	}
	return g.Datum.toWGS84(lonLat), g.Datum.Error, nil
}

// fromWGS84 brings a place on to the datum. The height above the ellipsoid is
// taken as 0: 100 m of it move the place by millimetres, since the two
// ellipsoids' normals are seconds of arc apart.
func (d Datum) fromWGS84(lonLat orb.Point) orb.Point {
	if d.Shift == (Shift{}) {
		return lonLat
	}
	p := d.Shift.apply(WGS84.cartesian(radians(lonLat[0]), radians(lonLat[1])))
	lambda, phi := d.Ellipsoid.angles(p)
	return orb.Point{degrees(lambda), degrees(phi)}
}

// toWGS84 is fromWGS84 the other way.
func (d Datum) toWGS84(lonLat orb.Point) orb.Point {
	if d.Shift == (Shift{}) {
		return lonLat
	}
	p := d.Shift.undo(d.Ellipsoid.cartesian(radians(lonLat[0]), radians(lonLat[1])))
	lambda, phi := WGS84.angles(p)
	return orb.Point{degrees(lambda), degrees(phi)}
}

// apply is the shift for small turns (Ordnance Survey guide, annexe B, from memory).
func (s Shift) apply(p [3]float64) [3]float64 {
	r := [3]float64{radians(s.Turn[0] / 3600), radians(s.Turn[1] / 3600), radians(s.Turn[2] / 3600)}
	k := 1 + s.Scale*1e-6
	return [3]float64{
		s.Move[0] + k*p[0] - r[2]*p[1] + r[1]*p[2],
		s.Move[1] + r[2]*p[0] + k*p[1] - r[0]*p[2],
		s.Move[2] - r[1]*p[0] + r[0]*p[1] + k*p[2],
	}
}

// undo solves apply by repetition: the shift moves places by hundred-thousandths
// of their distance from the centre, so each round gains five digits.
func (s Shift) undo(want [3]float64) [3]float64 {
	p := want
	for range 6 {
		got := s.apply(p)
		for i := range p {
			p[i] += want[i] - got[i]
		}
	}
	return p
}
