package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// continues tells whether a row goes on with the traverse of the row before.
func (s *solver) continues(before, i int) bool {
	a, b := s.ties.Rows[before], s.ties.Rows[i]
	return (a.Method == TraverseTie || a.Method == AngleTie) && (b.Method == TraverseTie || b.Method == AngleTie) && nameKey(a.Point) == nameKey(b.From)
}

func (s *solver) traverseUnit(first int) unit {
	rows := []int{first}
	for i := first + 1; i < len(s.ties.Rows) && s.continues(i-1, i); i++ {
		rows = append(rows, i)
	}
	start := s.ties.Rows[first].From
	return unit{rows, func() []string { return s.missingPlaces(start) }, func() { s.traverse(rows) }}
}

// traverse runs from a known station, and is adjusted when its last leg ends on
// one, by three standard deviations of what its errors give at most.
func (s *solver) traverse(rows []int) {
	var legs []Leg
	var run []float64 // variance of position after each leg
	variance := 0.0
	rows, bearings := s.bearings(rows)
	for k, i := range rows {
		r := s.ties.Rows[i]
		m, ok := s.plan(i, r.B, r.From, r.Point)
		if !ok {
			return
		}
		legs = append(legs, Leg{bearings[k] + s.opt.Turn, m.length})
		variance += m.sigma*m.sigma + m.length*m.length*s.opt.CompassSigma*s.opt.CompassSigma
		run = append(run, variance)
	}
	start := s.placed(s.ties.Rows[rows[0]].From)
	last := rows[len(rows)-1]
	end, closes := s.place[nameKey(s.ties.Rows[last].Point)]
	if !closes {
		s.openTraverse(rows, legs, run, start)
		return
	}
	goal := s.out.Places[end]
	t := Bowditch(legs, start.Where, goal.Where)
	c := Closing{t.Error[0], t.Error[1], t.Linear, t.Perimeter, math.Sqrt(variance), true}
	c.Spread = t.Linear <= 3*math.Hypot(c.Expected, math.Hypot(start.Sigma, goal.Sigma))
	if !c.Spread {
		s.faults.Add(s.fault(last, geodata.Warning, "traverse-misclosure",
			fmt.Sprintf("the traverse misses its end by %.2f m in %.1f m, and %.2f m is to be expected: it was not adjusted", t.Linear, t.Perimeter, c.Expected), "look for a bearing read backwards or a leg left out"))
	}
	for k, i := range rows[:len(rows)-1] {
		at, v := t.Adjusted[k], run[k]*(1-run[k]/variance)
		if !c.Spread {
			at, v = t.Raw[k], run[k]+t.Linear*t.Linear
		}
		s.leg(i, at, math.Hypot(math.Sqrt(v), math.Max(start.Sigma, goal.Sigma)), legs[k].Distance)
	}
	s.out.Results = append(s.out.Results, TieResult{
		Station: goal.Station, Method: TraverseTie, From: []string{s.ties.Rows[last].From}, Where: &t.Raw[len(legs)-1],
		Plan: []float64{legs[len(legs)-1].Distance}, Closing: &c, Apart: &c.Linear, WithinLimit: c.Spread, At: s.pos(last),
	})
}

func (s *solver) openTraverse(rows []int, legs []Leg, run []float64, start Place) {
	s.faults.Add(s.fault(rows[len(rows)-1], geodata.Warning, "traverse-open", "this traverse closes on no known station: it is unchecked", "end it on a mark or on its first station"))
	for k, p := range Bowditch(legs, start.Where, start.Where).Raw {
		s.leg(rows[k], p, math.Hypot(math.Sqrt(run[k]), start.Sigma), legs[k].Distance)
	}
}

func (s *solver) leg(i int, at orb.Point, sigma, plan float64) {
	r := s.ties.Rows[i]
	s.put(i, r.Point, TieResult{Method: TraverseTie, From: []string{r.From}, Plan: []float64{plan}, Where: &at, Sigma: sigma})
}
