package siting

import (
	"math"
	"time"

	"crossfall/geodata"
	"crossfall/terrain"
	"crossfall/terrain/sun"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Light says what the sun hours of the beds rest on.
type Light struct {
	Latitude *float64 `json:"latitude_degrees"` // null where there are no sun hours
	Reason   string   `json:"reason,omitempty"` // why there are none
	Counted  []string `json:"counted"`          // what was reckoned with in the sun's way
	LeftOut  []string `json:"left_out"`         // what stands on the plot and was not, and why
	Note     string   `json:"note,omitempty"`
}

// BedLight is the direct sun on one bed.
type BedLight struct {
	Days []SunHours `json:"days"` // the equinoxes and solstices, from March on
}

// SunHours is the direct sun of one clear day, the mean over a bed.
type SunHours struct {
	Date      string           `json:"date"`
	Hours     geodata.Estimate `json:"hours"`
	DayLength float64          `json:"day_length_h"` // sun's centre over the level horizon
}

// dayParts is into how many parts a day is cut, about a quarter of an hour each, and
// sunYear the year of the dates; the sun's place on a date differs by under 0.3
// degrees from year to year.
const (
	dayParts = 64
	sunYear  = 2026
)

var sunMonths = []time.Month{time.March, time.June, time.September, time.December}

// sunlight is what the sun hours of any bed need: nothing of it depends on beds.
type sunlight struct {
	said   Light
	days   []sun.Day
	scenes [][3]*sun.Scene // for each day: least sun, middle, most
	bare   []bool          // for each day: trees have no leaves
}

// newSunlight looks at the plot from the sun's side.
func newSunlight(p *geodata.Plot, fit *surface.Fit, r reliefOf) sunlight {
	l := sunlight{said: Light{Counted: []string{"the slope of the ground"}, LeftOut: []string{}}}
	latitude, longitude := onEarth(p)
	switch {
	case latitude == nil:
		l.said.Reason = "no latitude is given: site.toml, place.latitude"
		return l
	case p.Frame.NorthFromTrue == nil:
		l.said.Reason = "where true north lies is not known: site.toml, place.north (\"true\") and place.y_axis_bearing_degrees"
		return l
	}
	l.said.Latitude = latitude
	hills := hillsOf(p, r)
	l.said.Note = "hours of direct sun on a clear day, with no cloud; trees and buildings that are not drawn are not in it"
	if p.Hillside == nil {
		l.said.Note += ", nor is the ground beyond the plot"
	} else {
		l.said.Counted = append(l.said.Counted, "the hillside around the plot")
	}
	things := l.shading(p)
	doubt := percentOf(fit.Plane.Gradient, fit.Plane.Covariance, fit.Plane.Quantile)
	steeper := (doubt.High - doubt.Low) / 200
	north := terrain.Bearing(p.Frame.NorthTurn + *p.Frame.NorthFromTrue).Normal()
	for _, month := range sunMonths {
		l.days = append(l.days, sun.Over(time.Date(sunYear, month, 21, 0, 0, 0, 0, time.UTC), *latitude, longitude, dayParts))
		bare := (month == time.March || month == time.December) == (*latitude >= 0)
		l.bare = append(l.bare, bare)
		var scenes [3]*sun.Scene
		for i := range scenes {
			hills.Steeper = steeper * float64(1-i)
			s, err := sun.NewScene(fit, hills, north, obstaclesOf(things, i, bare))
			if err != nil {
				l.said.Latitude, l.said.Reason = nil, "the height of the ground under something drawn on the plot is not known"
				return l
			}
			scenes[i] = s
		}
		l.scenes = append(l.scenes, scenes)
	}
	return l
}

// onEarth is where on the earth the plot lies, degrees; latitude is nil where it
// is not known, and longitude then or without one 0, which moves the declination
// of a date by under 0.2 degrees.
func onEarth(p *geodata.Plot) (latitude *float64, longitude float64) {
	if p.Frame.Geographic {
		return &p.Frame.Origin[1], p.Frame.Origin[0]
	}
	if p.Site.Place.Longitude != nil {
		longitude = *p.Site.Place.Longitude
	}
	return p.Site.Place.Latitude, longitude
}

// hills is the ground that may hide the sun: the plot's own inside the boundary
// and the hillside around it. The hillside is lowered by its worst misfit, so
// that no step at the boundary is taken for a bank.
type hills struct {
	inside   *terrain.Grid
	outside  *terrain.Grid // nil without
	boundary orb.Polygon
	worst    float64
}

func (h hills) HeightAt(p orb.Point) (float64, bool) {
	if z, ok := h.inside.HeightAt(p); ok || h.outside == nil || planar.PolygonContains(h.boundary, p) {
		return z, ok
	}
	z, ok := h.outside.HeightAt(p)
	return z - h.worst, ok
}

// farGround is how far off ground is looked for, m; a default of ours.
const farGround = 2000.0

func hillsOf(p *geodata.Plot, r reliefOf) sun.Hills {
	h := hills{inside: r.grid, boundary: p.Boundary}
	across := func(b orb.Bound) float64 { return math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) }
	out := sun.Hills{Reach: across(p.Boundary.Bound()), Highest: highest(r.grid.Z)}
	if s := p.Hillside; s != nil {
		h.outside = &terrain.Grid{Origin: s.Origin, Cell: s.Cell, Cols: s.Cols, Rows: s.Rows, Z: s.Z}
		h.worst = math.Abs(s.Worst)
		out.Reach, out.Highest = math.Min(farGround, across(s.Bound())), math.Max(out.Highest, highest(s.Z))
	}
	out.Ground = h
	return out
}

// highest is the greatest of heights, of which some are not known.
func highest(z []float64) float64 {
	most := math.Inf(-1)
	for _, h := range z {
		if h > most { // not NaN
			most = h
		}
	}
	return most
}

// light is the sun on one bed; nil where it cannot be told.
func (l sunlight) light(d decision) *BedLight {
	if l.said.Latitude == nil {
		return nil
	}
	points := pointsOver(d.ground.Corners)
	out := &BedLight{}
	for i, day := range l.days {
		h := SunHours{Date: "21 " + sunMonths[i].String(), DayLength: day.Length}
		s := l.scenes[i]
		h.Hours = geodata.Estimate{Value: s[1].Hours(day, points), Low: s[0].Hours(day, points), High: s[2].Hours(day, points)}
		out.Days = append(out.Days, h)
	}
	return out
}

// pointsOver are six points that stand for a bed: the middles of its sixths.
func pointsOver(c [4]orb.Point) []orb.Point {
	var out []orb.Point
	for _, u := range []float64{1.0 / 6, 0.5, 5.0 / 6} {
		for _, v := range []float64{0.25, 0.75} {
			var p orb.Point
			for k := range p {
				p[k] = (1-u)*((1-v)*c[0][k]+v*c[3][k]) + u*((1-v)*c[1][k]+v*c[2][k])
			}
			out = append(out, p)
		}
	}
	return out
}
