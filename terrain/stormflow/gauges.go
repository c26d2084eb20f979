package stormflow

import "math"

// gauges count what passes boards, lines and the rim, in the order they were
// given: they are read by one worker.
type gauges struct {
	balance Balance
	boards  []BoardResult
	lines   []LineResult
	half    []standing
	fallen  float64 // m of rain so far
}

// standing is how long water stood, by its depth.
type standing struct{ seconds [64]float64 }

// standingStep is the step of the depths that are told apart, m.
const standingStep = 0.005

// runsOver is the discharge of a face from which a board is overtopped, m2/s: a
// tenth of a millimetre over its crest.
const runsOver = 2e-6

func newGauges(s *state) *gauges {
	g := &gauges{half: make([]standing, len(s.m.boards))}
	for _, b := range s.m.boards {
		g.boards = append(g.boards, BoardResult{Name: b.board.Name, First: -1, RainUntil: -1})
	}
	for _, l := range s.m.spec.Lines {
		g.lines = append(g.lines, LineResult{Name: l.Name})
	}
	g.balance.Began = s.depthIn() * s.m.spacing * s.m.spacing
	return g
}

// read counts one step.
func (g *gauges) read(s *state) {
	area := s.m.spacing * s.m.spacing
	for r := range s.rainIn {
		g.balance.Rain += s.rainIn[r] * area
		g.balance.TakenUp += s.soaked[r] * area
	}
	per := s.m.spacing * s.dt
	for _, f := range s.m.rim {
		if q := s.flow(f.face) * f.out * per; f.in {
			g.balance.RunOn -= q
		} else {
			g.balance.Out[f.side] += q
		}
	}
	g.fallen += s.rain * s.dt
	for i, b := range s.m.boards {
		g.readBoard(s, i, b)
	}
	for i, l := range s.m.lines {
		g.readLine(s, &g.lines[i], l)
	}
}

func (s *state) flow(f face) float64 {
	if f.alongY {
		return s.qy[f.at]
	}
	return s.qx[f.at]
}

func (g *gauges) readBoard(s *state, i int, b boardFaces) {
	if len(b.on) == 0 {
		return
	}
	over, most, left, right, head := 0.0, 0.0, 0.0, 0.0, 0.0
	for _, c := range b.on {
		q := math.Abs(s.flow(c.face))
		over += q
		most = math.Max(most, q)
		one, two := c.at-1, c.at
		if c.alongY {
			one = c.at - s.m.stride
		}
		if c.toRight < 0 {
			one, two = two, one
		}
		left += s.h[one]
		right += s.h[two]
		if s.h[one] > dry || s.h[two] > dry {
			head += s.w[one] - s.w[two]
		}
	}
	n := float64(len(b.on))
	r := &g.boards[i]
	r.Over += over * s.m.spacing * s.dt
	r.Peak = math.Max(r.Peak, over*s.m.spacing)
	if r.First < 0 && most > runsOver {
		r.First, r.RainUntil = s.t, g.fallen
	}
	deep := math.Max(left, right) / n
	r.Stood = math.Max(r.Stood, deep)
	r.Head = math.Max(r.Head, math.Abs(head)/n)
	at := min(int(deep/standingStep), len(g.half[i].seconds)-1)
	g.half[i].seconds[at] += s.dt
}

func (g *gauges) readLine(s *state, r *LineResult, l []crossing) {
	net := 0.0
	for _, c := range l {
		net += s.flow(c.face) * c.toRight
	}
	net *= s.m.spacing
	if net > 0 {
		r.ToRight += net * s.dt
	} else {
		r.ToLeft -= net * s.dt
	}
	r.Peak = math.Max(r.Peak, math.Abs(net))
}

// now is the balance as it stands.
func (g *gauges) now(s *state) Balance {
	b := g.balance
	b.Stands = s.depthIn() * s.m.spacing * s.m.spacing
	b.Error = b.Began + b.Rain + b.RunOn - b.TakenUp - b.Stands - b.Left()
	b.Negative = 0
	for _, n := range s.negative {
		b.Negative += n
	}
	return b
}

// finish works what is known only at the end.
func (g *gauges) finish() {
	for i := range g.boards {
		r := &g.boards[i]
		for k, t := range g.half[i].seconds {
			if float64(k)*standingStep >= r.Stood/2 && r.Stood >= standingStep {
				r.StoodFor += t
			}
		}
	}
}
