package siting

import (
	"crossfall/geodata"
	"crossfall/siting/caution"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// frameOf says what was read and how large it is.
func frameOf(p *geodata.Plot) Frame {
	b := p.Boundary.Bound()
	f := Frame{
		Coordinates: "local metres", North: p.Frame.North,
		AxisBearing: p.Frame.NorthTurn * degrees,
		Width:       b.Max[0] - b.Min[0], Depth: b.Max[1] - b.Min[1],
		Area:          planar.Area(p.Boundary),
		BoundaryDrawn: p.BoundaryDrawn, Boundary: p.Boundary[0],
		MapGrid: p.Frame.EPSG,
	}
	if p.Frame.Geographic {
		origin := p.Frame.Origin
		f.Coordinates, f.Origin = "longitude and latitude", &origin
	}
	return f
}

// drawnFeatures are the fixtures as the plan shows them.
func drawnFeatures(p *geodata.Plot) []Feature {
	out := []Feature{}
	for _, f := range p.Fixtures {
		if f.Kind == geodata.BedKind || f.Kind == geodata.BoundaryKind {
			continue
		}
		d := Feature{
			Kind: string(f.Kind), Name: f.Name, What: f.What, Carries: string(f.Carries),
			Overhead: f.Overhead, HeightM: f.TopHeight,
		}
		d.Points, d.Area = pointsOf(f.Shape)
		switch f.Kind {
		case geodata.ServiceKind:
			d.ClearanceM = caution.Around(f, p.Site.Place.Country).Needed()
		case geodata.TreeKind:
			d.RadiusM, _ = caution.RootRadius(f.StemDiameter)
		}
		out = append(out, d)
	}
	return out
}

// pointsOf are the positions of a shape; area is true when they bound one.
func pointsOf(shape orb.Geometry) (points []orb.Point, area bool) {
	switch s := shape.(type) {
	case orb.Point:
		return []orb.Point{s}, false
	case orb.LineString:
		return s, false
	case orb.Polygon:
		if len(s) > 0 {
			return s[0], true
		}
	}
	return nil, false
}
