package plotfolder

import "crossfall/geodata"

// Range is the range in which a setting of site.toml must lie, both ends
// included, in the unit of its key, such as "beds.length_m"; ok is false for a
// setting that has none.
func Range(key string) (low, high float64, ok bool) {
	for _, r := range siteRanges(geodata.Site{}) {
		if r.key == key {
			return r.low, r.high, true
		}
	}
	return 0, 0, false
}
