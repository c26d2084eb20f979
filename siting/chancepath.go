package siting

import (
	"context"

	"crossfall/terrain/drainage"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// sameEnd is how far from the end of a drawn path the same water may pass in a
// simulated surface and still have taken that path: half the distance between
// the starts; a default of ours.
const sameEnd = pathsApart / 2 // m

// wayStep is how far apart the points of a way are kept, m: a corner of a bed cut
// off by less is not a bed crossed.
const wayStep = 0.25

// waysOf are the ways that water takes from the starts of the drawn paths: by
// simulated surface and path. Each ends a step outside the boundary.
func waysOf(ctx context.Context, j judge, paths []Path, s *Simulation) ([][][]orb.Point, error) {
	grounds, smoothed, err := surface.SimulateSurfaces(j.fit, j.plot.Boundary.Bound(), 0, s.Surfaces, s.Seed)
	if err != nil {
		return nil, err
	}
	s.Cell, s.Smoothed = grounds[0].Departure.Cell, smoothed*1000
	ways := make([][][]orb.Point, len(grounds))
	err = shareOut(ctx, len(grounds), func(r int) {
		ways[r] = make([][]orb.Point, len(paths))
		for k, p := range paths {
			// The boundary is looked for afterwards: at every step it costs as
			// much as the path.
			way := drainage.Downhill(grounds[r], p.Points[0], drainage.Options{}).Points
			ways[r][k] = inside(thinned(way, wayStep), j.plot.Boundary)
		}
	})
	return ways, err
}

// inside is a way as far as its first step over the boundary.
func inside(way []orb.Point, boundary orb.Polygon) []orb.Point {
	for i, q := range way {
		if !planar.PolygonContains(boundary, q) {
			return way[:i+1]
		}
	}
	return way
}

// pathChances counts what the ways meet.
func (a *Assessment) pathChances(ctx context.Context, decided []decision, ways [][][]orb.Point) error {
	paths, places := a.Water.Paths, placesOf(decided)
	crossed := make([][]bool, len(ways)) // by surface and bed
	same := make([][]bool, len(ways))    // by surface and path
	err := shareOut(ctx, len(ways), func(r int) {
		crossed[r], same[r] = make([]bool, len(places)), make([]bool, len(paths))
		for k, way := range ways[r] {
			end := paths[k].Points[len(paths[k].Points)-1]
			same[r][k] = planar.DistanceFrom(orb.LineString(way), end) <= sameEnd
			reach := orb.LineString(way).Bound()
			for i, place := range places {
				crossed[r][i] = crossed[r][i] || place.bound.Intersects(reach) && place.meets(way)
			}
		}
	})
	if err != nil {
		return err
	}
	for k := range paths {
		paths[k].Share = shareOf(same, k)
	}
	for i := range a.Beds {
		a.Beds[i].PathChance = shareOf(crossed, i)
	}
	return nil
}

// shareOf is the share of draws in which k is true.
func shareOf(draws [][]bool, k int) *float64 {
	n := 0
	for _, d := range draws {
		if d[k] {
			n++
		}
	}
	share := float64(n) / float64(len(draws))
	return &share
}

// place is a bed's footprint, for asking many points whether they lie in it.
type place struct {
	outline orb.Polygon
	bound   orb.Bound
}

func placeOf(outline orb.Polygon) place { return place{outline, outline.Bound()} }

func placesOf(decided []decision) []place {
	out := make([]place, len(decided))
	for i, d := range decided {
		out[i] = placeOf(d.bed.Footprint())
	}
	return out
}

// holds tells whether a point lies in the place.
func (p place) holds(q orb.Point) bool {
	return p.bound.Contains(q) && planar.PolygonContains(p.outline, q)
}

// meets tells whether a way has a point in the place.
func (p place) meets(way []orb.Point) bool {
	for _, q := range way {
		if p.holds(q) {
			return true
		}
	}
	return false
}

// shareOut does each of n pieces of work on all cores, as inParallel does, until
// the context is cancelled; that is its error.
func shareOut(ctx context.Context, n int, work func(int)) error {
	inParallel(n, func(i int) {
		if ctx.Err() == nil {
			work(i)
		}
	})
	return ctx.Err()
}
