package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"

	"gonum.org/v1/gonum/mat"
)

// rise is a measured height difference between two stations, by their keys.
type rise struct {
	from, to  string
	value     float64 // of to above from, metres
	variance  float64
	allowance float64 // of it alone, metres
	closing   closing // what it closes; zero for one that gave a new level
}

// closing is what a height difference between two levelled stations closes.
type closing struct {
	loop      bool     // it closes over stations that the ties levelled
	along     []int    // rises of the way round, without itself
	stations  []string // keys of the stations on it that the ties levelled
	allowance float64  // by the root of the sum of the squares of its parts: by the root of the steps
}

func riseOf(r TieRow, res TieResult, c closing) rise {
	sigma := math.Max(res.Rise.Sigma, leastRiseSigma)
	return rise{from: nameKey(r.From), to: nameKey(r.Point), value: res.Rise.Rise, variance: sigma * sigma, allowance: res.Allowance, closing: c}
}

// leastRiseSigma keeps a weight finite, metres.
const leastRiseSigma = 1e-4

// way lists the rises from a station back to one whose level was known, and the
// stations on the way that were not.
func (s *solver) way(key string) (rises []int, stations []string) {
	for {
		k, found := s.parent[key]
		if !found {
			return rises, stations
		}
		rises, stations = append(rises, k), append(stations, key)
		if r := s.rises[k]; r.to == key {
			key = r.from
		} else {
			key = r.to
		}
	}
}

// close finds the loop that a row between two levelled stations closes: the ways
// of both back to what was known, without what they share.
func (s *solver) close(i int, res TieResult) closing {
	r := s.ties.Rows[i]
	a, stationsA := s.way(nameKey(r.From))
	b, stationsB := s.way(nameKey(r.Point))
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, stationsA = a[:len(a)-1], stationsA[:len(stationsA)-1]
		b, stationsB = b[:len(b)-1], stationsB[:len(stationsB)-1]
	}
	c := closing{along: append(a, b...), stations: append(stationsA, stationsB...)}
	c.loop = len(c.stations) > 0
	squares := res.Allowance * res.Allowance
	for _, k := range c.along {
		squares += s.rises[k].allowance * s.rises[k].allowance
	}
	c.allowance = math.Sqrt(squares)
	return c
}

// failLoop marks the levels of a loop that does not close, and those that hang on
// them.
func (s *solver) failLoop(c closing) {
	bad := map[string]bool{}
	for _, key := range c.stations {
		bad[key] = true
	}
	for j := range s.out.Levels { // a station comes after the one it hangs on
		key := nameKey(s.out.Levels[j].Station)
		if k, found := s.parent[key]; found {
			bad[key] = bad[key] || bad[s.rises[k].from] && s.rises[k].to == key || bad[s.rises[k].to] && s.rises[k].from == key
		}
		if bad[key] {
			l := s.level[key]
			l.Failed = true
			s.level[key], s.out.Levels[j] = l, l
		}
	}
}

// mostInLoops is how many stations are adjusted together (default of ours).
const mostInLoops = 1000

// spreadLoops adjusts the levels of all loops that close, by least squares with
// one over the variance of each rise as its weight. For a single loop that is the
// rule of levelling: each step gets the same share. Stations that hang on a loop
// move with it. The standard deviations stay those of the way out, which is on
// the safe side.
func (s *solver) spreadLoops() {
	index, used := map[string]int{}, map[int]bool{}
	for k, r := range s.rises {
		if !r.closing.loop {
			continue
		}
		used[k] = true
		for _, j := range r.closing.along {
			used[j] = true
		}
		for _, key := range r.closing.stations {
			if _, found := index[key]; !found {
				index[key] = len(index)
			}
		}
	}
	if len(index) == 0 {
		return
	}
	if len(index) > mostInLoops {
		s.faults.Add(geodata.Fault{Code: "loops-not-spread", Severity: geodata.Warning, Pos: geodata.Pos{File: s.ties.File},
			Message: fmt.Sprintf("%d stations lie in loops, and at most %d are adjusted: nothing was spread", len(index), mostInLoops)})
		return
	}
	if moved, ok := s.adjustLoops(index, used); ok {
		s.moveLevels(index, moved)
	}
}

// adjustLoops solves the normal equations for the changes of level.
func (s *solver) adjustLoops(index map[string]int, used map[int]bool) ([]float64, bool) {
	n := len(index)
	normal, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for k, r := range s.rises {
		if !used[k] {
			continue
		}
		w := 1 / r.variance
		off := w * (r.value - (s.level[r.to].Level - s.level[r.from].Level))
		i, okFrom := index[r.from]
		j, okTo := index[r.to]
		if okFrom {
			normal.SetSym(i, i, normal.At(i, i)+w)
			right.SetVec(i, right.AtVec(i)-off)
		}
		if okTo {
			normal.SetSym(j, j, normal.At(j, j)+w)
			right.SetVec(j, right.AtVec(j)+off)
		}
		if okFrom && okTo {
			normal.SetSym(i, j, normal.At(i, j)-w)
		}
	}
	var c mat.Cholesky
	var moved mat.VecDense
	if !c.Factorize(normal) || c.SolveVecTo(&moved, right) != nil {
		return nil, false
	}
	return moved.RawVector().Data, true
}

// moveLevels takes the changes over, and along to what hangs on the loops.
func (s *solver) moveLevels(index map[string]int, moved []float64) {
	by := map[string]float64{}
	for j := range s.out.Levels {
		key := nameKey(s.out.Levels[j].Station)
		if at, found := index[key]; found {
			by[key] = moved[at]
		} else if k, found := s.parent[key]; found {
			r := s.rises[k]
			by[key] = by[r.from] + by[r.to] - by[key] // one of them is the station itself, still 0
		}
		l := s.level[key]
		l.Level += by[key]
		s.level[key], s.out.Levels[j] = l, l
	}
}
