package mapgrid

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// PrintedAngle is the turn of magnetic north, from true or from grid north, as
// a map prints it for one year.
type PrintedAngle struct {
	Angle   float64 // radians, positive to the east
	Year    float64
	PerYear float64 // radians a year, positive to the east
}

const (
	// mostYears is how far a printed drift is carried; a default of ours.
	mostYears = 30
	// driftSpread is by how much the drift may have changed from what was
	// printed, radians a year: 3 minutes of arc. A default of ours.
	driftSpread = 3.0 / 60 * math.Pi / 180
)

// ErrDriftTooOld is for an angle printed over 30 years from the year asked for.
var ErrDriftTooOld = errors.New("the map is too old to carry its magnetic north to this year: look up the present declination")

// In is the angle in another year, radians: what was printed, and the drift
// times the years. The drift itself changes, so the band widens by 3 minutes of
// arc for each year. Error: ErrDriftTooOld.
func (p PrintedAngle) In(year float64) (geodata.Estimate, error) {
	years := year - p.Year
	if !(math.Abs(years) <= mostYears) { // not a number fails too
		return geodata.Estimate{}, fmt.Errorf("%g to %g: %w", p.Year, year, ErrDriftTooOld)
	}
	v := p.Angle + p.PerYear*years
	half := driftSpread * math.Abs(years)
	return geodata.Estimate{Value: v, Low: v - half, High: v + half}, nil
}

// MostBackSightOff is by how much a back bearing may fail to be opposite before
// iron near the compass is to be suspected: 2 degrees, common practice, no
// source.
const MostBackSightOff = 2 * math.Pi / 180

// BackSightOff is by how much a bearing read back along a line fails to be the
// opposite of that read forward, radians, -pi to pi. Iron fences, sheds and
// telephones turn a compass: over MostBackSightOff read again elsewhere.
func BackSightOff(forward, back float64) float64 {
	return math.Remainder(back-forward-math.Pi, 2*math.Pi)
}

// NorthAt says in words which north the grid's bearings count from at a place
// on the grid's datum, and how far it lies from true north. Errors: those of
// Convergence.
func (g Grid) NorthAt(lonLat orb.Point) (string, error) {
	c, err := g.Convergence(lonLat)
	if err != nil {
		return "", err
	}
	off, side := degrees(c), "east"
	if off < 0 {
		off, side = -off, "west"
	}
	if off < 0.05 {
		return fmt.Sprintf("grid north of the %s, which is true north here to a tenth of a degree", g.Name), nil
	}
	return fmt.Sprintf("grid north of the %s, which lies %.1f degrees %s of true north here", g.Name, off, side), nil
}
