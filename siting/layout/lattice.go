package layout

import (
	"math"
	"slices"

	"crossfall/siting/bed"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// lattice is the places of one direction: u along the rows and v across them.
type lattice struct {
	bearing            terrain.Bearing
	east, north        float64
	lowU, lowV, du, dv float64 // of the first place, and the steps
	rows, cols         int
}

// latticeOf fits a lattice to the boundary. A whole number of its steps makes one
// bed and its path, so that beds pack without waste.
func (s *surveyor) latticeOf(b terrain.Bearing) lattice {
	l := lattice{bearing: b}
	l.east, l.north = b.Unit()
	highU, highV := math.Inf(-1), math.Inf(-1)
	l.lowU, l.lowV = math.Inf(1), math.Inf(1)
	for _, p := range s.plot.Boundary[0] {
		u, v := l.of(p)
		l.lowU, highU = math.Min(l.lowU, u), math.Max(highU, u)
		l.lowV, highV = math.Min(l.lowV, v), math.Max(highV, v)
	}
	l.du = fitted(s.wish.Length+s.wish.Path, s.opt.Step)
	l.dv = s.rowStep()
	hu, hv := s.wish.Length/2+s.opt.Margin, s.wish.Width/2+s.opt.Margin
	l.lowU, l.lowV = l.lowU+hu, l.lowV+hv
	l.cols, l.rows = stepsIn(highU-hu-l.lowU, l.du), stepsIn(highV-hv-l.lowV, l.dv)
	return l
}

// fitted is a step no longer than one wished, of which a whole number makes a
// pitch; a longer one stands.
func fitted(pitch, step float64) float64 {
	if step >= pitch {
		return step
	}
	return pitch / math.Ceil(pitch/step)
}

// rowStep is the step from row to row. With pairs it is one that comes within a
// centimetre of the pitch inside a pair, or as near as four times as many rows can.
func (s *surveyor) rowStep() float64 {
	pitch := s.wish.Width + s.wish.Path
	step := fitted(pitch, s.opt.Step/2)
	if !s.wish.Pairs || step >= pitch {
		return step
	}
	best, least := step, math.Inf(1)
	first := math.Round(pitch / step)
	for n := first; n <= 4*first; n++ {
		d, inner := pitch/n, s.wish.Width+s.wish.PairPath
		if waste := math.Ceil(inner/d-1e-9)*d - inner; waste < least-1e-9 {
			best, least = d, waste
			if waste < 0.01 {
				break
			}
		}
	}
	return best
}

// stepsIn is how many places there are at steps over a length, both ends included.
func stepsIn(length, step float64) int {
	if length < -hair {
		return 0
	}
	return int((length+hair)/step) + 1
}

// of is a point's place along and across the rows, and at its way back.
func (l lattice) of(p orb.Point) (u, v float64) {
	return p[0]*l.east + p[1]*l.north, p[1]*l.east - p[0]*l.north
}

func (l lattice) at(u, v float64) orb.Point {
	return orb.Point{u*l.east - v*l.north, u*l.north + v*l.east}
}

// flushRows is how many rows are added from a side of the boundary inwards, a
// pitch apart; a default of ours.
const flushRows = 4

// acrosses are the rows: those of the lattice, and rows flush with the sides of
// the boundary that lie along them, which it may miss.
func (s *surveyor) acrosses(l lattice) []float64 {
	var out []float64
	for row := range l.rows {
		out = append(out, l.lowV+float64(row)*l.dv)
	}
	high := l.lowV + float64(l.rows-1)*l.dv
	ring := openRing(s.plot.Boundary[0])
	for i, p := range ring {
		a, v := l.of(p)
		b, w := l.of(ring[(i+1)%len(ring)])
		if math.Abs(b-a) < s.wish.Length || math.Abs(w-v) > 0.002*math.Abs(b-a) {
			continue
		}
		for k := range flushRows {
			off := s.opt.Margin + s.wish.Width/2 + float64(k)*(s.wish.Width+s.wish.Path)
			out = append(out, math.Min(v, w)-off, math.Max(v, w)+off)
		}
	}
	slices.Sort(out)
	kept := out[:0]
	for _, v := range out {
		inside := v >= l.lowV-hair && v <= high+l.dv
		if inside && (len(kept) == 0 || v-kept[len(kept)-1] > 1e-6) {
			kept = append(kept, v)
		}
	}
	return kept
}

// endStep is how exactly the end of a free stretch of a row is found, m.
const endStep = 0.01

// alongs are the places of a row where a bed may lie: those of the lattice and,
// packed from both ends of every free stretch, places that it may miss. In
// columns there are those of the lattice alone.
func (s *surveyor) alongs(l lattice, v float64) []float64 {
	free := func(u float64) bool {
		return !s.stopped(bed.New("", l.at(u, v), l.bearing, s.wish.Length, s.wish.Width))
	}
	var out []float64
	add := func(u float64) {
		if free(u) {
			out = append(out, u)
		}
	}
	pitch := s.wish.Length + s.wish.Path
	first := math.NaN() // of the stretch
	for k := 0; k <= l.cols; k++ {
		u := l.lowU + float64(k)*l.du
		now := k < l.cols && free(u)
		if now {
			out = append(out, u)
		}
		if s.wish.Columns || l.du > pitch {
			continue
		}
		switch was := !math.IsNaN(first); {
		case now && !was:
			first = u
			if k > 0 {
				first = lastFree(free, u, u-l.du)
				out = append(out, first)
			}
		case !now && was:
			last := lastFree(free, u-l.du, u)
			out = append(out, last)
			for at := first + pitch; at <= last+hair; at += pitch {
				add(at)
			}
			for at := last - pitch; at >= first-hair; at -= pitch {
				add(at)
			}
			first = math.NaN()
		}
	}
	slices.Sort(out)
	kept := out[:0]
	for _, u := range out {
		if len(kept) == 0 || u-kept[len(kept)-1] > 1e-6 {
			kept = append(kept, u)
		}
	}
	return kept
}

// lastFree is the last free place from a free one towards one that is not.
func lastFree(free func(float64) bool, in, out float64) float64 {
	for math.Abs(out-in) > endStep {
		if middle := (in + out) / 2; free(middle) {
			in = middle
		} else {
			out = middle
		}
	}
	return in
}
