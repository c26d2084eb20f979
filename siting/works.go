package siting

import (
	"crossfall/siting/bed"
	"crossfall/siting/caution"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// pegInset is how far the end pegs stand in from the corners, m, so that a
// screw does not split the board's end; common practice, no source.
const pegInset = 0.05

// spread are n places from one end of a length to the other, both ends inset;
// measured from the middle.
func spread(length float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = -length/2 + pegInset + float64(i)*(length-2*pegInset)/float64(max(1, n-1))
	}
	return out
}

// between are n places inside each of so many equal bays of a length, evenly;
// measured from the middle.
func between(length float64, bays, n int) []float64 {
	var out []float64
	bay := length / float64(bays)
	for i := range bays {
		for k := 1; k <= n; k++ {
			out = append(out, -length/2+bay*(float64(i)+float64(k)/float64(n+1)))
		}
	}
	return out
}

// pegRows are the lines of pegs along the bed, as distances up the slope from
// its middle: outside the uphill board, then below the downhill board of every
// bay.
func pegRows(b bed.Bed, d frame.Design) []float64 {
	off := d.Boards.Thickness + d.Pegs.Size/2
	rows := []float64{b.Width/2 + d.Pegs.Size/2}
	for k := 1; k < d.Pegs.Rows; k++ {
		rows = append(rows, b.Width/2-float64(k)*b.Width/float64(d.BaysAcross)-off)
	}
	rows[len(rows)-1] = -b.Width/2 - d.Pegs.Size/2
	return rows
}

// boardsAcross are the places along the bed of its cross boards, measured to
// the right of the middle.
func boardsAcross(b bed.Bed, d frame.Design) []float64 {
	var out []float64
	for _, x := range d.Boards.CrossAt {
		out = append(out, x-b.Length/2)
	}
	return out
}

// pegPlaces are the middles of all pegs: rows along the bed from the uphill one
// down, each from the left, then those of the cross boards and of both ends.
// Pegs stand outside the frame, or on the low side of a board inside it.
func pegPlaces(b bed.Bed, g bed.Ground, d frame.Design) []orb.Point {
	if d.Pegs == nil {
		return []orb.Point{}
	}
	out := []orb.Point{}
	for _, up := range pegRows(b, d) {
		for _, right := range spread(b.Length, d.Pegs.PerSide) {
			out = append(out, b.Place(g.Axes, right, up))
		}
	}
	low := -1.0 // which way the low end lies
	if g.LowEndRight {
		low = 1
	}
	half := d.Pegs.Size / 2
	each := d.Pegs.PerCross / max(1, d.BaysAcross)
	for _, x := range boardsAcross(b, d) {
		for _, up := range between(b.Width, d.BaysAcross, each) {
			out = append(out, b.Place(g.Axes, x+low*(d.Boards.Thickness/2+half), up))
		}
	}
	for _, up := range between(b.Width, d.BaysAcross, each) {
		out = append(out, b.Place(g.Axes, low*(b.Length/2+half), up))
	}
	for _, up := range between(b.Width, d.BaysAcross, d.Pegs.PerHighEnd/max(1, d.BaysAcross)) {
		out = append(out, b.Place(g.Axes, -low*(b.Length/2+half), up))
	}
	return out
}

// cuts are the lines along which boards are let into the ground.
func cuts(b bed.Bed, g bed.Ground, d frame.Design) []orb.Geometry {
	if d.Boards == nil || d.Boards.Sunken == 0 {
		return nil
	}
	out := []orb.Geometry{orb.LineString(b.Outline(g.Axes)[0])}
	for k := 1; k < d.BaysAcross; k++ {
		up := b.Width/2 - float64(k)*b.Width/float64(d.BaysAcross)
		out = append(out, orb.LineString{b.Place(g.Axes, -b.Length/2, up), b.Place(g.Axes, b.Length/2, up)})
	}
	for _, x := range boardsAcross(b, d) {
		out = append(out, orb.LineString{b.Place(g.Axes, x, -b.Width/2), b.Place(g.Axes, x, b.Width/2)})
	}
	return out
}

// workOf is what would be built and cut at a bed.
func workOf(d decision) caution.Work {
	return caution.Work{
		Bed: d.bed.Name, Outline: d.bed.Outline(d.ground.Axes),
		Cuts: cuts(d.bed, d.ground, d.chosen), Pegs: d.pegs, Fill: d.fill.Deepest,
	}
}

// wallOf is what the boards of a bed hold back, at the fall decided by.
func wallOf(d decision) caution.Wall {
	c := d.chosen
	w := caution.Wall{
		Bed: d.bed.Name, Outline: d.bed.Outline(d.ground.Axes),
		Rises: []float64{d.retained().Value}, Uphill: d.ground.Axes.Up, SlopeBehind: d.ground.Slope.Value,
	}
	steps, rise, going := c.BaysAcross, c.RiseAcross, d.bed.Width/float64(max(1, c.BaysAcross))
	if c.BaysAlong > steps {
		steps, rise, going = c.BaysAlong, c.RiseAlong, d.bed.Length/float64(c.BaysAlong)
	}
	for i := 1; i < steps; i++ {
		w.Rises = append(w.Rises, rise)
		w.Goings = append(w.Goings, going)
	}
	return w
}
