package relief

import "math"

// stripe is how many nodes of a row are worked at a time, so that what lies
// between the steps stays in the fastest memory.
const stripe = 1024

// rowSlopes works the slopes of one row at a time.
type rowSlopes struct {
	opt          SlopeRowsOptions
	side, middle float64 // weights of the outer and the middle line of three
	perX, perY   float64 // 1/m; perY under 0 when the rows run southward
	east, north  [stripe]float32
}

func newRowSlopes(x, y float64, opt SlopeRowsOptions) *rowSlopes {
	s := &rowSlopes{opt: opt}
	s.side, s.middle = opt.Method.weights()
	span := 2 * (2*s.side + s.middle)
	s.perX, s.perY = 1/(span*x), 1/(span*y)
	return s
}

// row works one row from the three rows of heights round it; before or after
// is nil at the edge of the grid. fall or facing may be nil.
func (s *rowSlopes) row(before, row, after, fall, facing []float32) {
	for from := 0; from < len(row); from += stripe {
		n := min(stripe, len(row)-from)
		s.gradients(before, row, after, from, n)
		if fall != nil {
			falls(s.east[:n], s.north[:n], fall[from:from+n])
		}
		if facing != nil {
			facings(s.east[:n], s.north[:n], facing[from:from+n])
		}
	}
}

// gradients fills east and north for n nodes of a row.
func (s *rowSlopes) gradients(before, row, after []float32, from, n int) {
	first, last := max(from, 1), min(from+n, len(row)-1)
	if before == nil || after == nil {
		last = first
	}
	if first < last {
		s.inside(before[first-1:last+1], row[first-1:last+1], after[first-1:last+1], first-from)
	}
	for col := from; col < from+n; col++ {
		i := col - from
		if col == first && !s.opt.Edges && first < last {
			col = last - 1 // nothing to mend in between
			continue
		}
		if col < first || col >= last || bad(s.east[i]) || bad(s.north[i]) {
			s.east[i], s.north[i] = s.atEdge(before, row, after, col)
		}
	}
}

// bad reports whether a part of a gradient came of a missing height.
func bad(part float32) bool { return part-part != 0 }

// inside works the nodes that have eight neighbours, all but the first and
// last of the given ones. Heights are subtracted before anything is added up:
// the difference of two near heights is exact in float32. A missing height
// anywhere in the window makes one of the results NaN or infinite.
func (s *rowSlopes) inside(before, row, after []float32, at int) {
	n := len(row) - 2
	after, row, before = after[:n+2], row[:n+2], before[:n+2]
	east, north := s.east[at:][:n], s.north[at:][:n]
	ratio := float32(s.side / s.middle)
	perX, perY := float32(s.middle*s.perX), float32(s.middle*s.perY)
	for i := 0; i < n; i++ {
		rising, falling := after[i+2]-before[i], before[i+2]-after[i] // along the two diagonals
		here := row[i+1]
		unknown := here - here // 0, or NaN: the node itself counts in neither part
		east[i] = (ratio*(rising+falling) + (row[i+2] - row[i]) + unknown) * perX
		north[i] = (ratio*(rising-falling) + (after[i+1] - before[i+1])) * perY
	}
}

// atEdge works a node that lacks neighbours.
func (s *rowSlopes) atEdge(before, row, after []float32, col int) (east, north float32) {
	nan := float32(math.NaN())
	if !s.opt.Edges {
		return nan, nan
	}
	w, ok := windowOfRows(before, row, after, col).Extend()
	if !ok {
		return nan, nan
	}
	g := w.Gradient(s.opt.Method, 1)
	span := 2 * (2*s.side + s.middle)
	return float32(g.East * span * s.perX), float32(g.North * span * s.perY)
}

// windowOfRows is the window of a node with the row after it as the northern
// one, and NaN for what is missing.
func windowOfRows(before, row, after []float32, col int) Window {
	var w Window
	for k, line := range [...][]float32{after, row, before} {
		for i := range 3 {
			w[3*k+i] = math.NaN()
			if c := col + i - 1; c >= 0 && c < len(line) {
				w[3*k+i] = float64(line[c])
			}
		}
	}
	return w
}

func falls(east, north, out []float32) {
	north, out = north[:len(east)], out[:len(east)]
	for i, e := range east {
		n := north[i]
		fall := float32(math.Sqrt(float64(e*e + n*n)))
		if !(fall <= math.MaxFloat32) {
			fall = float32(math.NaN())
		}
		out[i] = fall
	}
}

func facings(east, north, out []float32) {
	north, out = north[:len(east)], out[:len(east)]
	for i, e := range east {
		out[i] = facing(-e, -north[i])
	}
}

// octants gives, by octant, what the angle from the nearest axis has to be
// multiplied by and added to. Bit 0: nearer the x axis; bit 1: y under 0; bit
// 2: x under 0.
var octants = [8]struct{ sign, add float64 }{
	{1, 0}, {-1, math.Pi / 2}, {-1, math.Pi}, {1, math.Pi / 2},
	{-1, 2 * math.Pi}, {1, 3 * math.Pi / 2}, {1, math.Pi}, {-1, 3 * math.Pi / 2},
}

// twoPi is the largest float32 under 2 pi: a bearing must stay below a whole
// turn after rounding.
const twoPi = 6.283185

// facing is the bearing of a direction, 0 or more and under 2 pi, NaN for none
// or an infinite one. The arc tangent is the polynomial 4.4.49 of Abramowitz &
// Stegun 1964 (from memory), good to 2e-8 radian. Bits are compared instead of
// numbers because the ways part at random on real ground, and a processor
// guesses branches wrong at a cost.
func facing(e, n float32) float32 {
	const signBit = 1 << 31
	eBits, nBits := math.Float32bits(e), math.Float32bits(n)
	octant := nBits>>31<<1 | eBits>>31<<2
	small, large := eBits&^signBit, nBits&^signBit
	steep := uint32(0)
	if small > large {
		steep = 1
	}
	small, large = min(small, large), max(small, large)
	if large-1 >= infinite-1 { // 0, infinite or NaN
		return float32(math.NaN())
	}
	x := float64(math.Float32frombits(small)) / float64(math.Float32frombits(large))
	q := x * x
	angle := x * (1 + q*(-.3333314528+q*(.1999355085+q*(-.1420889944+q*(.1065626393+
		q*(-.0752896400+q*(.0429096138+q*(-.0161657367+q*.0028662257))))))))
	o := &octants[octant|steep]
	return min(float32(o.sign*angle+o.add), twoPi)
}

// infinite is the bits of +infinity; those of NaN are larger.
const infinite = 0x7f800000
