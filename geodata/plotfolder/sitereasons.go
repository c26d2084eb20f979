package plotfolder

import "strconv"

// siteReasons say why a setting has its range, where the range is more than a
// guard against slips.
var siteReasons = map[string]string{
	"beds.width_m":          "nobody reaches the middle of a wider bed, and steps across it would rise too far",
	"beds.depth_mm":         "under 20 mm nothing grows, and over 600 mm the boards would be a retaining wall",
	"boards.thicknesses_mm": "thinner boards split at the screws and rot through in a year or two; thicker timbers are not bent or let in as boards are",
	"boards.heights_mm":     "lower boards do not turn water, and higher ones are retaining walls",
	"boards.price_per_m":    "a price is nothing or more",
	"pegs.price_each":       "a price is nothing or more",
	"compost.price_per_m3":  "a price is nothing or more",
	"compost.order_factor":  "compost is bought loose and settles: never less than is laid, and never twice as much",
	"prices.cardboard_each": "a price is nothing or more",
	"prices.screws_each":    "a price is nothing or more",
	"prices.cover_per_m2":   "a price is nothing or more",
	"prices.pins_each":      "a price is nothing or more",
	"to_come.height_m":      "what is lower takes no sun that counts, and nothing in a garden is higher",
	"pegs.spacing_m":        "a peg at both ends and the middle of a 3.6 m side is the widest that a 25 mm board bears for five years",
	"pegs.size_mm":          "thinner pegs snap when they are driven",
}

// rangeWanted asks for a number of a setting's range, and says why.
func rangeWanted(r siteRange) string {
	plain := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	want := "write a number from " + plain(r.low) + " to " + plain(r.high)
	if why := siteReasons[r.key]; why != "" {
		want += ": " + why
	}
	return want
}
