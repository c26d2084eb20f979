package export

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/mapgrid"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ErrNoPlace is the error for a file of longitude and latitude where the plot's
// place on the earth is not known.
var ErrNoPlace = errors.New("the plot is in metres of its own and its longitude and latitude are not known")

// onTheEarth is how a plot's frame lies on the earth.
type onTheEarth struct {
	lonLat func(orb.Point) orb.Point // longitude and latitude in degrees on WGS84
	said   string                    // what is to be known of them; may be empty
}

// placed tells how a frame lies on the earth; ok is false where that is not known.
// The +y axis of a plot that was joined to longitude and latitude by marks is
// turned. A plot on a map grid is brought to WGS84 as well as its datum allows.
func placed(f siting.Frame) (on onTheEarth, ok bool) {
	if f.Origin == nil {
		return onMapGrid(f)
	}
	local := geodata.LocalMetres{Origin: *f.Origin}
	sin, cos := math.Sincos(f.AxisBearing * math.Pi / 180)
	on.lonLat = func(p orb.Point) orb.Point {
		return local.Back(orb.Point{p[0]*cos + p[1]*sin, p[1]*cos - p[0]*sin})
	}
	return on, true
}

// onMapGrid is a frame of metres on a known map grid.
func onMapGrid(f siting.Frame) (on onTheEarth, ok bool) {
	grid, err := mapgrid.ByCode(f.MapGrid)
	if f.MapGrid == 0 || err != nil {
		return on, false
	}
	for _, p := range f.Boundary {
		if _, _, err := grid.BackWGS84(p); err != nil {
			return on, false
		}
	}
	on.said = fmt.Sprintf("brought over from the map grid EPSG:%d", f.MapGrid)
	if off := grid.Datum.Error; off > 0 {
		on.said += fmt.Sprintf(", by which the whole may lie up to %.0f m off", off)
	}
	on.lonLat = func(p orb.Point) orb.Point {
		q, _, _ := grid.BackWGS84(p) // the grid reaches far beyond a plot that lies on it
		return q
	}
	return on, true
}
