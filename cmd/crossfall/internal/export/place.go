package export

import (
	"errors"
	"math"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ErrNoPlace is the error for a file of longitude and latitude where the plot's
// place on the earth is not known.
var ErrNoPlace = errors.New("the plot is in metres of its own and its longitude and latitude are not known: " +
	"give the plot or two of its marks in longitude and latitude")

// toLonLat leads from the plot's frame to longitude and latitude in degrees on
// WGS84; ok is false where the plot's place on the earth is not known. The +y axis
// of a plot that was joined to longitude and latitude by marks is turned.
func toLonLat(f siting.Frame) (to func(orb.Point) orb.Point, ok bool) {
	if f.Origin == nil {
		return nil, false
	}
	local := geodata.LocalMetres{Origin: *f.Origin}
	sin, cos := math.Sincos(f.AxisBearing * math.Pi / 180)
	return func(p orb.Point) orb.Point {
		return local.Back(orb.Point{p[0]*cos + p[1]*sin, p[1]*cos - p[0]*sin})
	}, true
}
