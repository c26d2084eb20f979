package export

import (
	"cmp"
	"io"
	"math"
	"slices"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
)

// Layers of the plan, in the order in which they are listed.
const (
	boundaryLayer  = "BOUNDARY"
	contourLayer   = "CONTOURS"
	heightLayer    = "SPOT-HEIGHTS"
	hollowLayer    = "HOLLOWS"
	obstacleLayer  = "OBSTACLES"
	treeLayer      = "TREES"
	rootLayer      = "TREE-ROOTS"
	serviceLayer   = "SERVICES"
	clearanceLayer = "SERVICE-CLEARANCE"
	wayLayer       = "PATHS-AND-GATES"
	breakLayer     = "BREAK-LINES"
	noGoLayer      = "NO-GO"
	markLayer      = "MARKS"
	otherLayer     = "OTHER"
	bedLayer       = "BEDS"
	refusedLayer   = "BEDS-NOT-TO-BE-BUILT"
	cornerLayer    = "BED-CORNERS"
	pegLayer       = "PEGS"
	carryLayer     = "WAYS-FOR-COMPOST"
	toComeLayer    = "GROUND-FOR-WHAT-IS-TO-COME"
	runoffLayer    = "RUNOFF-PATHS"
	turnedLayer    = "RUNOFF-PATHS-WITH-BEDS"
	drainLayer     = "DRAINS"
	noteLayer      = "NOTES"
)

// planLayers are the layers with colours of the standard palette: 1 red, 5 blue,
// 7 black or white, 8 grey.
func planLayers() []dxfLayer {
	return []dxfLayer{
		{boundaryLayer, 7, false}, {contourLayer, 8, false}, {heightLayer, 8, false}, {hollowLayer, 5, true},
		{obstacleLayer, 7, false}, {treeLayer, 7, false}, {rootLayer, 8, true}, {serviceLayer, 1, true},
		{clearanceLayer, 1, false}, {wayLayer, 8, false}, {breakLayer, 8, true}, {noGoLayer, 1, false},
		{markLayer, 7, false}, {otherLayer, 8, false}, {bedLayer, 7, false}, {refusedLayer, 1, true},
		{cornerLayer, 7, false}, {pegLayer, 7, false}, {carryLayer, 8, true}, {toComeLayer, 8, true}, {runoffLayer, 5, true}, {turnedLayer, 5, true},
		{drainLayer, 5, false}, {noteLayer, 7, false},
	}
}

// DXF draws the plan as an ASCII DXF of Release 12, in metres on the ground, so
// that distances measured in it are those to be taped with the tape held level.
// Lines lie at height 0, contours at their own; points (corners of beds, pegs,
// heights read) have the height of the ground where it is known, else 0.
func DXF(w io.Writer, a *siting.Assessment) error {
	d := &dxfDrawing{layers: planLayers()}
	d.line(boundaryLayer, a.Frame.Boundary, 0, true)
	d.ground(a.Ground)
	for _, f := range a.Features {
		d.feature(f)
	}
	d.toCome(a.ToCome)
	d.runoff(a.Water)
	for _, b := range a.Beds {
		d.bed(b)
	}
	for _, t := range []string{dxfUnits, "+y bears " + fixed(a.Frame.AxisBearing, 1) + " degrees from " + a.Frame.North, a.Name} {
		d.text(noteLayer, orb.Point{d.box.Min[0], d.box.Min[1] - 3*letterHeight}, letterHeight, 0, t)
	}
	return d.write(w, dxfUnits)
}

// ground draws contours with their heights, hollows and the heights read.
func (d *dxfDrawing) ground(g siting.Ground) {
	for _, c := range g.Contours {
		d.line(contourLayer, c.Points, c.Level, c.Closed)
		if n := len(c.Points); n > 1 {
			i := (n - 1) / 2
			from, to := upright(c.Points[i], c.Points[i+1])
			d.text(contourLayer, from, letterHeight, along(from, to), contourSaid(c.Level, g.ContourUnits))
		}
	}
	for _, h := range g.Hollows {
		d.line(hollowLayer, h.Outline, 0, true)
		d.text(hollowLayer, h.At, letterHeight, 0, "hollow "+fixed(h.Depth, 0)+" mm deep")
	}
	for _, h := range g.Heights {
		d.point(heightLayer, h.At, h.Height)
		d.text(heightLayer, beside(h.At), letterHeight, 0, h.Name+" "+fixed(h.Height, 3))
	}
}

// contourSaid is the height of a contour: of one that is round in feet in feet, else
// in metres as everything else in the drawing.
func contourSaid(level float64, units geodata.Units) string {
	if units == geodata.FeetAndInch {
		return units.Height(level)
	}
	return fixed(level, 2)
}

// feature draws what was drawn, and what is to be kept free around it.
func (d *dxfDrawing) feature(f siting.Feature) {
	layer := layerOfKind(geodata.Kind(f.Kind))
	name := f.Name
	switch {
	case len(f.Points) == 0:
		return
	case len(f.Points) == 1:
		d.point(layer, f.Points[0], math.NaN())
	default:
		d.line(layer, f.Points, 0, f.Area)
	}
	if f.Kind == string(geodata.ServiceKind) {
		name += " (" + f.Carries + ")"
		for _, ring := range plan.Clearance(f) {
			d.line(clearanceLayer, ring, 0, true)
		}
	}
	if f.RadiusM > 0 && len(f.Points) == 1 {
		d.circle(rootLayer, f.Points[0], f.RadiusM)
	}
	d.text(layer, beside(f.Points[0]), letterHeight, 0, name)
}

// layerOfKind is the layer on which a kind of feature is drawn.
func layerOfKind(k geodata.Kind) string {
	switch k {
	case geodata.ObstacleKind:
		return obstacleLayer
	case geodata.TreeKind:
		return treeLayer
	case geodata.ServiceKind:
		return serviceLayer
	case geodata.PathKind, geodata.GateKind, geodata.HeapKind:
		return wayLayer
	case geodata.BreakLineKind:
		return breakLayer
	case geodata.NoGoKind:
		return noGoLayer
	case geodata.MarkKind:
		return markLayer
	}
	return otherLayer
}

// toCome draws round the ground on which tall things that are still to come would
// hardly take sun from any bed, and names them in each part of it.
func (d *dxfDrawing) toCome(things []siting.ToCome) {
	for _, t := range things {
		for _, polygon := range evenOdd(t.Rings) {
			for _, ring := range polygon {
				d.line(toComeLayer, ring, 0, true)
			}
			at := slices.MinFunc(polygon[0], southWest)
			d.text(toComeLayer, orb.Point{at[0] + letterHeight/2, at[1] + letterHeight/2}, letterHeight, 0, t.What+" may come here")
		}
	}
}

// southWest orders places from the south, of equal ones from the west.
func southWest(a, b orb.Point) int {
	return cmp.Or(cmp.Compare(a[1], b[1]), cmp.Compare(a[0], b[0]))
}

// runoff draws ways of water and what leads it away.
func (d *dxfDrawing) runoff(w siting.Water) {
	for _, p := range w.Paths {
		d.line(runoffLayer, p.Points, 0, false)
	}
	for _, p := range w.PathsWithBeds {
		d.line(turnedLayer, p.Points, 0, false)
	}
	for _, x := range w.Drains {
		if len(x.Points) == 0 {
			continue
		}
		if len(x.Points) == 1 {
			d.point(drainLayer, x.Points[0], math.NaN())
		}
		d.line(drainLayer, x.Points, 0, false)
		d.text(drainLayer, beside(x.Points[0]), letterHeight, 0, x.Kind)
	}
}

// bed draws a bed with its name and size along the long side, its corners on the
// ground, and its pegs.
func (d *dxfDrawing) bed(b siting.Bed) {
	layer, said := bedLayer, ""
	if b.Build == nil {
		layer, said = refusedLayer, ": do not build here"
	}
	outline := corners(b)
	d.line(layer, outline, 0, true)
	// The name stands on the long side that is the lower one for the reader; corners
	// run clockwise, so that the bed is on its left.
	from, to := upright(outline[3], outline[2])
	if from == outline[2] {
		from, to = outline[1], outline[0]
	}
	turn := along(from, to)
	sin, cos := math.Sincos(turn * math.Pi / 180)
	inset := orb.Point{from[0] + letterHeight*(cos-sin), from[1] + letterHeight*(sin+cos)}
	d.text(layer, inset, letterHeight, turn, b.Name+said+", "+fixed(b.Length, 2)+" x "+fixed(b.Width, 2)+" m")
	if b.Build == nil {
		return
	}
	if b.Access != nil {
		d.line(carryLayer, inPlan(b.Access.Route), 0, false)
	}
	for _, q := range b.Corners {
		d.point(cornerLayer, orb.Point{q[0], q[1]}, q[2])
	}
	if b.Pegs == nil {
		return
	}
	for _, p := range b.Pegs.Positions {
		d.point(pegLayer, p, math.NaN())
	}
}

// upright puts the ends of a line in the order in which text along it is not upside
// down.
func upright(a, b orb.Point) (from, to orb.Point) {
	if b[0] < a[0] || b[0] == a[0] && b[1] < a[1] {
		return b, a
	}
	return a, b
}

// along is the direction from one place to another, degrees counterclockwise from
// +x.
func along(a, b orb.Point) float64 {
	return math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi
}
