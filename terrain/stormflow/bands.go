package stormflow

import "math"

// BandWidth is the side of the squares over which results are averaged, m. The
// greatest value of a single cell grows as cells shrink, at the corners of
// frames for one, and says nothing.
const BandWidth = 0.5

// maxLimits is the greatest number of limits of shear.
const maxLimits = 4

// watchEvery is how often depth, speed and shear are looked at, s.
const watchEvery = 5.0

// thin is the depth under which no speed is told, m.
const thin = 0.0005

// Bands are the means over squares of BandWidth, or of one cell where that is
// wider, from the grid's south-western corner. Squares without ground are NaN.
type Bands struct {
	Cols, Rows int
	Width      float64
	Depth      []float64 // greatest of the mean depths, m
	Shear      []float64 // greatest of the mean shears, Pa
	Speed      []float64 // greatest of the mean speeds, m/s
	// Excess is the mean over the square of the shear over each limit, summed
	// over time, Pa s: an index by which places and layouts are put in order,
	// not an amount of anything.
	Excess [][]float64
}

// watch gathers bands.
type watch struct {
	Bands
	per                 int // cells along a square
	count               []float64
	depth, shear, speed []float64 // sums of one look
	limits              []float64
	last                float64
}

func newWatch(s *state) *watch {
	m := s.m
	per := max(1, int(math.Round(BandWidth/m.spacing)))
	w := &watch{per: per, limits: s.storm.ShearLimits}
	w.Width = float64(per) * m.spacing
	w.Cols, w.Rows = (m.spec.Cols+per-1)/per, (m.spec.Rows+per-1)/per
	n := w.Cols * w.Rows
	for _, a := range []*[]float64{&w.Depth, &w.Shear, &w.Speed, &w.count, &w.depth, &w.shear, &w.speed} {
		*a = make([]float64, n)
	}
	for range w.limits {
		w.Excess = append(w.Excess, make([]float64, n))
	}
	for row := range m.spec.Rows {
		for col := range m.spec.Cols {
			if m.inside[m.at(col, row)] {
				w.count[row/per*w.Cols+col/per]++
			}
		}
	}
	return w
}

// look adds the state since the last look.
func (w *watch) look(s *state) {
	m, since := s.m, s.t-w.last
	w.last = s.t
	clear(w.depth)
	clear(w.shear)
	clear(w.speed)
	for row := range m.spec.Rows {
		if s.wet[row+1] <= dry {
			continue
		}
		for col := range m.spec.Cols {
			c := m.at(col, row)
			h := s.h[c]
			if h <= dry || !m.inside[c] {
				continue
			}
			b := row/w.per*w.Cols + col/w.per
			w.depth[b] += h
			if h <= thin {
				continue
			}
			q := math.Hypot(s.qx[c]+s.qx[c+1], s.qy[c]+s.qy[c+m.stride]) / 2
			// density times depth times friction slope, n² q² / h^(10/3)
			shear := 1000 * s.rough[c] * q * q / (h * h * math.Cbrt(h))
			w.shear[b] += shear
			w.speed[b] += q / h
			for i, limit := range w.limits {
				if shear > limit {
					w.Excess[i][b] += (shear - limit) * since
				}
			}
		}
	}
	for b, n := range w.count {
		if n > 0 {
			w.Depth[b] = math.Max(w.Depth[b], w.depth[b]/n)
			w.Shear[b] = math.Max(w.Shear[b], w.shear[b]/n)
			w.Speed[b] = math.Max(w.Speed[b], w.speed[b]/n)
		}
	}
}

// depths copies the mean depths of the last look.
func (w *watch) depths() []float64 {
	out := make([]float64, len(w.depth))
	for b, n := range w.count {
		out[b] = w.depth[b] / n // NaN without ground
	}
	return out
}

// finish are the bands as they are given out.
func (w *watch) finish() Bands {
	for b, n := range w.count {
		for _, e := range w.Excess {
			e[b] /= n
		}
		if n == 0 {
			w.Depth[b], w.Shear[b], w.Speed[b] = math.NaN(), math.NaN(), math.NaN()
		}
	}
	return w.Bands
}
