package levelbook

import (
	"crossfall/geodata"
	"math"
)

// spread shares the misclosure of a section out over its sights and works out
// their variances. base is the variance of the known levels.
func (a *adjustment) spread(s *Section, from, to int, base float64) {
	share := a.shares(s, from, to)
	n, s2 := float64(s.Setups), a.opt.SetupSigma*a.opt.SetupSigma
	start := (a.list[from].place + 1) / 2
	for i := from + 1; i <= to; i++ {
		t := share(i)
		a.corr[i] = -s.Misclosure * t
		k := float64((a.list[i].place+1)/2 - start)
		a.variance[i] = base + s2*spreadVariance(k, n, t, a.list[i].fore)
	}
}

// spreadVariance is the variance, in units of that of one set-up, of a point
// read in the k-th of n set-ups of a section whose misclosure is spread, when
// the point's correction is the share t of it. Each of the errors of the
// set-ups enters with weight 1-t before the point and -t behind it; an
// intersight adds its own reading, which has half the variance of a set-up.
// It follows from the propagation of independent errors.
func spreadVariance(k, n, t float64, fore bool) float64 {
	if fore {
		return k*(1-t)*(1-t) + math.Max(n-k, 0)*t*t
	}
	return math.Max(k-1, 0)*(1-t)*(1-t) + ((1-t)*(1-t)+t*t)/2 + 0.5 + math.Max(n-k, 0)*t*t
}

// shares is the part of the misclosure that falls on a sight: by set-ups, or by
// running distance when it is asked for and known. All sights of one set-up
// have the share of its foresight.
func (a *adjustment) shares(s *Section, from, to int) func(i int) float64 {
	if a.opt.ByDistance {
		if d := a.ends(from, to); d != nil {
			s.Spread = "by distance"
			return func(i int) float64 { return d[a.list[i].setup] }
		}
		a.faults.Add(geodata.Fault{
			Code: "distance-missing", Severity: geodata.Warning, Pos: s.At,
			Message: "running distances do not stand, growing, at every foresight: the misclosure was spread by set-ups", Want: "fill in the column distance",
		})
	}
	s.Spread = "by set-ups"
	start := (a.list[from].place + 1) / 2
	n := float64(max(s.Setups, 1))
	return func(i int) float64 {
		return math.Min(float64(a.list[i].setup-start)/n, 1)
	}
}

// ends gives for each set-up of a section the running distance of its last
// foresight as a part of the whole section; nil when a distance is missing or
// they do not grow.
func (a *adjustment) ends(from, to int) map[int]float64 {
	lo, ok := a.distance(from)
	hi, okTo := a.distance(to)
	if !ok || !okTo || hi <= lo {
		return nil
	}
	out, before := map[int]float64{}, lo
	for i := from + 1; i <= to; i++ {
		if !a.list[i].fore {
			continue
		}
		d, ok := a.distance(i)
		if !ok || d < before || d > hi {
			return nil
		}
		out[a.list[i].setup] = (d - lo) / (hi - lo)
		before = d
	}
	return out
}

// distance is the running distance of a sight; 0 at the first station unless
// the book says otherwise.
func (a *adjustment) distance(i int) (float64, bool) {
	row := a.list[i].row
	if d := a.book.Rows[row].Distance; d.Given {
		return d.Value, true
	}
	if row+1 < len(a.book.Rows) && a.list[i].fore && a.nextBack(row) {
		if d := a.book.Rows[row+1].Distance; d.Given {
			return d.Value, true
		}
	}
	return 0, a.list[i].first
}

// nextBack tells whether the row behind is the backsight of a change point in
// two rows.
func (a *adjustment) nextBack(row int) bool {
	for _, s := range a.run.setups {
		if s.back == row+1 {
			return true
		}
	}
	return false
}

// length is the length levelled between two sights of the line: the running
// distance, else the sum of the lengths of sight; 0 when not known.
func (a *adjustment) length(from, to int) float64 {
	lo, ok := a.distance(from)
	hi, okTo := a.distance(to)
	if ok && okTo && hi > lo {
		return hi - lo
	}
	sum := 0.0
	start, end := (a.list[from].place+1)/2, a.list[to].setup
	for _, s := range a.run.setups {
		if s.number <= start || s.number > end || s.fore < 0 {
			continue
		}
		back, fore := a.book.Rows[s.back].BackSight, a.book.Rows[s.fore].ForeSight
		if !back.Given || !fore.Given {
			return 0
		}
		sum += back.Value + fore.Value
	}
	return sum
}
