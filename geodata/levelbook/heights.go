package levelbook

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"crossfall/geodata"
)

// Heights joins levels and places by the names of their stations into spot
// heights, sorted by x, then y, then height, then name. levels are those of a
// reduced book; the levels that only the ties gave are added. A station that
// has only the one or the other is listed as a Warning. Left out with a Note
// are levels of an inverted staff and fixed marks whose level was given, for
// neither need be the ground.
func Heights(levels []StationLevel, sol Solution) ([]geodata.SpotHeight, geodata.Faults) {
	var faults geodata.Faults
	places := map[string]Place{}
	for _, p := range sol.Places {
		places[nameKey(p.Station)] = p
	}
	all := slices.Concat(levels, sol.Levels)
	var out []geodata.SpotHeight
	levelled := map[string]bool{}
	for _, l := range all {
		key := nameKey(l.Station)
		if levelled[key] || nameless(key) {
			continue
		}
		levelled[key] = true
		p, found := places[key]
		if f, why := unfit(l, p, found); why {
			faults.Add(f)
			continue
		}
		out = append(out, geodata.SpotHeight{
			Name: l.Station, At: p.Where, Height: l.Level, Sigma: l.Sigma, PositionError: p.Sigma / math.Sqrt2, Note: l.Note, Readings: max(l.Readings, 1), Source: l.At,
		})
	}
	for _, p := range sol.Places {
		if !p.Mark && !levelled[nameKey(p.Station)] {
			faults.Add(geodata.Fault{
				Code: "place-without-level", Severity: geodata.Warning, Pos: p.At, Read: p.Station,
				Message: fmt.Sprintf("%s has a place but no level: it gives no height", p.Station), Want: "read the staff there, or check the spelling in both files",
			})
		}
	}
	slices.SortStableFunc(out, func(a, b geodata.SpotHeight) int {
		return cmp.Or(cmp.Compare(a.At[0], b.At[0]), cmp.Compare(a.At[1], b.At[1]), cmp.Compare(a.Height, b.Height), cmp.Compare(a.Name, b.Name))
	})
	faults.Sort()
	return out, faults
}

// unfit tells why a level gives no height of the ground; why is false when it
// does.
func unfit(l StationLevel, p Place, placed bool) (f geodata.Fault, why bool) {
	f = geodata.Fault{Severity: geodata.Note, Pos: l.At, Read: l.Station}
	switch {
	case l.Failed:
		f.Code, f.Severity = "level-not-closed", geodata.Problem
		f.Message, f.Want = fmt.Sprintf("the level of %s comes from readings that do not close", l.Station), "measure that part again; crossfall walk says where to look"
	case l.Inverted:
		f.Code, f.Message = "level-not-ground", fmt.Sprintf("%s was read on an inverted staff: it is no height of the ground", l.Station)
	case !placed && l.Given:
		f.Code, f.Message = "level-without-place", fmt.Sprintf("%s is a known level without a place: it gives no height of the ground", l.Station)
	case !placed:
		f.Code, f.Severity = "level-without-place", geodata.Warning
		f.Message, f.Want = fmt.Sprintf("%s has a level but no place: it gives no height", l.Station), "tie it from two marks, or check the spelling in both files"
	case p.Mark && l.Given:
		f.Code, f.Message = "level-not-ground", fmt.Sprintf("%s is a fixed mark with a known level: it was not taken as ground", l.Station)
		f.Want = "if it is ground, add it to the heights"
	default:
		return f, false
	}
	return f, true
}
