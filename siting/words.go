package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// cornerShare is the part of a plot's width or depth that counts as its corner.
const cornerShare = 0.15

// sideOf says by which side or corner of the plot a point lies, in the words
// of the frame's north.
func sideOf(p orb.Point, frame geodata.Frame, boundary orb.Polygon) string {
	turned := func(q orb.Point) orb.Point { // to east and true to the frame's north
		sin, cos := math.Sincos(frame.NorthTurn)
		return orb.Point{q[0]*cos + q[1]*sin, q[1]*cos - q[0]*sin}
	}
	var b orb.Bound
	for i, q := range boundary[0] {
		if i == 0 {
			b = turned(q).Bound()
		}
		b = b.Extend(turned(q))
	}
	q := turned(p)
	east, north := (q[0]-b.Min[0])/(b.Max[0]-b.Min[0]), (q[1]-b.Min[1])/(b.Max[1]-b.Min[1])
	ew, toEW := "west", east
	if east > 0.5 {
		ew, toEW = "east", 1-east
	}
	ns, toNS := "south", north
	if north > 0.5 {
		ns, toNS = "north", 1-north
	}
	switch {
	case toEW < cornerShare && toNS < cornerShare:
		return ns + "-" + ew + " corner"
	case toEW < toNS:
		return ew + " side"
	}
	return ns + " side"
}

// placeSaid names a point by its plan position.
func placeSaid(p orb.Point) string {
	return fmt.Sprintf("%.1f m east, %.1f m north", noMinusZero(p[0]), noMinusZero(p[1]))
}

// noMinusZero keeps a figure that rounds to zero at one decimal from printing
// as minus zero.
func noMinusZero(v float64) float64 {
	if math.Abs(v) < 0.05 {
		return 0
	}
	return v
}
