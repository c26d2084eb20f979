package geodata

// Compass says which north the bearings in ties.csv count from. Angles are
// positive to the east.
type Compass struct {
	North       string   `toml:"north"` // "magnetic", "true", "grid"; empty: the +y axis
	Declination *float64 `toml:"declination_degrees"`
	From        string   `toml:"declination_from"`           // "true" or, as some maps print it, "grid"; empty: true
	Year        *int     `toml:"declination_year"`           // for which it was printed; nil: it is of the year of the bearings
	Yearly      *float64 `toml:"declination_minutes_a_year"` // by which it changes
	Read        *int     `toml:"bearings_year"`              // in which the bearings were read
}
