package geodata

// TallThing is something tall that is still to come and has no place yet.
type TallThing struct {
	What      string   `toml:"what"` // "tree", "polytunnel", "shed", ...
	Height    *float64 `toml:"height_m"`
	Width     *float64 `toml:"width_m"` // greatest width over the ground, whichever way it is turned
	Evergreen bool     `toml:"evergreen"`
}

// Prices are those of what is bought beside boards, pegs and compost, in the
// currency of compost.currency.
type Prices struct {
	Cardboard *float64 `toml:"cardboard_each"` // sheet
	Screw     *float64 `toml:"screws_each"`
	Cover     *float64 `toml:"cover_per_m2"`
	Pin       *float64 `toml:"pins_each"`
}
