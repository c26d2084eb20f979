package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// pace takes the calibrations of paces: the mean of all rows of one kind.
func (s *solver) pace() {
	s.paces = map[TapeKind]float64{}
	length, paces := map[TapeKind]float64{}, map[TapeKind]float64{}
	for i, r := range s.ties.Rows {
		if r.Method != PaceTie {
			continue
		}
		kind := Paces
		if r.Tape == PacesUphill {
			kind = PacesUphill
		}
		if _, err := Pace(r.A.Value, float64(r.Count)); err != nil {
			s.faults.Add(s.fault(i, geodata.Problem, "pace-impossible", err.Error(), "count the paces over a taped length again"))
			continue
		}
		length[kind] += r.A.Value
		paces[kind] += float64(r.Count)
		s.paces[kind] = length[kind] / paces[kind]
	}
}

// measured is a distance in plan with its standard deviation.
type measured struct{ length, sigma float64 }

// steepTape is the slope beyond which a tape must not be taken for level: 5
// percent (FAO Training Series 16/1, chapter 2).
const steepTape = 0.05

// plan brings the distance of a row to plan. from and to are its ends; a
// Problem is added, and ok false, when it cannot be.
func (s *solver) plan(row int, f Figure, from, to string) (m measured, ok bool) {
	r := s.ties.Rows[row]
	d := f.Value
	switch r.Tape {
	case Paces, PacesUphill:
		pace, known := s.paces[r.Tape]
		if !known {
			s.faults.Add(s.fault(row, geodata.Problem, "pace-not-calibrated", fmt.Sprintf("no row gives the length of %s", r.Tape), "add a row of method pace with a taped length and the count of paces"))
			return measured{}, false
		}
		return measured{d * pace, d * pace * paceSigma}, true
	case TapeSlope:
		return s.slope(row, d, from, to)
	case TapeUnsaid:
		if rise, known := s.rise(from, to); known && math.Abs(rise) > steepTape*d {
			s.faults.Add(s.fault(row, geodata.Warning, "tape-may-lie-on-slope",
				fmt.Sprintf("the ends of this tape differ by %.2f m in height: it was taken as held level", rise), "write level or slope in the column tape"))
		}
	}
	return measured{d, s.opt.tape(d)}, true
}

// rise is the known height of one station above another.
func (s *solver) rise(from, to string) (float64, bool) {
	a, okA := s.level[nameKey(from)]
	b, okB := s.level[nameKey(to)]
	return b.Level - a.Level, okA && okB
}

// slope brings a slope tape to plan by the angle or the rise of the row, else by
// the levels of its ends.
func (s *solver) slope(row int, d float64, from, to string) (measured, bool) {
	r := s.ties.Rows[row]
	if r.Angle.Given {
		return measured{SlopeTapeAngle(d, r.Angle.Value), math.Hypot(s.opt.tape(d), d*math.Sin(r.Angle.Value)*s.opt.AngleSigma)}, true
	}
	rise, known := r.Rise.Value, r.Rise.Given
	if !known {
		rise, known = s.rise(from, to)
	}
	if !known {
		s.faults.Add(s.fault(row, geodata.Problem, "slope-without-rise", "a tape along the slope has neither rise nor angle, and its ends no levels", "write the rise or the angle, or level both ends"))
		return measured{}, false
	}
	plan, err := SlopeTape(d, rise)
	if err != nil {
		s.faults.Add(s.fault(row, geodata.Problem, "slope-too-steep", err.Error(), "check the tape and the heights"))
		return measured{}, false
	}
	return measured{plan, math.Hypot(s.opt.tape(d)*d, rise*s.opt.GroundSigma) / plan}, true
}

// plans gives rises between placed stations the plan distance that goes with them.
func (s *solver) plans() {
	for _, res := range s.out.Results {
		if res.Rise == nil || res.Rise.Plan > 0 || len(s.missingPlaces(res.From[0], res.Station)) > 0 {
			continue
		}
		a, b := s.placed(res.From[0]).Where, s.placed(res.Station).Where
		res.Rise.Plan = math.Hypot(a[0]-b[0], a[1]-b[1])
	}
}
