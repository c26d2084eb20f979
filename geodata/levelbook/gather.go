package levelbook

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// levels are the booked lines of an adjusted run.
func (a *adjustment) levels() []Level {
	out := make([]Level, len(a.list))
	for i, s := range a.list {
		out[i] = Level{
			Station: a.book.Rows[s.row].Station, Setup: s.setup, Collimation: a.raw[i] + s.value, Rise: s.rise,
			Raw: a.raw[i], Correction: a.corr[i], Level: a.raw[i] + a.corr[i], Sigma: math.Sqrt(a.variance[i]),
			Inverted: s.value < 0, Known: a.known[i], At: a.book.pos(s.row, Figure{}),
		}
	}
	return out
}

// gather puts the levels of a run among those of the stations, takes the mean
// of repeated readings and lists the repeats. The sights that closed the run
// on what was known are no repeats.
func (w *work) gather(a adjustment, levels []Level, nodes, asides []node) []Repeat {
	closing := make([]bool, len(levels))
	for _, n := range nodes {
		closing[n.i] = true
	}
	if len(nodes) == 0 {
		closing[asides[0].i] = true
	}
	if a.onItself() {
		closing[len(levels)-1] = true
	}
	var repeats []Repeat
	for i, l := range levels {
		key := w.keys[a.list[i].row]
		at, found := w.index[key]
		switch {
		case !found:
			w.index[key] = len(w.out.Stations)
			w.out.Stations = append(w.out.Stations, a.station(i, l))
		case w.out.Stations[at].Given && w.out.Stations[at].Readings == 0:
			w.out.Stations[at].Readings, w.out.Stations[at].Inverted = 1, l.Inverted
			if !closing[i] {
				repeats = append(repeats, w.repeat(a, i, l, &w.out.Stations[at]))
			}
		case !closing[i]:
			repeats = append(repeats, w.repeat(a, i, l, &w.out.Stations[at]))
		}
	}
	return repeats
}

// station is a station's level by its first reading.
func (a *adjustment) station(i int, l Level) StationLevel {
	return StationLevel{
		Station: l.Station, Level: l.Level, Sigma: math.Hypot(l.Sigma, a.opt.GroundSigma), Readings: 1,
		Inverted: l.Inverted, Failed: a.failed[i], Note: a.book.Rows[a.list[i].row].Note, At: l.At, drift: l.Sigma,
	}
}

// repeat compares a reading with the station's level. Unless that was given the
// station takes the mean; its standard deviation is the smaller one, but half
// of the difference at least.
func (w *work) repeat(a adjustment, i int, l Level, st *StationLevel) Repeat {
	// The set-ups since the run began: no fewer than lie between the readings.
	setups := float64(a.list[i].setup)
	r := Repeat{
		Station: l.Station, Before: st.Level, Now: l.Level, Difference: l.Level - st.Level,
		Allowance: a.opt.Allowance * math.Sqrt(setups), At: l.At,
	}
	r.OK = math.Abs(r.Difference) <= r.Allowance+exact
	if !r.OK {
		w.faults.Add(geodata.Fault{
			Code: "station-read-twice", Severity: geodata.Warning, Pos: l.At, Read: l.Station,
			Message: fmt.Sprintf("%s was read before: this reading gives %.3f m, %+.0f mm from %.3f m", l.Station, l.Level, 1000*r.Difference, st.Level),
			Want:    "check that both readings were on the same spot, and give different spots different names",
		})
	}
	if st.Given {
		return r
	}
	n := float64(st.Readings)
	st.Level = (n*st.Level + l.Level) / (n + 1)
	st.Readings++
	st.drift = math.Max(math.Min(st.drift, l.Sigma), math.Abs(r.Difference)/2)
	st.Sigma = math.Hypot(st.drift, a.opt.GroundSigma)
	return r
}
