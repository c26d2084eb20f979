package mapgrid

import (
	"errors"
	"fmt"
)

// The errors of ByCode.
var (
	// ErrDegrees: the system is longitude and latitude, which needs no grid.
	ErrDegrees = errors.New("coordinates are longitude and latitude in degrees, not a grid")
	// ErrWebMap: lengths in the projection of web maps are too long, by 1.6
	// times at 51 degrees of latitude.
	ErrWebMap = errors.New("lengths in the projection of web maps are far too long away from the equator: export in a national grid or a UTM zone")
	// ErrOtherProjection: the system is known by name, but its projection is no
	// transverse Mercator.
	ErrOtherProjection = errors.New("this projection is not read: export in a UTM zone or in longitude and latitude")
	// ErrUnknownCode: nothing is known of the system.
	ErrUnknownCode = errors.New("this coordinate system is not known: export in a UTM zone or in longitude and latitude")
)

// national are the grids that are no plain run of UTM zones. Parameters as in
// the EPSG register; those of 27700 also in Ordnance Survey, A guide to
// coordinate systems in Great Britain, annexe A.
var national = []Grid{
	{2157, "Irish Transverse Mercator", onETRS89, -8, 53.5, 0.99982, 600_000, 750_000},
	{2180, "Polish grid 1992", onETRS89, 19, 0, 0.9993, 500_000, -5_300_000},
	{2193, "New Zealand Transverse Mercator", onNZGD2000, 173, 0, 0.9996, 1_600_000, 10_000_000},
	{3006, "Swedish grid SWEREF99 TM", onETRS89, 15, 0, 0.9996, 500_000, 0},
	{3067, "Finnish grid TM35FIN", onETRS89, 27, 0, 0.9996, 500_000, 0},
	{27700, "British National Grid", onOSGB36, -2, 49, 0.9996012717, 400_000, -100_000},
	{29903, "Irish Grid", onTM75, -8, 53.5, 1.000035, 200_000, 250_000},
}

// run is a run of UTM zones with codes one after another.
type run struct {
	first, last int // codes
	zone        int // of the first
	south       bool
	datum       Datum
	name        string // empty: the name of the UTM zone
}

// runs are those of the EPSG register, from memory, checked against PROJ.
var runs = []run{
	{7846, 7859, 46, true, onGDA2020, "Map Grid of Australia 2020, zone %d"},
	{25828, 25838, 28, false, onETRS89, ""},
	{26901, 26923, 1, false, onNAD83, ""},
	{28348, 28358, 48, true, onGDA94, "Map Grid of Australia 1994, zone %d"},
	{32601, 32660, 1, false, onWGS84, ""},
	{32701, 32760, 1, true, onWGS84, ""},
}

func (r run) grid(code int) Grid {
	zone := r.zone + code - r.first
	g := utmOn(r.datum, zone, r.south)
	g.EPSG = code
	if r.name != "" {
		g.Name = fmt.Sprintf(r.name, zone)
	}
	return g
}

// others are systems that people meet and that are not read, by name.
var others = []struct {
	code int
	name string
	why  error
}{
	{4326, "longitude and latitude on WGS84", ErrDegrees},
	{4979, "longitude and latitude on WGS84", ErrDegrees},
	{4258, "longitude and latitude on ETRS89", ErrDegrees},
	{4269, "longitude and latitude on NAD83", ErrDegrees},
	{4277, "longitude and latitude on OSGB36", ErrDegrees},
	{3857, "web Mercator", ErrWebMap},
	{3785, "web Mercator", ErrWebMap},
	{900913, "web Mercator", ErrWebMap},
	{102100, "web Mercator", ErrWebMap},
	{102113, "web Mercator", ErrWebMap},
	{2056, "Swiss grid LV95", ErrOtherProjection},
	{21781, "Swiss grid LV03", ErrOtherProjection},
	{2154, "French grid Lambert 93", ErrOtherProjection},
	{3035, "European equal-area grid", ErrOtherProjection},
	{3034, "European Lambert grid", ErrOtherProjection},
	{5514, "Czech grid S-JTSK", ErrOtherProjection},
	{28992, "Dutch grid RD New", ErrOtherProjection},
	{31370, "Belgian grid Lambert 72", ErrOtherProjection},
	{3812, "Belgian grid Lambert 2008", ErrOtherProjection},
}

// ByCode finds a grid by its code in the EPSG register. Eastings come first
// here, whatever order the register gives the axes. The error, which names the
// system where it can, is one of ErrDegrees, ErrWebMap, ErrOtherProjection and
// ErrUnknownCode.
func ByCode(epsg int) (Grid, error) {
	for _, g := range national {
		if g.EPSG == epsg {
			return g, nil
		}
	}
	for _, r := range runs {
		if epsg >= r.first && epsg <= r.last {
			return r.grid(epsg), nil
		}
	}
	for _, o := range others {
		if o.code == epsg {
			return Grid{}, fmt.Errorf("EPSG:%d, %s: %w", epsg, o.name, o.why)
		}
	}
	return Grid{}, fmt.Errorf("EPSG:%d: %w", epsg, ErrUnknownCode)
}
