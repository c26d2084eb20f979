package soil

import "math"

// GreenAmpt is how ground takes up rain: a sharp wetting front drawn down by
// suction (Green & Ampt 1911; with ponding Mein & Larson 1973, Water Resources
// Research 9:384-394). What the ground cannot take runs off at once.
type GreenAmpt struct {
	Conductivity float64 // m/s; that of the table, already half of the saturated one
	Suction      float64 // at the wetting front, m of water
	Deficit      float64 // water content that the front fills, 0 to 1
}

// Capacity is the rate, m/s, at which ground that has taken up so much (m) takes
// more: K (1 + suction deficit / taken). Dry ground takes any rate: +Inf.
func (g GreenAmpt) Capacity(taken float64) float64 {
	if taken <= 0 && g.Suction*g.Deficit > 0 {
		return math.Inf(1)
	}
	if taken <= 0 {
		return g.Conductivity
	}
	return g.Conductivity * (1 + g.Suction*g.Deficit/taken)
}

// Ponding is when steady rain of a rate (m/s) on dry ground begins to stand, in
// seconds from its start, and what has been taken up by then, m: K suction deficit
// / (rate - K). ok is false where it never does, at rates up to K.
func (g GreenAmpt) Ponding(rate float64) (seconds, taken float64, ok bool) {
	if !(rate > g.Conductivity) {
		return 0, 0, false
	}
	taken = g.Conductivity * g.Suction * g.Deficit / (rate - g.Conductivity)
	return taken / rate, taken, true
}

// After is what ground that has taken up so much (m) has taken up after further
// seconds of rain of a steady rate (m/s; +Inf: water standing on it). Rain that
// changes is worked step by step, each from the end of the one before; a step in
// which water begins to stand is parted there (Chow, Maidment & Mays 1988,
// Applied Hydrology, figure 5.4.3).
func (g GreenAmpt) After(taken, rate, seconds float64) float64 {
	_, standing, ponds := g.Ponding(rate)
	if !ponds {
		return taken + rate*seconds
	}
	if taken < standing {
		dry := (standing - taken) / rate
		if dry >= seconds {
			return taken + rate*seconds
		}
		taken, seconds = standing, seconds-dry
	}
	return g.ponded(taken, seconds)
}

// ponded is the same while water stands: F - F0 - s ln((s+F)/(s+F0)) = K t with s
// suction times deficit, by halving between K t and a bound found by doubling.
func (g GreenAmpt) ponded(from, seconds float64) float64 {
	s, kt := g.Suction*g.Deficit, g.Conductivity*seconds
	if s <= 0 || kt <= 0 {
		return from + math.Max(0, kt)
	}
	short := func(x float64) bool { return x-s*math.Log1p(x/(s+from)) < kt }
	low, high := kt, 2*kt+s
	for short(high) {
		low, high = high, 2*high
	}
	for range 80 {
		if middle := (low + high) / 2; short(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return from + high
}

// uptakeRow is a row of Rawls, Brakensiek & Miller 1983, Journal of Hydraulic
// Engineering 109:62-70: the means by texture, and the range of the suction
// (which is from memory).
type uptakeRow struct {
	porosity              float64 // effective
	suction, low, high    float64 // cm
	conductivityMMPerHour float64
}

var uptakeRows = map[Texture]uptakeRow{
	Sand:          {.417, 4.95, 0.97, 25.36, 117.8},
	LoamySand:     {.401, 6.13, 1.35, 27.94, 29.9},
	SandyLoam:     {.412, 11.01, 2.67, 45.47, 10.9},
	Loam:          {.434, 8.89, 1.33, 59.38, 3.4},
	SiltLoam:      {.486, 16.68, 2.92, 95.39, 6.5},
	SandyClayLoam: {.330, 21.85, 4.42, 108.0, 1.5},
	ClayLoam:      {.309, 20.88, 4.79, 91.10, 1.0},
	SiltyClayLoam: {.432, 27.30, 5.67, 131.5, 1.0},
	SandyClay:     {.321, 23.90, 4.08, 140.2, 0.6},
	SiltyClay:     {.423, 29.22, 6.13, 139.4, 0.5},
	Clay:          {.385, 31.63, 6.39, 156.5, 0.3},
}

// Uptake is the Green-Ampt figures of a texture whose pores are filled to a
// share of 0 to 1: Rawls, Brakensiek & Miller 1983, means. Silt, which their
// table lacks, counts as silt loam. ok is false for a texture that is not known
// and a share outside 0 to 1.
func Uptake(t Texture, filled float64) (g GreenAmpt, ok bool) {
	if t == Silt {
		t = SiltLoam
	}
	row, ok := uptakeRows[t]
	if !ok || !(filled >= 0 && filled <= 1) {
		return GreenAmpt{}, false
	}
	return row.at(row.suction, 1, filled), true
}

func (r uptakeRow) at(suction, times, filled float64) GreenAmpt {
	return GreenAmpt{
		Conductivity: r.conductivityMMPerHour * times / 3.6e6,
		Suction:      suction / 100,
		Deficit:      r.porosity * (1 - filled),
	}
}

// In winter the pores are taken as nine tenths filled, from four fifths to all;
// the conductivity of a texture may be off three times either way. Defaults of
// ours.
const (
	winterFilled, winterEmptiest, winterFullest = 0.9, 0.8, 1.0
	bandConductivity                            = 3.0
)

// WinterUptake is how ground of a texture takes up winter rain, and the slowest
// and the quickest that it may. The slowest is full to the top: it takes no more
// than its conductivity lets through, and where a water table stands near the
// surface even that is too much. A texture that is not known counts as sandy clay
// loam, from clay to loam, as DayRunoff has it.
func WinterUptake(t Texture) (middle, slowest, quickest GreenAmpt) {
	slow, fast := t, t
	switch t {
	case "":
		t, slow, fast = SandyClayLoam, Clay, Loam
	case Silt:
		t, slow, fast = SiltLoam, SiltLoam, SiltLoam
	}
	m, s, q := uptakeRows[t], uptakeRows[slow], uptakeRows[fast]
	return m.at(m.suction, 1, winterFilled),
		s.at(s.low, 1/bandConductivity, winterFullest),
		q.at(q.high, bandConductivity, winterEmptiest)
}
