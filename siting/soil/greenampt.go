package soil

import "crossfall/terrain/stormflow"

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

// at is the row with another suction, cm, its conductivity so many times, and its
// pores filled to a share of 0 to 1.
func (r uptakeRow) at(suction, times, filled float64) stormflow.GreenAmpt {
	return stormflow.GreenAmpt{
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
func WinterUptake(t Texture) (middle, slowest, quickest stormflow.GreenAmpt) {
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
