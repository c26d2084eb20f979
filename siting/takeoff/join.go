package takeoff

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// leastPart is the shortest part of a joined side, mm: a shorter one splits at its
// screws; a default of ours.
const leastPart = 300.0

// stopsOf are the two ends of a side and where it may be joined between them.
func stopsOf(length float64, pegs []float64) []float64 {
	stops := []float64{0}
	for _, at := range pegs {
		if at >= leastPart && at <= length-leastPart && at > stops[len(stops)-1] {
			stops = append(stops, at)
		}
	}
	return append(stops, length)
}

// joined cuts a side of so many mm into pieces no longer than a board on sale,
// joined where pegs stand behind it (mm from its left end): as few pieces as can
// be, and of those the most alike. Nil where the pegs stand too far apart.
func joined(length, longest float64, pegs []float64) []float64 {
	stops := stopsOf(length, pegs)
	type way struct {
		pieces  int
		longest float64
		from    int
	}
	best := make([]way, len(stops)) // to the i-th stop
	for i := 1; i < len(stops); i++ {
		best[i] = way{pieces: math.MaxInt}
		for k := range i {
			piece := stops[i] - stops[k]
			if piece > longest+1e-6 || best[k].pieces == math.MaxInt {
				continue
			}
			w := way{best[k].pieces + 1, math.Max(best[k].longest, piece), k}
			if w.pieces < best[i].pieces || w.pieces == best[i].pieces && w.longest < best[i].longest {
				best[i] = w
			}
		}
	}
	last := len(stops) - 1
	if best[last].pieces == math.MaxInt {
		return nil
	}
	out := make([]float64, best[last].pieces)
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = stops[last] - stops[best[last].from]
		last = best[last].from
	}
	return out
}

// shortestThatWould is the shortest board that a side could be made of, joined
// over its pegs.
func shortestThatWould(length float64, pegs []float64) float64 {
	stops, widest := stopsOf(length, pegs), 0.0
	for i := 1; i < len(stops); i++ {
		widest = math.Max(widest, stops[i]-stops[i-1])
	}
	return widest
}

// withJoints are the beds with a second peg at each joint of a long side, so that
// either board's end has a peg of its own (common practice, no source).
func withJoints(beds []BedInput, o offer, said *lines) []BedInput {
	out := slices.Clone(beds)
	for i, b := range out {
		parts := joined(1000*b.Length, o.longest(), b.pegsBehind(0))
		if b.BoardDownhill == 0 || len(parts) < 2 || b.Pegs == 0 {
			continue
		}
		sides := 1 + max(1, b.BaysAcross)
		if b.BoardUphill == 0 {
			sides--
		}
		out[i].Pegs += sides * (len(parts) - 1)
		at, places := 0.0, []string{}
		for _, part := range parts[:len(parts)-1] {
			at += part / 1000
			places = append(places, fmt.Sprintf("%.2f m", at))
		}
		said.add("%s: its long sides are joined at the pegs %s from the left end, because no board on sale is as long; set a second peg beside each of those,"+
			" one for either board's end (common practice; counted)", b.Name, strings.Join(places, " and "))
	}
	return out
}
