package rain

import "math"

// StormType is one of the four 24-hour storms of the United States Soil
// Conservation Service (Technical Paper 149, 1973): how the rain of a day is
// spread over it. IA is the slow rain of an oceanic winter, II the summer
// thunderstorm. The service has drawn its storms from an atlas since 2015 to
// 2019 (National Engineering Handbook 630, chapter 4); outside the United States
// the four are a stand-in where no short depths are known.
type StormType int

const (
	StormI StormType = iota
	StormIA
	StormII
	StormIII
)

// stormNodes are the shares of the day's rain fallen by the hour, in the order
// of the types I, IA, II, III (Technical Paper 149, as tabled in Chow, Maidment
// & Mays, Applied Hydrology, 1988). Between them the rain is taken as steady.
var stormNodes = []struct {
	hour   float64
	fallen [4]float64
}{
	{0, [4]float64{0.000, 0.000, 0.000, 0.000}},
	{2, [4]float64{0.035, 0.050, 0.022, 0.020}},
	{4, [4]float64{0.076, 0.116, 0.048, 0.043}},
	{6, [4]float64{0.125, 0.206, 0.080, 0.072}},
	{7, [4]float64{0.156, 0.268, 0.098, 0.089}},
	{8, [4]float64{0.194, 0.425, 0.120, 0.115}},
	{8.5, [4]float64{0.219, 0.480, 0.133, 0.130}},
	{9, [4]float64{0.254, 0.520, 0.147, 0.148}},
	{9.5, [4]float64{0.303, 0.550, 0.163, 0.167}},
	{9.75, [4]float64{0.362, 0.564, 0.172, 0.178}},
	{10, [4]float64{0.515, 0.577, 0.181, 0.189}},
	{10.5, [4]float64{0.583, 0.601, 0.204, 0.216}},
	{11, [4]float64{0.624, 0.624, 0.235, 0.250}},
	{11.5, [4]float64{0.654, 0.645, 0.283, 0.298}},
	{11.75, [4]float64{0.669, 0.655, 0.357, 0.339}},
	{12, [4]float64{0.682, 0.664, 0.663, 0.500}},
	{12.5, [4]float64{0.706, 0.683, 0.735, 0.702}},
	{13, [4]float64{0.727, 0.701, 0.772, 0.751}},
	{13.5, [4]float64{0.748, 0.719, 0.799, 0.785}},
	{14, [4]float64{0.767, 0.736, 0.820, 0.811}},
	{16, [4]float64{0.830, 0.800, 0.880, 0.886}},
	{20, [4]float64{0.926, 0.906, 0.952, 0.957}},
	{24, [4]float64{1.000, 1.000, 1.000, 1.000}},
}

// fallen is the share of the day's rain that has fallen by an hour of 0 to 24.
func (s StormType) fallen(hour float64) float64 {
	for i, b := range stormNodes[1:] {
		if a := stormNodes[i]; hour <= b.hour {
			return a.fallen[s] + (hour-a.hour)/(b.hour-a.hour)*(b.fallen[s]-a.fallen[s])
		}
	}
	return 1
}

// greatest is the greatest share of the day's rain in any so many hours, over 0
// to 24. The share is greatest where the time begins or ends at a tabled hour,
// since between these the rain is steady.
func (s StormType) greatest(hours float64) float64 {
	most := 0.0
	for _, n := range stormNodes {
		for _, from := range [2]float64{n.hour, n.hour - hours} {
			from = math.Min(math.Max(from, 0), 24-hours)
			most = math.Max(most, s.fallen(math.Min(24, from+hours))-s.fallen(from))
		}
	}
	return most
}
