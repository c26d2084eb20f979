package bed

import (
	"math"

	"crossfall/terrain"
)

// Top is the shape of the compost's top, and how the bed is stepped.
type Top struct {
	MinDepth float64 // depth at the shallowest point of each bay, m, over 0
	// Across and Along are the slopes left on the top, downhill across and
	// towards the low end along, ratios of 0 or more: 0 is a level top.
	Across, Along float64
	// BaysAcross and BaysAlong split the bed into level steps; 0 means 1.
	BaysAcross, BaysAlong int
}

// Fill is the compost in one bed.
type Fill struct {
	Volume float64 // m3, as laid and settled
	// Deepest is the greatest depth, at the low corner of a bay, m: the height
	// its lowest board retains.
	Deepest float64
}

// cellsPerBay is the number of cells each way over which fill is summed. The
// midpoint rule is exact for a plane whatever the count; 12 keeps the error on
// a bed-sized curve under a thousandth of the volume.
const cellsPerBay = 12

// FillOn sums the wedge of compost between the ground and the top of each bay
// by the midpoint rule. The top of a bay is the lowest plane of the given
// slopes that leaves MinDepth everywhere in it.
func (b Bed) FillOn(h terrain.Heights, g Ground, t Top) Fill {
	nw, nl := max(1, t.BaysAcross), max(1, t.BaysAlong)
	var f Fill
	for i := range nw {
		for j := range nl {
			v, deepest := b.bayFill(h, g, t, i, j, nw, nl)
			f.Volume += v
			f.Deepest = math.Max(f.Deepest, deepest)
		}
	}
	return f
}

// bayFill is the fill of one bay and its greatest depth.
func (b Bed) bayFill(h terrain.Heights, g Ground, t Top, i, j, nw, nl int) (volume, deepest float64) {
	w, l := b.Width/float64(nw), b.Length/float64(nl)
	// above is the ground's height over a plane of the top's slope: the top
	// must stand MinDepth over its greatest value.
	above := func(right, up float64) float64 {
		z, _ := h.HeightAt(b.Place(g.Axes, right, up))
		low := right // distance towards the low end
		if !g.LowEndRight {
			low = -right
		}
		return z - t.Across*up + t.Along*low
	}
	left, bottom := -b.Length/2+float64(j)*l, -b.Width/2+float64(i)*w
	highest, lowest := math.Inf(-1), math.Inf(1)
	for _, c := range [4][2]float64{{0, 0}, {l, 0}, {0, w}, {l, w}} {
		a := above(left+c[0], bottom+c[1])
		highest, lowest = math.Max(highest, a), math.Min(lowest, a)
	}
	sum := 0.0
	for r := range cellsPerBay {
		for c := range cellsPerBay {
			a := above(left+(float64(c)+.5)*l/cellsPerBay, bottom+(float64(r)+.5)*w/cellsPerBay)
			highest, lowest = math.Max(highest, a), math.Min(lowest, a)
			sum += a
		}
	}
	mean := sum / (cellsPerBay * cellsPerBay)
	return w * l * (t.MinDepth + highest - mean), t.MinDepth + highest - lowest
}
