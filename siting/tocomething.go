package siting

import (
	"strings"

	"crossfall/geodata"
	"crossfall/terrain/sun"

	"github.com/paulmach/orb"
)

func newToCome(t geodata.TallThing) ToCome {
	out := ToCome{What: t.What, Width: toComeWidth, Rings: [][]orb.Point{}}
	if t.Height != nil { // the reader asks for one
		out.Height = *t.Height
	}
	switch {
	case t.Width != nil:
		out.Width = *t.Width
	case isTree(t):
		out.Width = 2 * crownShare[0] * out.Height
	}
	return out
}

func isTree(t geodata.TallThing) bool {
	return strings.Contains(strings.ToLower(t.What), "tree") || t.Evergreen
}

// standing is a thing to come as an obstacle at one end of its bands, bare or in
// leaf.
func standing(t geodata.TallThing, height float64, end int, bare bool) sun.Obstacle {
	f := geodata.Fixture{Kind: geodata.ObstacleKind, What: t.What, TopHeight: height, Evergreen: t.Evergreen}
	if isTree(t) {
		f.Kind = geodata.TreeKind
	}
	o := obstaclesOf([]shade{{fixture: f}}, end, bare)[0]
	switch {
	case t.Width != nil:
		o.Radius = *t.Width / 2
	case !isTree(t):
		o.Radius = toComeWidth / 2
	}
	return o
}
