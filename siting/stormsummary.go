package siting

import (
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
	"crossfall/terrain/stormflow"

	"github.com/paulmach/orb"
)

// holds is the share of cases in which a rank must hold to be claimed: 25 of 27.
const holds = 0.9

// standsAgainst is the least mean depth against a board that counts as standing
// water, m: a default of ours.
const standsAgainst = 0.005

// summarise gathers what the runs have in common. The first is the middle one.
func (s *stormPlay) summarise(out *StormPlayed, runs []stormPair) {
	out.Runs = len(runs)
	out.Boards, out.AtBeds, out.Frames, out.FramesWithout = []StormBoard{}, []StormAtBed{}, []StormFrame{}, []StormFrame{}
	if len(runs) == 0 {
		return
	}
	var with, without []*stormflow.Result
	for _, r := range runs {
		with, without = append(with, r.with), append(without, r.without)
	}
	out.WithBeds, out.Without = s.water(with), s.water(without)
	out.Boards, out.FirstOver = s.boards(with)
	out.AtBeds = s.atBeds(without)
	out.Frames, out.FramesWithout = s.framesOf(runs[0])
	s.rank(out, runs)
}

// banded is a figure over the runs: that of the middle one, and its ends.
func banded(runs []*stormflow.Result, of func(*stormflow.Result) float64) geodata.Estimate {
	e := geodata.Estimate{Low: math.Inf(1), High: math.Inf(-1)}
	for i, r := range runs {
		v := of(r)
		if i == 0 {
			e.Value = v
		}
		e.Low, e.High = math.Min(e.Low, v), math.Max(e.High, v)
	}
	return e
}

func (s *stormPlay) water(runs []*stormflow.Result) StormWater {
	part := func(of func(stormflow.Balance) float64) geodata.Estimate {
		return banded(runs, func(r *stormflow.Result) float64 { return of(r.Balance) })
	}
	w := StormWater{
		Rain:    part(func(b stormflow.Balance) float64 { return b.Rain }),
		RunOn:   part(func(b stormflow.Balance) float64 { return b.RunOn }),
		TakenUp: part(func(b stormflow.Balance) float64 { return b.TakenUp }),
		Stands:  part(func(b stormflow.Balance) float64 { return b.Stands }),
	}
	for i, name := range [4]string{"west", "east", "south", "north"} {
		w.Leaves = append(w.Leaves, StormSide{name, part(func(b stormflow.Balance) float64 { return b.Out[i] })})
	}
	for _, r := range runs {
		if all := r.Balance.Rain + r.Balance.RunOn; all > 0 {
			w.Balance = math.Max(w.Balance, math.Abs(r.Balance.Error)/all)
		}
	}
	w.Quickest = s.most(runs, "m/s", 1, func(b stormflow.Bands) []float64 { return b.Speed })
	w.Deepest = s.most(runs, "mm", 1000, func(b stormflow.Bands) []float64 { return b.Depth })
	return w
}

// most is the square with the greatest value in the middle run, and the band of
// that square over all runs.
func (s *stormPlay) most(runs []*stormflow.Result, unit string, times float64, of func(stormflow.Bands) []float64) *StormPlace {
	best := -1
	values := of(runs[0].Bands)
	for i, v := range values {
		if v > 0 && (best < 0 || v > values[best]) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	return &StormPlace{
		At: s.middle(runs[0].Bands, best), Unit: unit,
		Value: banded(runs, func(r *stormflow.Result) float64 { return of(r.Bands)[best] * times }),
	}
}

// middle is the middle of a square.
func (s *stormPlay) middle(b stormflow.Bands, i int) orb.Point {
	o := s.plot.Boundary.Bound().Min
	return orb.Point{o[0] + (float64(i%b.Cols)+0.5)*b.Width, o[1] + (float64(i/b.Cols)+0.5)*b.Width}
}

// boards are the outer sides of framed beds, the boards of all bays together.
func (s *stormPlay) boards(runs []*stormflow.Result) ([]StormBoard, string) {
	all, first, soonest := []StormBoard{}, "", math.Inf(1)
	seen := map[string]int{}
	for i, side := range s.sides {
		if !side.outer {
			continue
		}
		b := StormBoard{Bed: side.bed, Side: side.side}
		b.Stood = banded(runs, func(r *stormflow.Result) float64 { return r.Boards[i].Stood * 1000 })
		for _, r := range runs {
			if r.Boards[i].First >= 0 {
				b.Overtops++
			}
		}
		if m := runs[0].Boards[i]; m.First >= 0 {
			minutes, mm := m.First/60, m.RainUntil*1000
			b.First, b.RainUntil = &minutes, &mm
			if m.First < soonest {
				soonest = m.First
				first = fmt.Sprintf("the %s board of %s, after %.0f minutes and %.0f mm of rain", side.side, side.bed, minutes, mm)
			}
		}
		b.Seepage = s.seeps(b, side)
		key := side.bed + "\x00" + side.side
		if k, ok := seen[key]; ok {
			all[k] = worse(all[k], b)
			continue
		}
		seen[key] = len(all)
		all = append(all, b)
	}
	return all, first
}

// seeps tells whether the way of seepage under a board is too short for the
// water against it at the unfavourable end (Lane 1935, for heads that last).
func (s *stormPlay) seeps(b StormBoard, side boardSide) bool {
	head := b.Stood.High / 1000
	return head > standsAgainst && frame.CreepDepth(s.brief.Ground.Creep, head, 0.025) > side.sunken
}

// worse joins the same side of two bays.
func worse(a, b StormBoard) StormBoard {
	a.Stood = geodata.Estimate{
		Value: math.Max(a.Stood.Value, b.Stood.Value), Low: math.Max(a.Stood.Low, b.Stood.Low), High: math.Max(a.Stood.High, b.Stood.High),
	}
	a.Overtops = max(a.Overtops, b.Overtops)
	a.Seepage = a.Seepage || b.Seepage
	if a.First == nil || b.First != nil && *b.First < *a.First {
		a.First, a.RainUntil = b.First, b.RainUntil
	}
	return a
}

// atBeds is the sheet that meets each bed: of the runs without beds, whose
// boards would stand in its way.
func (s *stormPlay) atBeds(runs []*stormflow.Result) []StormAtBed {
	all := []StormAtBed{}
	for _, b := range s.assessed.Beds {
		if b.Build == nil {
			continue
		}
		all = append(all, StormAtBed{Bed: b.Name, At: b.Centre, Depth: banded(runs, func(r *stormflow.Result) float64 {
			deepest := 0.0
			for i, d := range r.Bands.Depth {
				if d > deepest && b.meets(s.middle(r.Bands, i), r.Bands.Width/2) {
					deepest = d
				}
			}
			return deepest * 1000
		})})
	}
	return all
}

// meets tells whether a place lies on a bed or so near to it.
func (b Bed) meets(p orb.Point, near float64) bool {
	off := func(i, k int, length float64) float64 { // beyond the middle line, along side i to k
		ux, uy := (b.Corners[k][0]-b.Corners[i][0])/length, (b.Corners[k][1]-b.Corners[i][1])/length
		return math.Abs((p[0]-b.Centre[0])*ux+(p[1]-b.Centre[1])*uy) - length/2
	}
	return off(0, 1, b.Length) <= near && off(0, 3, b.Width) <= near
}

// frameOf is one look at the depths.
func (s *stormPlay) frameOf(f stormflow.Frame, b stormflow.Bands) StormFrame {
	out := StormFrame{
		Minutes: f.Time / 60, Cols: b.Cols, Rows: b.Rows, Square: b.Width, Origin: s.plot.Boundary.Bound().Min,
	}
	for _, d := range f.Depth {
		if math.IsNaN(d) {
			out.Depth = append(out.Depth, nil)
			continue
		}
		mm := math.Round(d*1e4) / 10
		out.Depth = append(out.Depth, &mm)
	}
	return out
}

// framesOf are the depths kept of a run with the beds and of one without.
func (s *stormPlay) framesOf(pair stormPair) (with, without []StormFrame) {
	with, without = []StormFrame{}, []StormFrame{}
	for _, f := range pair.frames {
		with = append(with, s.frameOf(f, pair.with.Bands))
	}
	for _, f := range pair.framesWithout {
		without = append(without, s.frameOf(f, pair.without.Bands))
	}
	return with, without
}

// rank counts the cases in which the pull over its limit is less with the beds.
func (s *stormPlay) rank(out *StormPlayed, runs []stormPair) {
	more := 0
	sum := func(v []float64) (t float64) {
		for _, x := range v {
			if !math.IsNaN(x) {
				t += x
			}
		}
		return t
	}
	for _, r := range runs {
		for k := range stormLimits {
			out.Cases++
			a, b := sum(r.with.Bands.Excess[k]), sum(r.without.Bands.Excess[k])
			switch {
			case a < b:
				out.LessPull++
			case a > b:
				more++
			}
		}
	}
	need := int(math.Ceil(holds * float64(out.Cases)))
	switch {
	case out.Cases < 3*stormRuns:
		out.Rank = fmt.Sprintf("%d of %d cases were played: too few to say whether the beds make water pull more or less on the ground", out.Cases, 3*stormRuns)
	case out.LessPull >= need:
		out.Rank = fmt.Sprintf("water pulls less on the ground with the beds than without, in %d of %d cases", out.LessPull, out.Cases)
	case more >= need:
		out.Rank = fmt.Sprintf("water pulls more on the ground with the beds than without, in %d of %d cases", more, out.Cases)
	default:
		out.Rank = fmt.Sprintf("no clear difference between the ground with the beds and without: less pull in %d of %d cases, more in %d", out.LessPull, out.Cases, more)
	}
}
