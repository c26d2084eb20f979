package plotfolder

import (
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/geodata/dxf"
	"crossfall/geodata/gpx"
	"crossfall/geodata/kml"
	"crossfall/geodata/landxml"
	"crossfall/geodata/wkt"

	"github.com/paulmach/orb"
)

// phoneSigma is the standard deviation of a height from a phone's or a
// handheld satellite receiver, m. Horizontal errors of 5 m are usual (4.9 m
// radius, gps.gov, from memory) and vertical ones about twice that: plan on
// 10 m (from memory).
const phoneSigma = 10.0

// phonePosition is the standard deviation of such a place along either axis, m:
// 4.9 m of radius, taken as the root mean square of both (gps.gov, from memory).
const phonePosition = 4.9 / math.Sqrt2

// readHeightsGPX reads heights.gpx. Their precision goes with them, so that no
// fall is told from them that they cannot tell.
func readHeightsGPX(f *file, s settings, c *collector) survey {
	points, faults := gpx.Read(f.data, f.name, gpx.Options{})
	if slices.ContainsFunc(faults, func(f geodata.Fault) bool { return f.Code == "no-points" }) {
		// Without waypoints a walk that was recorded is better than nothing.
		walked, told := gpx.Read(f.data, f.name, gpx.Options{Tracks: true, Routes: true})
		if told.Problems() == 0 {
			points, faults = walked, told
			c.note(geodata.Pos{File: f.name}, "track-taken", "the file has no waypoints: the points of its tracks and routes were taken")
		}
	}
	out := takePoints(f, points, faults, c)
	for i := range out.spots {
		out.spots[i].Sigma, out.spots[i].PositionError = phoneSigma, phonePosition
	}
	return out
}

func readHeightsKML(f *file, _ settings, c *collector) survey {
	points, faults := kml.Read(f.data, f.name, kml.Options{})
	return takePoints(f, points, faults, c)
}

func readHeightsLandXML(f *file, s settings, c *collector) survey {
	points, faults := landxml.Read(f.data, f.name, landxml.Options{Unit: saidUnit(s.site)})
	return takePoints(f, points, faults, c)
}

func readHeightsDXF(f *file, s settings, c *collector) survey {
	points, faults := dxf.Read(f.data, f.name, dxf.Options{Unit: saidUnit(s.site)})
	return takePoints(f, points, faults, c)
}

func readHeightsWKT(f *file, _ settings, c *collector) survey {
	points, faults := wkt.Read(f.data, f.name)
	return takePoints(f, points, faults, c)
}

// saidUnit is the unit that site.toml names; 0 when it names none.
func saidUnit(site geodata.Site) geodata.Unit {
	if site.Units == "" {
		return 0
	}
	return bareUnit(site)
}

// takePoints makes heights of the points of another program's file.
func takePoints(f *file, points geodata.RawPoints, faults geodata.Faults, c *collector) survey {
	out := survey{file: f.name, lonLat: points.Geographic}
	c.addAll(faults)
	if faults.Problems() > 0 {
		return out
	}
	if over, n := overHeight(points.Points); n > geodata.MostHeights {
		tooManyHeights(over.Source, over.Name, n, c)
		return out
	}
	without := 0
	for i, p := range points.Points {
		if !p.HasHeight {
			without++
			continue
		}
		read := fmt.Sprintf("%g", p.Height)
		if !checkHeight(p.Height, p.Source, read, c) {
			continue
		}
		if points.Geographic && !checkLonLat(p.X, p.Y, p.Source, fmt.Sprintf("%g, %g", p.X, p.Y), "write degrees", c) {
			continue
		}
		name := p.Name
		if name == "" {
			name = fmt.Sprintf("point %d", i+1)
		}
		out.spots = append(out.spots, geodata.SpotHeight{
			Name: name, At: orb.Point{p.X, p.Y}, Height: p.Height, Readings: 1, Source: p.Source,
		})
	}
	if without > 0 {
		c.warn(geodata.Pos{File: f.name}, "points-without-height", "", fmt.Sprintf("%d points have no height: they were not taken", without), "")
	}
	checkAllEqual(out, c)
	if !points.Geographic {
		out.epsg = points.EPSG
	}
	return out
}

// overHeight counts the points with a height; over is the first that is one too
// many.
func overHeight(points []geodata.RawPoint) (over geodata.RawPoint, n int) {
	for _, p := range points {
		if !p.HasHeight {
			continue
		}
		if n++; n == geodata.MostHeights+1 {
			over = p
		}
	}
	return over, n
}

// checkAllEqual refuses heights that are all the same.
func checkAllEqual(s survey, c *collector) {
	if len(s.spots) > 2 && allEqual(s.spots) {
		c.problem(geodata.Pos{File: s.file}, "heights-all-equal", fmt.Sprintf("%g m", s.spots[0].Height),
			"all heights are the same: programs that know none write one figure everywhere",
			"are these measured heights? if so give them as heights.csv; if not, measure them")
	}
}
