package plotfolder

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
)

// settleGrid names the map grid that local metres are on, where the heights, the
// features or site.toml say one, and with it which north +y is.
func settleGrid(p *geodata.Plot, s *survey, shapes []drawn, c *collector) bool {
	at, code := geodata.Pos{File: s.file}, s.epsg
	for _, d := range shapes {
		if d.epsg == 0 {
			continue
		}
		if code != 0 && code != d.epsg {
			c.problem(d.Source, "grid-contradicts", fmt.Sprintf("EPSG:%d", d.epsg), fmt.Sprintf("%s says EPSG:%d", s.file, code), "export both in one system")
			return false
		}
		if code == 0 {
			at, code = geodata.Pos{File: d.Source.File}, d.epsg
		}
	}
	if said := p.Site.Place.Grid; said != nil {
		if code != 0 && code != *said {
			c.problem(geodata.Pos{File: siteFile}, "grid-contradicts", fmt.Sprintf("grid_epsg = %d", *said),
				fmt.Sprintf("%s says EPSG:%d", s.file, code), "correct grid_epsg, or leave it out")
			return false
		}
		at, code = geodata.Pos{File: siteFile}, *said
	}
	if code == 0 || len(s.spots) == 0 {
		return true
	}
	grid, err := mapgrid.ByCode(code)
	if errors.Is(err, mapgrid.ErrOtherProjection) && s.epsg != 0 { // the file's numbers are metres all the same
		p.Frame.EPSG = code
		if p.Site.Place.North == "" {
			p.Frame.North = fmt.Sprintf("grid north of EPSG:%d", code)
		}
		c.note(at, "map-grid", fmt.Sprintf("coordinates are metres on EPSG:%d; +y is its grid north, and how that lies to true north is not known here", code))
		return true
	}
	if err != nil {
		c.problem(at, "grid-not-read", fmt.Sprintf("EPSG:%d", code), err.Error(),
			"give the heights in metres on a national or UTM grid, or in longitude and latitude")
		return false
	}
	place, err := grid.Back(middle(s.spots))
	if err != nil {
		c.problem(at, "not-on-grid", fmt.Sprintf("EPSG:%d", code), "the heights do not lie on this grid: "+err.Error(),
			"name the grid that the coordinates are on, or leave it out when they are metres from a corner")
		return false
	}
	// Where Back gives a place, these cannot fail.
	convergence, errTurn := grid.Convergence(place)
	scale, errScale := grid.ScaleAt(place)
	north, errNorth := grid.NorthAt(place)
	if errTurn != nil || errScale != nil || errNorth != nil {
		return true
	}
	p.Frame.EPSG = code
	if p.Site.Place.North == "" {
		p.Frame.North = north
	}
	if p.Site.Place.North == "" || p.Site.Place.North == "grid" {
		p.Frame.NorthFromTrue = &convergence
	}
	c.note(at, "map-grid", fmt.Sprintf("coordinates are metres of a map grid: +y is %s; 100 m of ground are %.2f m on it", north, 100*scale))
	return true
}

// northFromTrue is the bearing of the north that site.toml names from true north,
// where that can be told without a map grid.
func northFromTrue(site geodata.Site) *float64 {
	switch {
	case site.Place.North == "true":
		return new(float64)
	case site.Place.North == "magnetic" && site.Compass.From != "grid":
		n := norths{compass: site.Compass}
		if d, err := n.declination(); err == nil {
			return &d.Value
		}
	}
	return nil
}

// middle is the middle of the extent of some heights.
func middle(spots []geodata.SpotHeight) orb.Point {
	var at orb.MultiPoint
	for _, s := range spots {
		at = append(at, s.At)
	}
	return at.Bound().Center()
}

// compassTurn is what is added to the bearings of ties to count them from the
// +y axis, radians: 0 unless site.toml says which north they count from.
func compassTurn(site geodata.Site, marks []levelbook.Mark, ties levelbook.Ties, c *collector) (turn float64, ok bool) {
	if site.Compass.North == "" || !ties.HaveBearings() {
		return 0, true
	}
	missing := func(message, want string) (float64, bool) {
		c.problem(geodata.Pos{File: siteFile}, "north-not-known", "north = "+fmt.Sprintf("%q", site.Compass.North), message, want)
		return 0, false
	}
	axis, from := 0.0, site.Place.North
	if b := site.Place.AxisBearing; b != nil {
		axis = *b * math.Pi / 180
	}
	switch {
	case from == "" && site.Place.Grid != nil:
		from = "grid"
	case from == "":
		return missing("the bearings of ties count from a north, and it is not said how the +y axis lies to it", "write north and y_axis_bearing_degrees under [place]")
	}
	if from == site.Compass.North {
		return -axis, true
	}
	n := norths{compass: site.Compass, grid: site.Place.Grid, marks: marks}
	a, err := n.angle(site.Compass.North)
	if err != nil {
		return missing(err.Error(), n.want)
	}
	b, err := n.angle(from)
	if err != nil {
		return missing(err.Error(), n.want)
	}
	turn = math.Remainder(a.Value-b.Value-axis, 2*math.Pi)
	give := ""
	if half := (a.High - a.Low + b.High - b.Low) / 2; half > 0 {
		give = fmt.Sprintf(", give or take %.1f for the years since it was printed", half*180/math.Pi)
	}
	c.note(geodata.Pos{File: tiesFile}, "bearings-turned", fmt.Sprintf("bearings were read from %s north: %+.2f degrees were added to count them from the +y axis%s",
		site.Compass.North, turn*180/math.Pi, give))
	return turn, true
}

// norths knows how the three norths lie to one another: to the one from which
// the declination is given.
type norths struct {
	compass geodata.Compass
	grid    *int
	marks   []levelbook.Mark
	want    string // advice that goes with the last error
}

// angle is the bearing of a north from the reference.
func (n *norths) angle(north string) (geodata.Estimate, error) {
	reference := n.compass.From
	if reference == "" {
		reference = "true"
	}
	switch {
	case north == reference:
		return geodata.Estimate{}, nil
	case north == "magnetic":
		return n.declination()
	}
	v, err := n.convergence()
	if north == "true" {
		v = -v
	}
	return geodata.Estimate{Value: v, Low: v, High: v}, err
}

// declination is the turn of magnetic north in the year of the bearings.
func (n *norths) declination() (geodata.Estimate, error) {
	k := n.compass
	if k.Declination == nil {
		n.want = "write declination_degrees under [compass], east positive, from a recent map or an official calculator"
		return geodata.Estimate{}, fmt.Errorf("the declination is not said")
	}
	printed := mapgrid.PrintedAngle{Angle: *k.Declination * math.Pi / 180}
	if k.Year == nil && k.Yearly == nil && k.Read == nil {
		return printed.In(0)
	}
	if k.Year == nil || k.Yearly == nil || k.Read == nil {
		n.want = "write all of declination_year, declination_minutes_a_year and bearings_year, or none"
		return geodata.Estimate{}, fmt.Errorf("only a part of the change of the declination is said")
	}
	printed.Year, printed.PerYear = float64(*k.Year), *k.Yearly/60*math.Pi/180
	n.want = "look up the declination of the year of the bearings"
	return printed.In(float64(*k.Read))
}

// convergence is the turn of grid north from true north at the marks.
func (n *norths) convergence() (float64, error) {
	n.want = "write grid_epsg under [place] when the coordinates are on a map grid, or give every north alike"
	if n.grid == nil || len(n.marks) == 0 {
		return 0, fmt.Errorf("how grid north lies to true north is not known")
	}
	grid, err := mapgrid.ByCode(*n.grid)
	if err != nil {
		return 0, err
	}
	place, err := grid.Back(n.marks[0].At)
	if err != nil {
		return 0, err
	}
	return grid.Convergence(place)
}
