package plotfolder

import (
	"fmt"
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Frames of reference. The frame of the heights is the frame of the plot.

// settleFrame brings heights and shapes into one frame of local metres and
// fills the plot's Frame. It is false when they cannot be joined.
func settleFrame(p *geodata.Plot, s *survey, shapes []drawn, c *collector) bool {
	p.Frame = frameWords(p.Site)
	y, ok := joinSystems(s, shapes, c)
	switch {
	case !ok:
		return false
	case !y.degrees:
		return settleGrid(p, s, shapes, c)
	}
	p.Frame.Geographic = true
	p.Frame.Origin, p.Frame.North, p.Frame.NorthTurn = y.local.Origin, trueNorth, 0
	if !y.moved {
		c.note(geodata.Pos{File: s.file}, "projected", fmt.Sprintf("longitude and latitude were turned into metres about %.5f, %.5f; +y is true north",
			y.local.Origin[0], y.local.Origin[1]))
	} else if !s.lonLat {
		p.Frame.Origin = y.local.Back(y.motion.back(orb.Point{}))
		p.Frame.NorthTurn = y.motion.angle
	}
	p.Frame.NorthFromTrue = new(float64)
	return agreesWithSite(p, c)
}

// Words for the north of a frame.
const (
	trueNorth = "true north"
	axisNorth = "the +y axis"
)

// frameWords is the frame of local metres as site.toml describes it.
func frameWords(site geodata.Site) geodata.Frame {
	f := geodata.Frame{North: axisNorth}
	if site.Place.North != "" {
		f.North = site.Place.North + " north"
	}
	if b := site.Place.AxisBearing; b != nil {
		f.NorthTurn = *b * math.Pi / 180
	}
	f.NorthFromTrue = northFromTrue(site)
	return f
}

// agreesWithSite warns when site.toml turns the y axis otherwise than the
// coordinates do. Only a bearing from true north can be compared.
func agreesWithSite(p *geodata.Plot, c *collector) bool {
	warnElsewhere(p, c)
	const slack = 3 // degrees; about what a compass and a map give
	b := p.Site.Place.AxisBearing
	if b == nil || p.Site.Place.North != "true" {
		return true
	}
	found := p.Frame.NorthTurn * 180 / math.Pi
	if d := math.Abs(math.Remainder(*b-found, 360)); d > slack {
		c.warn(geodata.Pos{File: siteFile}, "axis-contradicts", fmt.Sprintf("y_axis_bearing_degrees = %g", *b),
			fmt.Sprintf("by longitude and latitude the bearing of the y axis is %.1f degrees: that was taken", math.Mod(found+360, 360)), "correct it, or leave it out")
	}
	return true
}

// farAway is how many degrees a plot may lie from where site.toml puts it; a
// default of ours.
const farAway = 2.0

// warnElsewhere warns of longitude and latitude far from where site.toml says the
// plot is, as when the two were exchanged.
func warnElsewhere(p *geodata.Plot, c *collector) {
	lat := p.Site.Place.Latitude
	if lat == nil || math.Abs(p.Frame.Origin[1]-*lat) <= farAway {
		return
	}
	want := "check the coordinates, or the latitude in site.toml"
	if math.Abs(p.Frame.Origin[0]-*lat) <= farAway {
		want = "longitude and latitude look exchanged: longitude comes first"
	}
	c.warn(geodata.Pos{File: siteFile}, "place-contradicts", fmt.Sprintf("latitude = %g", *lat),
		fmt.Sprintf("by its coordinates the plot lies at longitude %.4f, latitude %.4f", p.Frame.Origin[0], p.Frame.Origin[1]), want)
}

// each replaces every place of a shape.
func (d *drawn) each(f func(orb.Point) orb.Point) {
	for i := range d.parts {
		d.parts[i].at = f(d.parts[i].at)
	}
	for _, hole := range d.holes {
		for i := range hole {
			hole[i].at = f(hole[i].at)
		}
	}
}

func (d *drawn) move(m motion) { d.each(m.to) }

// motion turns about the origin by an angle and then shifts.
type motion struct {
	angle float64 // radians counterclockwise
	shift orb.Point
}

func (m motion) to(p orb.Point) orb.Point {
	s, c := math.Sincos(m.angle)
	return orb.Point{c*p[0] - s*p[1] + m.shift[0], s*p[0] + c*p[1] + m.shift[1]}
}

func (m motion) back(p orb.Point) orb.Point {
	s, c := math.Sincos(m.angle)
	x, y := p[0]-m.shift[0], p[1]-m.shift[1]
	return orb.Point{c*x + s*y, -s*x + c*y}
}

// fitMotion is the motion that brings some points nearest to others in the
// sense of least squares, with the scale held at 1: the angle whose tangent is
// the sum of cross products over the sum of dot products about the two centres
// (the plane case of the orthogonal Procrustes problem, Schönemann 1966).
func fitMotion(from, to []orb.Point) motion {
	a, b := centre(from), centre(to)
	var cross, dot float64
	for i := range from {
		u, v := orb.Point{from[i][0] - a[0], from[i][1] - a[1]}, orb.Point{to[i][0] - b[0], to[i][1] - b[1]}
		cross += u[0]*v[1] - u[1]*v[0]
		dot += u[0]*v[0] + u[1]*v[1]
	}
	m := motion{angle: math.Atan2(cross, dot)}
	at := m.to(a)
	m.shift = orb.Point{b[0] - at[0], b[1] - at[1]}
	return m
}

func centre(points []orb.Point) (c orb.Point) {
	for _, p := range points {
		c[0] += p[0] / float64(len(points))
		c[1] += p[1] / float64(len(points))
	}
	return c
}
