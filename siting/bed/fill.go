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
	// Bays are the bays, from the downhill left one to the right and then up.
	Bays []Bay
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
			s := b.survey(h, g, t, i, j, nw, nl)
			f.Volume += s.w * s.l * (t.MinDepth + s.highest - s.mean)
			f.Deepest = math.Max(f.Deepest, t.MinDepth+s.highest-s.lowest)
			f.Bays = append(f.Bays, Bay{
				Left: s.left, Right: s.left + s.l, Bottom: s.bottom, Top: s.bottom + s.w,
				across: t.Across, along: s.along, offset: t.MinDepth + s.highest,
			})
		}
	}
	return f
}

// Bay is one level step of a bed and the plane of its compost's top.
type Bay struct {
	Left, Right, Bottom, Top float64 // its sides, m to the right and uphill of the bed's middle
	across, along, offset    float64
}

// TopAt is the height of the compost's top at a place of the bed.
func (b Bay) TopAt(right, up float64) float64 { return b.offset + b.across*up - b.along*right }

// surveyed is one bay's place and the ground under it, as heights over a plane
// of the top's slope: the top must stand MinDepth over the highest.
type surveyed struct {
	left, bottom, l, w    float64
	along                 float64 // fall of the top to the right
	highest, lowest, mean float64
}

func (b Bed) survey(h terrain.Heights, g Ground, t Top, i, j, nw, nl int) surveyed {
	s := surveyed{w: b.Width / float64(nw), l: b.Length / float64(nl), along: t.Along}
	if !g.LowEndRight {
		s.along = -t.Along
	}
	s.left, s.bottom = -b.Length/2+float64(j)*s.l, -b.Width/2+float64(i)*s.w
	above := func(right, up float64) float64 {
		z, _ := h.HeightAt(b.Place(g.Axes, right, up))
		return z - t.Across*up + s.along*right
	}
	s.highest, s.lowest = math.Inf(-1), math.Inf(1)
	look := func(right, up float64) {
		a := above(s.left+right, s.bottom+up)
		s.highest, s.lowest = math.Max(s.highest, a), math.Min(s.lowest, a)
	}
	for i := range cellsPerBay + 1 { // round the edge, where the extremes of bed-sized ground lie
		part := float64(i) / cellsPerBay
		look(part*s.l, 0)
		look(part*s.l, s.w)
		look(0, part*s.w)
		look(s.l, part*s.w)
	}
	sum := 0.0
	for r := range cellsPerBay {
		for c := range cellsPerBay {
			a := above(s.left+(float64(c)+.5)*s.l/cellsPerBay, s.bottom+(float64(r)+.5)*s.w/cellsPerBay)
			s.highest, s.lowest = math.Max(s.highest, a), math.Min(s.lowest, a)
			sum += a
		}
	}
	s.mean = sum / (cellsPerBay * cellsPerBay)
	return s
}
