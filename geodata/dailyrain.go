package geodata

import "time"

// DailyRain is a daily record of rain, one place for each day from the first
// to the last.
type DailyRain struct {
	First time.Time // midnight, universal time
	// MM is the depth of each day, mm; not a number where the gauge was not
	// read. Missing days are never taken as dry.
	MM []float64
}

// GreatestRainYears is the longest daily record that is read, years.
const GreatestRainYears = 200

// IntervalRain is a record of rain in equal intervals of an hour or less, one
// place for each from the first to the last.
type IntervalRain struct {
	First   time.Time // beginning of the first interval
	Minutes float64   // length of each, over 0 to 60
	MM      []float64 // depth of each, mm; not a number where the gauge was not read
}
