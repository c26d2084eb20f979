package stormflow

// allOf lets all of what would leave leave the cells of a row.
func (s *state) allOf(r int) {
	for _, n := range s.m.spans[r] {
		for c := n.from; c < n.to; c++ {
			s.share[c] = 1
		}
	}
}

// gather brings in what crosses the four faces of each cell.
func gather(h, west, east, south, north []float64, perDepth float64) {
	n := len(h)
	west, east, south, north = west[:n], east[:n], south[:n], north[:n]
	for i := range h {
		h[i] += (west[i] - east[i] + south[i] - north[i]) * perDepth
	}
}

// gatherLimited is the same where a cell near by holds less than would leave it.
func (s *state) gatherLimited(n span, perDepth float64) {
	st := s.m.stride
	for c := n.from; c < n.to; c++ {
		s.h[c] += (s.limitedX(c) - s.limitedX(c+1) + s.limitedY(c) - s.limitedY(c+st)) * perDepth
	}
}

// limitedX is the discharge of a western face, by the share of the cell that it
// leaves; limitedY of a southern one.
func (s *state) limitedX(c int) float64 {
	q := s.px[c]
	switch {
	case q > 0:
		return q * s.share[c-1]
	case q < 0:
		return q * s.share[c]
	}
	return q
}

func (s *state) limitedY(c int) float64 {
	q := s.py[c]
	switch {
	case q > 0:
		return q * s.share[c-s.m.stride]
	case q < 0:
		return q * s.share[c]
	}
	return q
}

// soak adds the rain of a step, takes up what the ground can, and gives the
// greatest depth.
func (s *state) soak(r int, n span) float64 {
	width := n.to - n.from
	h, w, taken := s.h[n.from:][:width], s.w[n.from:][:width], s.taken[n.from:][:width]
	z, mat := s.m.z[n.from:][:width], s.m.mat[n.from:][:width]
	fall := s.rain * s.dt
	dt, conductivity, pull, rainOn := s.dt, &s.k, &s.s, &s.rainOn
	rain, soaked, deepest, negative := 0.0, 0.0, 0.0, 0
	for i := range h {
		k := mat[i]
		add := fall * rainOn[k]
		rain += add
		d := h[i] + add
		if c := conductivity[k]; c > 0 && d > 0 {
			x := uptake(c*dt, pull[k], taken[i], d)
			d -= x
			taken[i] += x
			soaked += x
		}
		if !(d >= 0) {
			negative++
		}
		h[i], w[i] = d, z[i]+d
		deepest = max(deepest, d)
	}
	s.negative[r] += negative
	s.rainIn[r] += rain
	s.soaked[r] += soaked
	return deepest
}

// depthIn is the sum of the depths of all cells, m, row by row.
func (s *state) depthIn() float64 {
	sum := 0.0
	for _, spans := range s.m.spans {
		row := 0.0
		for _, n := range spans {
			for c := n.from; c < n.to; c++ {
				row += s.h[c]
			}
		}
		sum += row
	}
	return sum
}
