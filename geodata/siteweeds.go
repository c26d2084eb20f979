package geodata

// WeedMet is a perennial weed met in some beds only.
type WeedMet struct {
	Name string   `toml:"name"` // common or botanical
	Beds []string `toml:"beds"` // as they are named on the plan
	At   Pos      `toml:"-"`    // where the name was read
}
