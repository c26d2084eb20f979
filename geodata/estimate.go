package geodata

// Estimate is a figure with its band. Low and High enclose Value; for what
// was fitted they are the 95 % interval, for what rests on a range of defaults
// they are the ends of that range, and the Working says which.
type Estimate struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// Times scales an estimate by a factor of either sign.
func (e Estimate) Times(f float64) Estimate {
	out := Estimate{e.Value * f, e.Low * f, e.High * f}
	if f < 0 {
		out.Low, out.High = out.High, out.Low
	}
	return out
}

// Exactly is an estimate without a band, for counts and chosen dimensions.
func Exactly(v float64) Estimate { return Estimate{v, v, v} }
