package plotfolder

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// samePlace is the distance within which two readings are of one place, m:
// the staff cannot be put back more exactly. A default of ours.
const samePlace = 0.01

// defaultSigma is the standard deviation of a reading that names none, m: a
// reading of 3 mm on grass that hides the ground. A default of ours.
const defaultSigma = 0.012

// agreeing is how many combined standard errors two readings of one place may
// differ.
const agreeing = 3

// readingSigma is the precision that site.toml gives, else the default.
func readingSigma(site geodata.Site) float64 {
	if site.Ground.Precision != nil {
		return *site.Ground.Precision / 1000
	}
	return defaultSigma
}

// mergeRepeats averages readings of one place that agree and refuses those that
// do not, unless they are tagged as top and toe of a break line. The heights
// come back in order.
func mergeRepeats(spots []geodata.SpotHeight, sigma float64, c *collector) []geodata.SpotHeight {
	sortSpots(spots)
	var out []geodata.SpotHeight
	for _, group := range onePlace(spots) {
		for _, side := range bySide(group) {
			out = append(out, merge(side, sigma, c))
		}
	}
	sortSpots(out)
	return out
}

// onePlace groups heights that lie within a centimetre of each other, in order
// of their first member. The heights are sorted by x.
func onePlace(spots []geodata.SpotHeight) [][]geodata.SpotHeight {
	before := make([]int, len(spots)) // of each height: an earlier one of its group, or itself
	first := func(i int) int {
		for before[i] != i {
			before[i] = before[before[i]]
			i = before[i]
		}
		return i
	}
	for i := range spots {
		before[i] = i
		for j := i - 1; j >= 0 && spots[i].At[0]-spots[j].At[0] <= samePlace; j-- {
			if math.Hypot(spots[i].At[0]-spots[j].At[0], spots[i].At[1]-spots[j].At[1]) <= samePlace {
				a, b := first(i), first(j)
				before[max(a, b)] = min(a, b)
			}
		}
	}
	var out [][]geodata.SpotHeight
	place := map[int]int{}
	for i := range spots {
		g := first(i)
		at, known := place[g]
		if !known {
			at = len(out)
			place[g] = at
			out = append(out, nil)
		}
		out[at] = append(out[at], spots[i])
	}
	return out
}

// bySide parts a group into its top and its toe when it has both. A reading
// with neither tag is put with the top, where it is refused unless it agrees.
func bySide(group []geodata.SpotHeight) [][]geodata.SpotHeight {
	var toe, rest []geodata.SpotHeight
	top := false
	for _, s := range group {
		if s.Side == geodata.Toe {
			toe = append(toe, s)
			continue
		}
		top = top || s.Side == geodata.Top
		rest = append(rest, s)
	}
	if !top || len(toe) == 0 {
		return [][]geodata.SpotHeight{group}
	}
	return [][]geodata.SpotHeight{rest, toe}
}

// merge makes one height of readings of one place, weighted by the inverse of
// their variances. The group is in order of its places, heights and names, so
// that the sums do not depend on the order of the rows.
func merge(group []geodata.SpotHeight, sigma float64, c *collector) geodata.SpotHeight {
	if len(group) == 1 {
		return group[0]
	}
	if disagree(group, sigma, c) {
		return group[0]
	}
	out := group[0]
	var weight, height, x, y float64
	for _, s := range group {
		w := 1 / square(sigmaOf(s, sigma))
		weight += w
		height += w * s.Height
		x += s.At[0] / float64(len(group))
		y += s.At[1] / float64(len(group))
	}
	out.Height, out.Sigma, out.Readings = height/weight, 1/math.Sqrt(weight), len(group)
	out.At[0], out.At[1] = x, y
	out.Name = joined(group, " and ", func(s geodata.SpotHeight) string { return s.Name })
	out.Note = joined(group, "; ", func(s geodata.SpotHeight) string { return s.Note })
	for _, s := range group {
		out.PositionError = math.Max(out.PositionError, s.PositionError) // most of it is common to all
		if s.Side != geodata.NoSide {
			out.Side = s.Side
		}
		if s.Source.Line < out.Source.Line {
			out.Source = s.Source
		}
	}
	c.note(out.Source, "reading-averaged", fmt.Sprintf("%d readings of one place (%s) were averaged: %.3f m, one standard deviation %.0f mm",
		len(group), rows(group), out.Height, out.Sigma*1000))
	return out
}

// disagree tells of every reading that is too far from another of the group.
func disagree(group []geodata.SpotHeight, sigma float64, c *collector) bool {
	found := false
	for i, a := range group {
		for j, b := range group {
			limit := agreeing * math.Hypot(sigmaOf(a, sigma), sigmaOf(b, sigma))
			if i == j || math.Abs(a.Height-b.Height) <= limit {
				continue
			}
			found = true
			c.problem(a.Source, "readings-disagree", fmt.Sprintf("%s: %.3f m", a.Name, a.Height),
				fmt.Sprintf("%s in line %d is at the same place and %.0f mm away in height, over %.0f mm that readings may differ",
					b.Name, b.Source.Line, math.Abs(a.Height-b.Height)*1000, limit*1000),
				"take out the wrong one, or tag one as top and the other as toe of a bank or wall")
			break
		}
	}
	return found
}

func sigmaOf(s geodata.SpotHeight, given float64) float64 {
	if s.Sigma > 0 {
		return s.Sigma
	}
	return given
}

func square(v float64) float64 { return v * v }

// joined joins the different words of a group.
func joined(group []geodata.SpotHeight, with string, word func(geodata.SpotHeight) string) string {
	var all []string
	for _, s := range group {
		if w := word(s); w != "" && !slices.Contains(all, w) {
			all = append(all, w)
		}
	}
	slices.Sort(all)
	return strings.Join(all, with)
}

// rows names the lines that a group came from.
func rows(group []geodata.SpotHeight) string {
	lines := make([]int, len(group))
	for i, s := range group {
		lines[i] = s.Source.Line
	}
	slices.Sort(lines)
	words := make([]string, len(lines))
	for i, l := range lines {
		words[i] = strconv.Itoa(l)
	}
	return "lines " + strings.Join(words, ", ")
}
