package rain

// What the tests check against published figures, though nothing outside the
// package calls it.

func StormOf(intervals []Interval, e EnergyEquation) Storm { return stormOf(intervals, e) }

func ErosiveStorms(record []Interval, e EnergyEquation) []Storm { return erosiveStorms(record, e) }

func (s StormType) Fallen(hour float64) float64 { return s.fallen(hour) }

func (s StormType) Greatest(hours float64) float64 { return s.greatest(hours) }

var Z1 = z1
