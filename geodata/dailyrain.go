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
