package plotfolder

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crossfall/geodata"
)

// siteRange is the range of one setting, both ends included. The ranges are
// there to catch slips and units; they are defaults of ours but for degrees
// and the classes of durability of EN 350.
type siteRange struct {
	key       string
	low, high float64
	values    []float64
}

func siteRanges(s geodata.Site) []siteRange {
	one := func(p *float64) []float64 {
		if p == nil {
			return nil
		}
		return []float64{*p}
	}
	whole := func(p *int) []float64 {
		if p == nil {
			return nil
		}
		return []float64{float64(*p)}
	}
	pit := geodata.TestPit{}
	if s.Ground.TestPit != nil {
		pit = *s.Ground.TestPit
	}
	analysis := geodata.SoilAnalysis{}
	if s.Ground.Analysis != nil {
		analysis = *s.Ground.Analysis
	}
	const price = 1e6
	return []siteRange{
		{"place.latitude", -90, 90, one(s.Place.Latitude)},
		{"place.longitude", -180, 180, one(s.Place.Longitude)},
		{"place.y_axis_bearing_degrees", -360, 360, one(s.Place.AxisBearing)},
		{"compass.declination_degrees", -60, 60, one(s.Compass.Declination)},
		{"compass.declination_year", 1900, 2200, whole(s.Compass.Year)},
		{"compass.declination_minutes_a_year", -60, 60, one(s.Compass.Yearly)},
		{"compass.bearings_year", 1900, 2200, whole(s.Compass.Read)},
		{"ground.reading_precision_mm", 1, 1000, one(s.Ground.Precision)},
		{"ground.strength_kpa", 2, 200, one(s.Ground.Strength)},
		{"ground.wet_cohesion_kpa", 0, 100, one(s.Ground.Cohesion)},
		{"ground.roughness_mm", 0, 100, one(s.Ground.Roughness)},
		{"ground.uphill_length_m", 0, 2000, one(s.Ground.UphillLength)},
		{"ground.test_pit.length_m", 0.1, 5, one(pit.Length)},
		{"ground.test_pit.width_m", 0.1, 5, one(pit.Width)},
		{"ground.test_pit.from_m", 0.05, 3, one(pit.From)},
		{"ground.test_pit.to_m", 0.01, 3, one(pit.To)},
		{"ground.test_pit.minutes", 0.5, 10000, one(pit.Minutes)},
		{"ground.analysis.sand_percent", 0, 100, one(analysis.Sand)},
		{"ground.analysis.silt_percent", 0, 100, one(analysis.Silt)},
		{"ground.analysis.clay_percent", 0, 100, one(analysis.Clay)},
		{"ground.analysis.very_fine_sand_percent", 0, 100, one(analysis.VeryFineSand)},
		{"ground.analysis.organic_percent", 0, 100, one(analysis.Organic)},
		{"ground.analysis.stones_percent", 0, 100, one(analysis.Stones)},
		{"beds.count", 0, geodata.MostBeds, whole(s.Beds.Count)},
		{"beds.length_m", 0.3, 30, one(s.Beds.Length)},
		{"beds.width_m", 0.3, 3, one(s.Beds.Width)},
		{"beds.depth_mm", 20, 600, one(s.Beds.Depth)},
		{"beds.path_m", 0.2, 5, one(s.Beds.Path)},
		{"beds.row_min", 1, 50, whole(s.Beds.RowMin)},
		{"beds.pair_path_m", 0.2, 5, one(s.Beds.PairPath)},
		{"beds.sun_counts", 0, 10, one(s.Beds.Sun)},
		{"beds.carrying_counts", 0, 10, one(s.Beds.Carrying)},
		{"boards.lengths_m", 0.3, 12, s.Boards.Lengths},
		{"boards.heights_mm", 50, 600, s.Boards.Heights},
		{"boards.thicknesses_mm", 12, 75, s.Boards.Thicknesses},
		{"boards.durability_class", 1, 5, whole(s.Boards.Durability)},
		{"boards.life_years", 1, 50, one(s.Boards.Life)},
		{"boards.price_per_m", 0, price, one(s.Boards.PricePerM)},
		{"boards.kerf_mm", 0, 10, one(s.Boards.Kerf)},
		{"pegs.size_mm", 15, 150, one(s.Pegs.Size)},
		{"pegs.spacing_m", 0.3, 1.8, one(s.Pegs.Spacing)},
		{"pegs.price_each", 0, price, one(s.Pegs.Price)},
		{"compost.price_per_m3", 0, price, one(s.Compost.PricePerM3)},
		{"compost.dry_density_kg_m3", 50, 2000, one(s.Compost.DryDensity)},
		{"compost.moisture_percent", 0, 90, one(s.Compost.Moisture)},
		{"compost.order_factor", 1, 2, one(s.Compost.OrderFactor)},
		{"prices.cardboard_each", 0, price, one(s.Prices.Cardboard)},
		{"prices.screws_each", 0, price, one(s.Prices.Screw)},
		{"prices.cover_per_m2", 0, price, one(s.Prices.Cover)},
		{"prices.pins_each", 0, price, one(s.Prices.Pin)},
		{"carrying.load_litres", 1, 1000, one(s.Carrying.Load)},
		{"carrying.barrow_kg", 0, 200, one(s.Carrying.Barrow)},
		{"carrying.barrow_width_m", 0.3, 2, one(s.Carrying.Width)},
		{"carrying.steepest_percent", 2, 30, one(s.Carrying.Steepest)},
		{"rain.winter_half_mm", 1, 10000, one(s.Rain.WinterHalf)},
		{"rain.m5_60_mm", 1, 200, one(s.Rain.M5Hour)},
		{"rain.ratio_r", 0.05, 0.95, one(s.Rain.Ratio)},
		{"rain.erosivity", 10, 20000, one(s.Rain.Erosivity)},
	}
}

// checkRanges tells of every value out of its range.
func (d *siteText) checkRanges(site geodata.Site, c *collector) {
	for _, r := range siteRanges(site) {
		for _, v := range r.values {
			if v >= r.low && v <= r.high { // not a number fails both
				continue
			}
			pos, read := d.find(r.key, 0)
			c.problem(pos, "site-out-of-range", read, fmt.Sprintf("%s is %g", r.key, v), rangeWanted(r))
		}
	}
	if pos, read := d.find("boards.lengths_m", 0); read != "" && len(site.Boards.Lengths) == 0 {
		c.problem(pos, "site-out-of-range", read, "the list of board lengths is empty", "write at least one, or leave it out")
	}
}

// checkWords tells of every word that is not one of its list. The ground words
// belong to the package that knows their strengths, which checks them.
func (d *siteText) checkWords(site geodata.Site, c *collector) {
	for _, w := range []struct {
		key, word string
		known     []string
	}{
		{"coordinates", site.Coordinates, []string{coordinatesLocal, coordinatesLonLat}},
		{"units", site.Units, []string{string(geodata.Metric), string(geodata.FeetAndInch)}},
		{"place.north", site.Place.North, []string{"true", "grid", "magnetic"}},
		{"compass.north", site.Compass.North, []string{"true", "grid", "magnetic"}},
		{"compass.declination_from", site.Compass.From, []string{"true", "grid"}},
		{"ground.cover", site.Ground.Cover, []string{"turf", "rough grass", "bare", "dug"}},
		{"ground.surface", site.Ground.Surface, []string{"plane", "curved", "smooth"}},
		{"ground.texture", site.Ground.Texture, textures},
		{"ground.ribbon", site.Ground.Ribbon, []string{"no ball", "no ribbon", "under 25 mm", "25 to 50 mm", "over 50 mm"}},
		{"ground.feel", site.Ground.Feel, []string{"gritty", "smooth", "neither"}},
	} {
		if w.word == "" || slices.Contains(w.known, w.word) {
			continue
		}
		pos, read := d.find(w.key, 0)
		want := fmt.Sprintf("write one of %s", quotedList(w.known))
		if n := nearest(w.word, w.known); n != "" && len(w.word) > 2 {
			want = fmt.Sprintf("write %q", n)
		}
		c.problem(pos, "site-word-unknown", read, fmt.Sprintf("%s is %q", w.key, w.word), want)
	}
	if site.Place.AxisBearing != nil && site.Place.North == "" && !d.leftOut("place.north", 0) {
		pos, read := d.find("place.y_axis_bearing_degrees", 0)
		c.problem(pos, "site-north-not-said", read, "the bearing of the y axis is given, and not from which north", `write north = "true", "grid" or "magnetic" under [place]`)
	}
}

func quotedList(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = fmt.Sprintf("%q", w)
	}
	return strings.Join(quoted, ", ")
}

// checkServices tells of services that are not known and of words that say
// nothing.
func (d *siteText) checkServices(site geodata.Site, c *collector) {
	names := make([]string, 0, len(site.Services))
	for carrier := range site.Services {
		names = append(names, string(carrier))
	}
	slices.Sort(names)
	for _, name := range names {
		pos, read := d.find("services."+name, 0)
		if !slices.Contains(geodata.Carriers(), geodata.Carrier(name)) {
			c.problem(pos, "site-service-unknown", read, fmt.Sprintf("%q is not a service that is known", name), didYouMean(name, carrierNames()))
			continue
		}
		words := site.Services[geodata.Carrier(name)]
		if words == "drawn" || words == "unknown" || saysHow(words, locatedBy) || saysHow(words, noneKnown) {
			continue
		}
		c.problem(pos, "site-service-words", read, fmt.Sprintf("%q does not say what is known of it", words),
			`write "drawn", "located by ...", "none, known by ..." or "unknown"`)
	}
}

// checkAcknowledged tells of acknowledgements that lack a word or have no date.
func (d *siteText) checkAcknowledged(site geodata.Site, c *collector) {
	for i, a := range site.Acknowledged {
		for _, w := range []struct{ key, text string }{{"caution", a.Caution}, {"by", a.By}} {
			if strings.TrimSpace(w.text) == "" && !d.leftOut("acknowledged."+w.key, i) {
				pos, read := d.findAcknowledged(w.key, i)
				c.problem(pos, "site-acknowledged", read, fmt.Sprintf("acknowledgement %d does not say %s", i+1, w.key), "write "+w.key+" = and the words in quotes")
			}
		}
		if _, err := time.Parse(time.DateOnly, a.Date); err != nil && !d.leftOut("acknowledged.date", i) {
			pos, read := d.findAcknowledged("date", i)
			c.problem(pos, "site-date", read, fmt.Sprintf("the date of acknowledgement %d cannot be read", i+1), `write it as date = "2026-03-01", in quotes`)
		}
	}
}

// findAcknowledged is the place of a word of the i-th acknowledgement, else of
// any word of it.
func (d *siteText) findAcknowledged(key string, i int) (geodata.Pos, string) {
	if pos, read := d.find("acknowledged."+key, i); read != "" {
		return pos, read
	}
	for _, k := range []string{"caution", "by", "date"} {
		if pos, read := d.find("acknowledged."+k, i); read != "" {
			return pos, read
		}
	}
	return geodata.Pos{File: d.file}, ""
}
