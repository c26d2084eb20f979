package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Joining two frames by marks. The limits are defaults of ours: a mark on a
// phone's map is good to some metres, one on a survey to some centimetres, and
// only the latter may carry services into the frame of the heights.
const (
	worstFit      = 0.3 // m; the greatest distance of a mark after the fit
	leastMarks    = 2
	leastBaseline = 2.0 // m; between the two marks furthest apart
)

const adviceMarks = "give two or more marks in longitude and latitude with the names of heights, or draw everything in the frame of the heights"

// named lists the names that stand for one place in each of the two systems:
// marks, and spot heights, which stand in the system of the heights.
func named(spots []geodata.SpotHeight, shapes []drawn, heightsLonLat bool) (shared []string) {
	places := map[bool]map[string]int{false: {}, true: {}} // by whether in degrees: how often
	for _, s := range spots {
		places[heightsLonLat][strings.ToLower(s.Name)]++
	}
	for _, d := range shapes {
		if d.Kind == geodata.MarkKind && d.Name != "" {
			places[d.lonLat][strings.ToLower(d.Name)]++
		}
	}
	for name := range places[true] {
		if places[false][name] > 0 {
			shared = append(shared, name)
		}
	}
	slices.Sort(shared)
	return shared
}

// joinByMarks finds the motion that brings the shapes of the other system into
// the frame of the heights. All places are in metres already.
func joinByMarks(names []string, s *survey, shapes []drawn, c *collector) (motion, bool) {
	var from, to []orb.Point
	for _, name := range names {
		a, okA := placeNamed(name, nil, shapes, !s.lonLat)
		b, okB := placeNamed(name, s.spots, shapes, s.lonLat)
		if okA && okB {
			from, to = append(from, a), append(to, b)
		}
	}
	at := firstMoving(s, shapes)
	if len(from) < leastMarks {
		c.problem(at, "frames-not-joined", "", fmt.Sprintf("these features and the heights in %s are in different coordinates; marks that they share: %d",
			s.file, len(from)), adviceMarks)
		return motion{}, false
	}
	if longest(to) < leastBaseline {
		c.problem(at, "marks-too-near", "", fmt.Sprintf("the marks that join features and heights lie within %.1f m of each other", longest(to)),
			fmt.Sprintf("give marks at least %g m apart; further is better", leastBaseline))
		return motion{}, false
	}
	m := fitMotion(from, to)
	worst := 0.0
	for i := range from {
		p := m.to(from[i])
		worst = max(worst, math.Hypot(p[0]-to[i][0], p[1]-to[i][1]))
	}
	if worst > worstFit {
		c.problem(at, "marks-do-not-fit", "", fmt.Sprintf("the %d shared marks (%s) do not fit: one is %.2f m off", len(from), strings.Join(names, ", "), worst),
			fmt.Sprintf("check the marks; they must fit within %g m", worstFit))
		return motion{}, false
	}
	c.note(at, "frames-joined", fmt.Sprintf("features were joined to the heights by %d marks (%s); the worst is %.3f m off", len(from), strings.Join(names, ", "), worst))
	return m, true
}

// placeNamed is the one place of a name in one system. A name of two places is
// of no use.
func placeNamed(name string, spots []geodata.SpotHeight, shapes []drawn, lonLat bool) (at orb.Point, ok bool) {
	found := 0
	take := func(p orb.Point) {
		if found == 0 || math.Hypot(p[0]-at[0], p[1]-at[1]) > worstFit {
			found++
		}
		at = p
	}
	for _, s := range spots {
		if strings.EqualFold(s.Name, name) {
			take(s.At)
		}
	}
	for _, d := range shapes {
		if d.Kind == geodata.MarkKind && d.lonLat == lonLat && strings.EqualFold(d.Name, name) {
			take(d.parts[0].at)
		}
	}
	return at, found == 1
}

// firstMoving is the place of the first shape in the other system.
func firstMoving(s *survey, shapes []drawn) geodata.Pos {
	for _, d := range shapes {
		if d.lonLat != s.lonLat {
			return d.Source
		}
	}
	return geodata.Pos{File: s.file}
}

// longest is the greatest distance between two of some points.
func longest(points []orb.Point) (most float64) {
	for i, a := range points {
		for _, b := range points[:i] {
			most = max(most, math.Hypot(a[0]-b[0], a[1]-b[1]))
		}
	}
	return most
}
