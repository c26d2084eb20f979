package siting

import (
	"crossfall/geodata"
	"crossfall/terrain/sun"

	"github.com/paulmach/orb"
)

// shade is one drawn thing that takes sun.
type shade struct {
	fixture geodata.Fixture
	line    orb.LineString // nil: a crown about at
	at      orb.Point
}

// Heights are told by eye, to within a tenth; a crown's radius is taken as a
// share of the tree's height, reaching to the ground. Least sun first, then
// middle, then most; defaults of ours.
var (
	heightTimes = [3]float64{1.1, 1, 0.9}
	crownShare  = [3]float64{0.35, 0.25, 0.15}
)

// Shares of the light let through, least, middle and most: common practice, no
// source. Hedges, fences, walls, sheds and evergreen trees let none through.
var (
	bareCrown  = [3]float64{0.5, 0.6, 0.7}
	leafyCrown = [3]float64{0, 0.1, 0.2}
	clearSheet = [3]float64{0.5, 0.65, 0.8} // polytunnel, greenhouse
)

// shading lists the things that take sun, and names them and those left out.
func (l *sunlight) shading(p *geodata.Plot) []shade {
	var out []shade
	for _, f := range p.Fixtures {
		if f.Kind != geodata.ObstacleKind && f.Kind != geodata.TreeKind {
			continue
		}
		name := f.Name
		if name == "" {
			name = f.What
		}
		if name == "" {
			name = string(f.Kind)
		}
		if f.TopHeight <= 0 {
			l.said.LeftOut = append(l.said.LeftOut, name+": no height_m")
			continue
		}
		s := shade{fixture: f}
		switch shape := f.Shape.(type) {
		case orb.LineString:
			s.line = shape
		case orb.Polygon:
			s.line = orb.LineString(shape[0])
		case orb.Point:
			if f.Kind != geodata.TreeKind {
				l.said.LeftOut = append(l.said.LeftOut, name+": drawn as a point, without its length")
				continue
			}
			s.at = shape
		default:
			continue
		}
		l.said.Counted = append(l.said.Counted, name)
		out = append(out, s)
	}
	return out
}

// obstaclesOf are the things at one end of their bands (0 least sun, 1 middle, 2
// most), with trees bare or in leaf.
func obstaclesOf(things []shade, end int, bare bool) []sun.Obstacle {
	var out []sun.Obstacle
	for _, s := range things {
		o := sun.Obstacle{Line: s.line, Centre: s.at, Height: s.fixture.TopHeight * heightTimes[end]}
		o.Radius = crownShare[end] * s.fixture.TopHeight
		switch {
		case s.fixture.What == "polytunnel" || s.fixture.What == "greenhouse":
			o.Passes = clearSheet[end]
		case s.fixture.Kind != geodata.TreeKind || s.fixture.Evergreen:
		case bare:
			o.Passes = bareCrown[end]
		default:
			o.Passes = leafyCrown[end]
		}
		out = append(out, o)
	}
	return out
}
