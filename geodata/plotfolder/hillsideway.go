package plotfolder

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
)

// adviceHillside is what to do when a ground model cannot be brought to a plot.
const adviceHillside = "give the plot in the coordinates of the ground model or in longitude and latitude, or give two or more marks their map_east_m and map_north_m on it"

// way leads from the plot's frame to the coordinates of a ground model.
type way func(orb.Point) (orb.Point, bool)

// bound holds the corners of a bound and the middles of its sides.
func (w way) bound(b orb.Bound) orb.Bound {
	out, first := orb.Bound{}, true
	for _, fx := range []float64{0, 0.5, 1} {
		for _, fy := range []float64{0, 0.5, 1} {
			q, ok := w(orb.Point{b.Min[0] + fx*(b.Max[0]-b.Min[0]), b.Min[1] + fy*(b.Max[1]-b.Min[1])})
			if !ok {
				continue
			}
			if first {
				out, first = q.Bound(), false
			}
			out = out.Extend(q)
		}
	}
	return out
}

// wayTo finds the way from the plot to a ground model, with what must be said of
// it, or says why there is none. Marks that were measured on the model's own
// coordinates go before every reckoning.
func wayTo(p *geodata.Plot, info heightgrid.Info) (to way, how, why string) {
	if from, onMap := mapMarks(p); len(from) > 0 && !info.Geographic {
		return wayByMarks(from, onMap)
	}
	lonLat, off, why := wayToLonLat(p)
	switch {
	case !p.Frame.Geographic && !info.Geographic && (p.Frame.EPSG == 0 || info.EPSG == 0 || p.Frame.EPSG == info.EPSG):
		if !info.Bound.Intersects(p.Boundary.Bound()) {
			return nil, "", "the plot's metres are not those of the ground model: they do not overlap"
		}
		return func(q orb.Point) (orb.Point, bool) { return q, true }, "", ""
	case why != "":
		return nil, "", why
	case info.Geographic:
		return lonLat, mayBeOff(off), ""
	}
	grid, err := mapgrid.ByCode(info.EPSG)
	if err != nil {
		return nil, "", fmt.Sprintf("the plot is in other coordinates and the ground model's grid is not known (%v)", err)
	}
	return func(q orb.Point) (orb.Point, bool) {
		place, ok := lonLat(q)
		if !ok {
			return orb.Point{}, false
		}
		eastNorth, _, err := grid.FromWGS84(place)
		return eastNorth, err == nil
	}, mayBeOff(off + grid.Datum.Error), ""
}

// mayBeOff says how far a join by map grids may be out as a whole, m.
func mayBeOff(off float64) string {
	if off == 0 {
		return ""
	}
	return fmt.Sprintf("; by their map grids alone the two may lie up to %.0f m apart in plan", off)
}

// wayToLonLat leads from a plot whose place on the earth is known to longitude
// and latitude on WGS84; off is by how many metres that may be out.
func wayToLonLat(p *geodata.Plot) (to way, off float64, why string) {
	if p.Frame.Geographic {
		// A plot that was joined to longitude and latitude by marks is turned: its +y
		// axis points NorthTurn clockwise of true north.
		local := geodata.LocalMetres{Origin: p.Frame.Origin}
		sin, cos := math.Sincos(p.Frame.NorthTurn)
		return func(q orb.Point) (orb.Point, bool) {
			return local.Back(orb.Point{q[0]*cos + q[1]*sin, q[1]*cos - q[0]*sin}), true
		}, 0, ""
	}
	grid, err := mapgrid.ByCode(p.Frame.EPSG)
	if err != nil {
		return nil, 0, "the plot is in local metres and the ground model is not"
	}
	return func(q orb.Point) (orb.Point, bool) {
		place, _, err := grid.BackWGS84(q)
		return place, err == nil
	}, grid.Datum.Error, ""
}

// mapMarks are the marks with places both in the plot's frame and on a map.
func mapMarks(p *geodata.Plot) (from, onMap []orb.Point) {
	for _, f := range p.OfKind(geodata.MarkKind) {
		at, isPoint := f.Shape.(orb.Point)
		if isPoint && f.MapEast != 0 && f.MapNorth != 0 {
			from, onMap = append(from, at), append(onMap, orb.Point{f.MapEast, f.MapNorth})
		}
	}
	return from, onMap
}

// wayByMarks turns and shifts the plot on to the map by marks, with the scale
// held at 1.
func wayByMarks(from, onMap []orb.Point) (to way, how, why string) {
	switch {
	case len(from) < leastMarks:
		return nil, "", fmt.Sprintf("only %d mark has a place on the map, and %d are needed", len(from), leastMarks)
	case longest(onMap) < leastBaseline:
		return nil, "", fmt.Sprintf("the marks with a place on the map lie within %.1f m of each other", longest(onMap))
	}
	m := fitMotion(from, onMap)
	worst := 0.0
	for i, q := range from {
		at := m.to(q)
		worst = math.Max(worst, math.Hypot(at[0]-onMap[i][0], at[1]-onMap[i][1]))
	}
	if worst > worstFit {
		return nil, "", fmt.Sprintf("its %d marks on the map do not fit: one is %.2f m off, and %g m are allowed", len(from), worst, worstFit)
	}
	return func(q orb.Point) (orb.Point, bool) { return m.to(q), true },
		fmt.Sprintf("; it was placed by %d marks, the worst %.3f m off", len(from), worst), ""
}
