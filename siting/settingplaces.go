package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/setout"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// The names of boards of a stepped bed.

func stepName(i int) string { return fmt.Sprintf("step %d from the left", i+1) }
func stepDown(k int) string { return fmt.Sprintf("step %d down the slope", k+1) }

func lowerBoard(k, of int) string {
	if k == of-1 {
		return "downhill board"
	}
	return "board below " + stepDown(k)
}

func crossName(i int, at float64) string {
	return fmt.Sprintf("cross board %d, %.2f m from the left end", i+1, at)
}

// mostCorners is of how many corners of a boundary each can still be told by
// eye: a default of ours.
const mostCorners = 16

// compassPoints are the eight winds from north, clockwise.
var compassPoints = [8]string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}

// towards is the wind that a direction in the plot's axes points to, by the
// frame's north.
func (j judge) towards(from, to orb.Point) string {
	b := terrain.Bearing(math.Atan2(to[0]-from[0], to[1]-from[1]) + j.plot.Frame.NorthTurn).Normal().Degrees()
	return compassPoints[int(math.Round(b/45))%8]
}

// cornerNames name the corners of a drawn boundary by where they lie from its
// middle, told apart by number where two lie alike; nil where they are too many
// to be told, or none are drawn.
func (j judge) cornerNames() []string {
	ring := j.plot.Boundary[0]
	if !j.plot.BoundaryDrawn || len(ring)-1 > mostCorners {
		return nil
	}
	middle := j.plot.Boundary.Bound().Center()
	var out []string
	times := map[string]int{}
	for _, c := range ring[:len(ring)-1] {
		name := j.towards(middle, c) + " corner"
		if times[name]++; times[name] > 1 {
			name = fmt.Sprintf("%s %d", name, times[name])
		}
		out = append(out, name)
	}
	return out
}

// stays are the places at which a cane can be set and found again: gates,
// corners of sheds, ends of walls and fences and corners of the boundary; where
// none of these are drawn, the outermost places where a height was read.
func (j judge) stays() []setout.Spot {
	var out []setout.Spot
	for _, f := range j.plot.Fixtures {
		out = append(out, j.fixed(f)...)
	}
	for i, name := range j.cornerNames() {
		out = append(out, setout.Spot{Name: name + " of the boundary", Where: "at the " + name + " of the boundary", At: j.plot.Boundary[0][i]})
	}
	if len(out) < 2 && !j.plot.BoundaryDrawn {
		out = append(out, j.outermost()...)
	}
	return out
}

// fixed are the places of one fixture that can be found again.
func (j judge) fixed(f geodata.Fixture) []setout.Spot {
	name := f.Name
	if name == "" {
		name = f.What
	}
	var what string
	switch {
	case f.Kind == geodata.GateKind:
		what = "post"
	case f.Kind != geodata.ObstacleKind || f.What == "hedge":
		return nil
	}
	if name == "" {
		name = string(f.Kind)
	}
	switch s := f.Shape.(type) {
	case orb.Point:
		return []setout.Spot{{Name: name, Where: "at " + name, At: s}}
	case orb.LineString:
		if what == "" {
			what = "end"
		}
		a, b := s[0], s[len(s)-1]
		return []setout.Spot{j.spotOf(name, what, b, a), j.spotOf(name, what, a, b)}
	case orb.Polygon:
		if len(s) == 0 || len(s[0])-1 > mostCorners {
			return nil
		}
		var out []setout.Spot
		middle := s.Bound().Center()
		for _, c := range s[0][:len(s[0])-1] {
			out = append(out, j.spotOf(name, "corner", middle, c))
		}
		return out
	}
	return nil
}

// spotOf is one place of a fixture, named by where it lies from another.
func (j judge) spotOf(name, what string, from, at orb.Point) setout.Spot {
	which := j.towards(from, at) + " " + what
	return setout.Spot{Name: which + " of " + name, Where: "at the " + which + " of " + name, At: at}
}

// outermost are the places of the heights round the edge of the survey.
func (j judge) outermost() []setout.Spot {
	var points []orb.Point
	names := map[orb.Point]string{}
	for _, s := range j.plot.Spots {
		if s.Name != "" {
			points = append(points, s.At)
			names[s.At] = s.Name
		}
	}
	ring := geodata.Hull(points)
	if len(ring) == 0 {
		return nil
	}
	var out []setout.Spot
	for _, p := range ring[:len(ring)-1] {
		out = append(out, setout.Spot{Name: names[p], Where: "where height " + names[p] + " was read, if the place can still be found", At: p})
	}
	return out
}
