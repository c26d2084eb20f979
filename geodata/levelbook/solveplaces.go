package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// placeUnits are the rows that place stations. All tapes to one station are
// solved together, and so are the legs of a traverse.
func (s *solver) placeUnits() []unit {
	var units []unit
	tied := map[string]int{} // station key to its unit
	for i, r := range s.ties.Rows {
		switch r.Method {
		case TapeTie:
			key := nameKey(r.Point)
			at, found := tied[key]
			if !found {
				at, tied[key] = len(units), len(units)
				units = append(units, unit{})
			}
			units[at].rows = append(units[at].rows, i)
		case OffsetTie:
			units = append(units, unit{[]int{i}, func() []string { return s.missingPlaces(r.From, r.To) }, func() { s.offset(i) }})
		case BearingTie:
			units = append(units, unit{[]int{i}, func() []string { return s.missingPlaces(r.From) }, func() { s.bearing(i) }})
		case ClinometerTie:
			if _, sound := s.sights[i]; sound && r.B.Given {
				units = append(units, unit{[]int{i}, func() []string { return s.missingPlaces(r.From) }, func() { s.clinometerPlace(i) }})
			}
		case GridTie:
			units = append(units, unit{[]int{i}, func() []string { return s.missingPlaces(r.From, r.To) }, func() { s.grid(i) }})
		case AngleTie:
			if i == 0 || !s.continues(i-1, i) {
				s.faults.Add(s.fault(i, geodata.Problem, "angle-alone", "this angle goes on from no leg: the row before does not end at "+r.From,
					"begin with a leg of method traverse, and write the legs one after another"))
			}
		case TraverseTie:
			if i == 0 || !s.continues(i-1, i) {
				units = append(units, s.traverseUnit(i))
			}
		}
	}
	for i := range units {
		if units[i].solve == nil {
			units[i] = s.tieUnit(units[i].rows)
		}
	}
	return units
}

func (s *solver) tieUnit(rows []int) unit {
	var marks []string
	for _, i := range rows {
		marks = append(marks, s.ties.Rows[i].From)
	}
	return unit{rows, func() []string { return s.missingPlaces(marks...) }, func() { s.tie(rows) }}
}

// tie places a station by its tapes. The side counts from the first row's mark
// to the second's.
func (s *solver) tie(rows []int) {
	res := TieResult{Method: TapeTie}
	var tapes []Tape
	side, worst := SideUnknown, 0.0
	for _, i := range rows {
		r := s.ties.Rows[i]
		m, ok := s.plan(i, r.A, r.From, r.Point)
		if !ok {
			return
		}
		if r.Side != SideUnknown {
			if side != SideUnknown && side != r.Side {
				s.faults.Add(s.fault(i, geodata.Problem, "sides-differ", "another row puts this station on the other side", "write the side once, looking from the first mark to the second"))
				return
			}
			side = r.Side
		}
		from := s.placed(r.From)
		worst = math.Max(worst, from.Sigma)
		tapes = append(tapes, Tape{from.Where, m.length, m.sigma})
		res.From, res.Plan = append(res.From, from.Station), append(res.Plan, m.length)
	}
	tie, err := Trilaterate(tapes, side)
	if err != nil {
		f := s.fault(rows[0], geodata.Problem, "tie", err.Error(), "")
		if e, ok := err.(*TieError); ok {
			f.Code, f.Message, f.Want = e.Code, e.Message, e.Want
		}
		s.faults.Add(f)
		return
	}
	res.Where, res.Sigma, res.Angle = &tie.At, math.Hypot(tie.Sigma, worst), tie.Angle
	res.OnLine, res.Residuals = tie.OnLine, tie.Residuals
	s.put(rows[0], s.ties.Rows[rows[0]].Point, res)
	s.tellTie(rows, tapes, tie, worst)
}

// tellTie warns of tapes that miss each other or disagree.
func (s *solver) tellTie(rows []int, tapes []Tape, tie Tie, worst float64) {
	if tie.OnLine {
		s.faults.Add(s.fault(rows[0], geodata.Warning, "tie-on-line",
			fmt.Sprintf("the tapes just miss each other: the station was put on the line of the marks, and may lie %.2f m off it", tie.SigmaY), "check it with a third tape"))
	}
	for k, r := range tie.Residuals {
		limit := 3 * math.Hypot(tapes[k].Sigma, worst)
		if math.Abs(r) > limit {
			s.out.Results[len(s.out.Results)-1].WithinLimit = false
			s.faults.Add(s.fault(rows[k], geodata.Warning, "tie-residual",
				fmt.Sprintf("this tape from %s differs by %+.0f mm from the place that all tapes give, and %.0f mm is allowed", s.ties.Rows[rows[k]].From, 1000*r, 1000*limit), "measure the ties of this station again"))
		}
	}
}

func (s *solver) offset(i int) {
	r := s.ties.Rows[i]
	from, to := s.placed(r.From), s.placed(r.To)
	along, ok := s.plan(i, r.A, r.From, r.Point)
	if !ok {
		return
	}
	offset := r.B.Value
	if r.Side == RightSide {
		offset = -offset
	}
	at, ok := Offset(from.Where, to.Where, along.length, offset)
	if !ok {
		s.faults.Add(s.fault(i, geodata.Problem, "base-too-short", "both ends of the base line are one place", "measure along the line between two different marks"))
		return
	}
	if math.Abs(offset) > longestOffset {
		s.faults.Add(s.fault(i, geodata.Warning, "offset-long",
			fmt.Sprintf("an offset of %.1f m is long for a right angle set out by eye", math.Abs(offset)), "keep offsets under 15 m, or tape from two marks"))
	}
	skew := math.Hypot(offset*squareSigma, math.Max(from.Sigma, to.Sigma))
	sigma := math.Hypot(math.Hypot(along.sigma, s.opt.tape(math.Abs(offset))), skew)
	s.put(i, r.Point, TieResult{Method: OffsetTie, From: []string{from.Station, to.Station}, Plan: []float64{along.length, offset}, Where: &at, Sigma: sigma})
}

// ray places a station by a bearing and a plan distance.
func (s *solver) ray(i int, bearing float64, m measured, method Method) {
	r := s.ties.Rows[i]
	from := s.placed(r.From)
	at := BearingDistance(from.Where, bearing+s.opt.Turn, m.length)
	sigma := math.Hypot(math.Hypot(m.sigma, m.length*s.opt.CompassSigma), from.Sigma)
	s.put(i, r.Point, TieResult{Method: method, From: []string{from.Station}, Plan: []float64{m.length}, Where: &at, Sigma: sigma})
}

func (s *solver) bearing(i int) {
	r := s.ties.Rows[i]
	if m, ok := s.plan(i, r.B, r.From, r.Point); ok {
		s.ray(i, r.A.Value, m, BearingTie)
	}
}

// clinometerPlace uses the plan distance of a sight whose bearing was taken.
func (s *solver) clinometerPlace(i int) {
	r, rise := s.ties.Rows[i], s.sights[i]
	sigma := math.Hypot(s.opt.tape(r.A.Value), r.A.Value*math.Sin(r.Angle.Value)*s.opt.AngleSigma)
	if r.Tape == Paces || r.Tape == PacesUphill {
		sigma = math.Hypot(sigma, paceSigma*rise.Plan)
	}
	s.ray(i, r.B.Value, measured{rise.Plan, sigma}, ClinometerTie)
}
