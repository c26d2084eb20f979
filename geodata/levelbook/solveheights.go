package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// heightUnits are the rows that measure height differences.
func (s *solver) heightUnits() []unit {
	s.sights = map[int]Rise{}
	var units []unit
	used := map[int]bool{}
	for i, r := range s.ties.Rows {
		if used[i] {
			continue
		}
		res, ok := s.measuredRise(i, used)
		if !ok {
			continue
		}
		s.assumeLevel(i)
		units = append(units, unit{
			rows: []int{i},
			needs: func() []string {
				if s.hasLevel(r.From) || s.hasLevel(r.Point) {
					return nil
				}
				return []string{"the level of " + r.From}
			},
			solve: func() { s.carry(i, res) },
		})
	}
	return units
}

func (s *solver) hasLevel(name string) bool {
	_, found := s.level[nameKey(name)]
	return found
}

// assumeLevel gives AssumedLevel to the first station of the first height tie
// when no level is known at all.
func (s *solver) assumeLevel(i int) {
	if len(s.level) > 0 {
		return
	}
	name := s.ties.Rows[i].From
	s.out.Assumed = true
	l := StationLevel{Station: name, Level: AssumedLevel, Sigma: s.opt.GroundSigma, Readings: 1, At: s.pos(i)}
	s.level[nameKey(name)] = l
	s.out.Levels = append(s.out.Levels, l)
	s.faults.Add(s.fault(i, geodata.Note, "level-assumed", fmt.Sprintf("no station has a known level: %s was taken as %.3f m", name, AssumedLevel), ""))
}

// measuredRise works out the height difference of a row; ok is false for rows
// that measure none.
func (s *solver) measuredRise(i int, used map[int]bool) (TieResult, bool) {
	r := s.ties.Rows[i]
	res := TieResult{Station: r.Point, Method: r.Method, From: []string{r.From}, WithinLimit: true, At: s.pos(i)}
	var rise Rise
	steps := max(r.Count, 1)
	instrument := ByWaterTube
	switch r.Method {
	case WaterTubeTie:
		rise, res.Staff = WaterTube(r.A.Value, r.B.Value), []float64{r.A.Value, r.B.Value}
	case LineLevelTie:
		rise, instrument = LineLevel(r.A.Value, r.B.Value), ByLineLevel
	case AFrameTie:
		rise, instrument = AFrame(r.A.Value, r.B.Value, steps), ByAFrame
	case ClinometerTie:
		var ok bool
		if rise, res.Index, ok = s.clinometer(i, used); !ok {
			return res, false
		}
		s.sights[i] = rise
		res.Plan = []float64{rise.Plan}
		res.Allowance = 3 * rise.Sigma
	default:
		return res, false
	}
	if r.Method != ClinometerTie {
		res.Allowance = instrument.Allowance() * math.Sqrt(float64(steps))
	}
	res.Rise = &rise
	return res, true
}

// clinometer works out a sight, together with the sight back when a later row
// has it.
func (s *solver) clinometer(i int, used map[int]bool) (rise Rise, index *float64, ok bool) {
	rise, ok = s.oneSight(i)
	if !ok {
		return rise, nil, false
	}
	r := s.ties.Rows[i]
	for j := i + 1; j < len(s.ties.Rows); j++ {
		b := s.ties.Rows[j]
		if used[j] || b.Method != ClinometerTie || nameKey(b.From) != nameKey(r.Point) || nameKey(b.Point) != nameKey(r.From) {
			continue
		}
		back, okBack := s.oneSight(j)
		if !okBack {
			return rise, nil, true
		}
		used[j] = true
		_, e := BothWays(r.Angle.Value, b.Angle.Value)
		return Rise{(rise.Rise - back.Rise) / 2, math.Hypot(rise.Sigma, back.Sigma) / 2, (rise.Plan + back.Plan) / 2}, &e, true
	}
	return rise, nil, true
}

func (s *solver) oneSight(i int) (Rise, bool) {
	r := s.ties.Rows[i]
	d, sigma := r.A.Value, s.opt.tape(r.A.Value)
	if r.Tape == Paces || r.Tape == PacesUphill {
		m, ok := s.plan(i, r.A, r.From, r.Point)
		if !ok {
			return Rise{}, false
		}
		d, sigma = m.length, m.sigma
	}
	rise, err := Clinometer(d, r.Angle.Value, r.Eye.Value, r.Target.Value, sigma, s.opt.AngleSigma)
	if err != nil {
		s.faults.Add(s.fault(i, geodata.Problem, "sight-out-of-range", err.Error(), "take a flatter sight"))
		return Rise{}, false
	}
	return rise, true
}

// carry takes a height difference from the end whose level is known to the
// other, or checks it when both are.
func (s *solver) carry(i int, res TieResult) {
	r := s.ties.Rows[i]
	from, okFrom := s.level[nameKey(r.From)]
	to, okTo := s.level[nameKey(r.Point)]
	switch {
	case okFrom && okTo:
		m := res.Rise.Rise - (to.Level - from.Level)
		closing := s.close(i, res)
		// Both levels carry errors of their own.
		res.Allowance = math.Max(closing.allowance, 2*math.Hypot(from.drift, to.drift))
		res.Misclosure, res.WithinLimit = &m, math.Abs(m) <= res.Allowance+exact
		res.Spread = res.WithinLimit && closing.loop
		if !res.WithinLimit {
			s.faults.Add(s.fault(i, geodata.Warning, "height-disagrees",
				fmt.Sprintf("%s comes out %+.0f mm from its level by other means, and %.0f mm is allowed", r.Point, 1000*m, 1000*res.Allowance), "measure the loop again: nothing of it is spread, and its levels are not taken"))
			s.failLoop(closing)
			break
		}
		s.rises = append(s.rises, riseOf(r, res, closing))
	case okFrom:
		s.newLevel(i, r.Point, from, res.Rise.Rise, res.Rise.Sigma)
		s.rises = append(s.rises, riseOf(r, res, closing{}))
		s.parent[nameKey(r.Point)] = len(s.rises) - 1
	default:
		s.newLevel(i, r.From, to, -res.Rise.Rise, res.Rise.Sigma)
		s.rises = append(s.rises, riseOf(r, res, closing{}))
		s.parent[nameKey(r.From)] = len(s.rises) - 1
	}
	s.out.Results = append(s.out.Results, res)
}

func (s *solver) newLevel(i int, name string, base StationLevel, rise, sigma float64) {
	l := StationLevel{
		Station: name, Level: base.Level + rise, Readings: 1, Failed: base.Failed,
		Note: s.ties.Rows[i].Note, At: s.pos(i), drift: math.Hypot(base.drift, sigma),
	}
	l.Sigma = math.Hypot(l.drift, s.opt.GroundSigma)
	s.level[nameKey(name)] = l
	s.out.Levels = append(s.out.Levels, l)
}
