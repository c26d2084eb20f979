package stormflow

import "math"

// The three parts of a step. Each needs the one before it finished on the rows
// beside, and writes only to its own rows.
const (
	pushPart = iota
	limitPart
	fillPart
)

// part does one part of a step on rows from and up to.
func (s *state) part(p, from, to int) {
	for r := from; r < to; r++ {
		switch p {
		case pushPart:
			s.push(r)
		case limitPart:
			s.limit(r)
		case fillPart:
			s.fill(r)
		}
	}
}

// push works the discharges of a row's western and southern faces.
func (s *state) push(r int) {
	m := s.m
	from, to := r*m.stride, (r+1)*m.stride
	s.fastest[r] = 0
	asleep := s.wet[r] <= dry && s.wet[r-1] <= dry && s.runOn == 0
	if asleep && s.still[r] {
		return
	}
	if s.still[r] = asleep; asleep {
		clear(s.px[from:to])
		clear(s.py[from:to])
		return
	}
	k, w, st := Gravity*s.dt/m.spacing, s.w, m.stride
	for _, n := range m.spans[r] {
		a, b := n.from, n.to
		force, friction, perDepth := s.force[a:b], s.friction[a:b], s.perDepth[a:b]
		pushed(force[1:], friction[1:], perDepth[1:], s.qx[a+1:], w[a:], w[a+1:], m.sillX[a+1:], s.rough[a:], s.rough[a+1:], k, s.dt)
		u := resisted(s.px[a+1:b], s.qx[a+1:], force[1:], friction[1:], perDepth[1:], s.qy[a:], s.qy[a+1:], s.qy[a+st:], s.qy[a+1+st:])
		pushed(force, friction, perDepth, s.qy[a:], w[a-st:], w[a:], m.sillY[a:], s.rough[a-st:], s.rough[a:], k, s.dt)
		v := resisted(s.py[a:b], s.qy[a:], force, friction, perDepth, s.qx[a-st:], s.qx[a-st+1:], s.qx[a:], s.qx[a+1:])
		s.fastest[r] = math.Max(s.fastest[r], math.Max(u, v))
	}
	for i := range m.special[r] {
		s.pushSpecial(&m.special[r][i], k)
	}
}

// pushSpecial works a face that is not open ground.
func (s *state) pushSpecial(f *special, k float64) {
	q0, p, back := s.qx, s.px, 1
	if f.alongY {
		q0, p, back = s.qy, s.py, s.m.stride
	}
	one, two := f.at-back, f.at
	switch f.kind {
	case boardFace:
		p[f.at] = f.scale * overBoard(s.w[one], s.w[two], f.crest, s.weir, s.rough[one], s.rough[two], q0[f.at], k, s.dt)
	case rimIn:
		p[f.at] = -f.out * f.scale * s.runOn
	case rimOut:
		in := two
		if f.out > 0 {
			in = one
		}
		h := s.h[in]
		q := math.Max(0, openFace(math.Max(0, f.out*q0[f.at]), h, f.slope*s.m.spacing, s.rough[in], k, s.dt))
		p[f.at] = f.out * q
		if q > 0 {
			r := f.at / s.m.stride
			s.fastest[r] = math.Max(s.fastest[r], q/h)
		}
	}
}

// almost keeps rounding from taking more from a cell than it holds.
const almost = 1 - 1e-13

// limit finds the cells of a row that hold less than would leave them.
func (s *state) limit(r int) {
	was := s.limited[r]
	s.limited[r] = false
	if s.still[r] && s.still[r+1] {
		if was {
			s.allOf(r)
		}
		return
	}
	st := s.m.stride
	perDepth := s.dt / s.m.spacing
	for _, n := range s.m.spans[r] {
		width := n.to - n.from
		west, east := s.px[n.from:][:width], s.px[n.from+1:][:width]
		south, north := s.py[n.from:][:width], s.py[n.from+st:][:width]
		h, share := s.h[n.from:][:width], s.share[n.from:][:width]
		for i := range width {
			leaves := (max(east[i], 0) - min(west[i], 0) + max(north[i], 0) - min(south[i], 0)) * perDepth
			if leaves > h[i] {
				share[i] = h[i] / leaves * almost
				s.limited[r] = true
			} else if was {
				share[i] = 1
			}
		}
	}
}

// fill brings the water of a row's faces, the rain and the uptake together.
func (s *state) fill(r int) {
	m := s.m
	st, from, to := m.stride, r*m.stride, (r+1)*m.stride
	moved := !s.still[r] || !s.still[r+1]
	s.rainIn[r], s.soaked[r] = 0, 0
	if moved || s.wet[r] > 0 || s.rain > 0 {
		perDepth := s.dt / m.spacing
		deepest := 0.0
		for _, n := range m.spans[r] {
			if moved {
				if s.limited[r-1] || s.limited[r] || s.limited[r+1] {
					s.gatherLimited(n, perDepth)
				} else {
					gather(s.h[n.from:n.to], s.px[n.from:], s.px[n.from+1:], s.py[n.from:], s.py[n.from+st:], perDepth)
				}
			}
			deepest = math.Max(deepest, s.soak(r, n))
		}
		s.wet[r] = deepest
	}
	if s.limited[r-1] || s.limited[r] {
		for c := from; c < to; c++ {
			s.qx[c], s.qy[c] = s.limitedX(c), s.limitedY(c)
		}
		return
	}
	copy(s.qx[from:to], s.px[from:to])
	copy(s.qy[from:to], s.py[from:to])
}
