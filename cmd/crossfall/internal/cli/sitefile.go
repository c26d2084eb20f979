package cli

import (
	"strings"

	"crossfall/geodata"
	"crossfall/siting/soil"
)

// siteTOML is site.toml with every key that it may hold: what was said as a
// setting, the rest as an example behind a #.
func siteTOML(s geodata.Site) []byte {
	var t tomlText
	t.remark("Wishes and surroundings. A line that begins with # is not read: to use one,")
	t.remark("remove its # and write your own figure. What is left out is taken as usual,")
	t.remark("and every result names what was taken. Units are those of the names.")
	t.set("name", tomlString(s.Name), `"upper plot"`, "")
	t.set("coordinates", `"local"`, "", `"local": metres or feet on the plot; "lonlat": longitude and latitude`)
	t.set("units", tomlString(s.Units), `"m"`, `"m" or "ft": of columns whose header names no unit`)
	writePlace(&t, s)
	writeWishes(&t, s)
	writeOnSale(&t, s)
	writeRain(&t, s.Rain)
	writeServices(&t, s.Services)
	writeToCome(&t, s.ToCome)
	writeWeeds(&t, s.Weeds)
	writeAcknowledged(&t, s.Acknowledged)
	return t.Bytes()
}

func writePlace(t *tomlText, s geodata.Site) {
	p, g := s.Place, s.Ground
	t.heading("place")
	t.set("latitude", tomlNumber(p.Latitude), "50.4", "degrees, north positive")
	t.set("longitude", tomlNumber(p.Longitude), "-4.9", "degrees, east positive")
	t.set("north", tomlString(p.North), `"true"`, `"true", "grid" or "magnetic"; left out: the y axis is taken as north`)
	t.set("y_axis_bearing_degrees", tomlNumber(p.AxisBearing), "0", "of the y axis, clockwise from that north")
	t.set("grid_epsg", tomlCount(p.Grid), "27700", "EPSG code of the map grid that x and y are on; left out: they count from a corner")
	t.set("country", tomlString(p.Country), `"uk"`, "whose rule holds for work near services; left out: the default clearance")

	writeCompass(t, s.Compass)

	t.heading("ground")
	t.remark("The ground under a thumb, in the wettest month:")
	for _, o := range thumbTests() {
		t.remark("  " + tomlString(o.word) + ": " + o.said)
	}
	t.set("thumb", tomlString(g.Thumb), tomlString(thumbTests()[1].word), "")
	t.set("cover", tomlString(g.Cover), `"turf"`, `"turf", "rough grass", "bare" or "dug"`)
	writeTexture(t, g)
	t.set("surface", tomlString(g.Surface), `"smooth"`, `only to have the ground fitted so whatever the heights say: "plane", "curved" or "smooth"`)
	t.set("reading_precision_mm", tomlNumber(g.Precision), "12", "one standard deviation, with the ground under the staff")
	t.set("strength_kpa", tomlNumber(g.Strength), "15", "only if measured: undrained strength in the wettest month, in place of the word's")
	t.set("wet_cohesion_kpa", tomlNumber(g.Cohesion), "1", "only if measured: drained cohesion of the wet topsoil")
	t.set("roughness_mm", tomlNumber(g.Roughness), "6", "of the ground along a board, one standard deviation")
	t.set("weeds", tomlTexts(g.Weeds), `["couch grass", "dock"]`, "perennial weeds met all over when digging, by common or botanical name; those of some beds: [[weeds]] below")
	t.set("uphill_length_m", tomlNumber(g.UphillLength), "20", "of the slope above the heights that drains on to the plot")
}

// writeTexture are the settings of what the soil is made of.
func writeTexture(t *tomlText, g geodata.GroundWords) {
	t.set("texture", tomlString(g.Texture), `"sandy loam"`, "from sand to clay, if you know the class")
	t.remark("  or by hand: press a moist ball between thumb and finger; how long a ribbon before it breaks, and how does it feel rubbed wet?")
	t.set("ribbon", tomlString(g.Ribbon), `"25 to 50 mm"`, `"no ball", "no ribbon", "under 25 mm", "25 to 50 mm" or "over 50 mm"`)
	t.set("feel", tomlString(g.Feel), `"gritty"`, `"gritty", "smooth" or "neither"`)
	t.set("analysis", "", "{ sand_percent = 40, silt_percent = 40, clay_percent = 20, organic_percent = 3 }", "only from a laboratory; very_fine_sand_percent and stones_percent may be added")
	t.set("test_pit", "", "{ length_m = 0.3, width_m = 0.3, from_m = 0.45, to_m = 0.15, minutes = 40 }", "a pit filled with water: depths at three quarters and a quarter, and the minutes between (the slowest of three fillings)")
}

func writeWishes(t *tomlText, s geodata.Site) {
	b := s.Beds
	t.heading("beds")
	t.set("count", tomlCount(b.Count), "4", "")
	t.set("length_m", tomlNumber(b.Length), "3.6", "")
	t.set("width_m", tomlNumber(b.Width), "1.2", "")
	t.set("depth_mm", tomlNumber(b.Depth), "150", "of compost, at the shallowest place")
	t.set("path_m", tomlNumber(b.Path), "0.6", "between beds")
	t.set("most", "", "true", "as many beds as fit, in place of count")
	t.set("row_min", "", "2", "no row of fewer beds")
	t.set("columns", "", "true", "the beds of all rows stand in columns too")
	t.set("pairs", "", "true", "rows in pairs, with a foot path of pair_path_m inside the pair and path_m outside")
	t.set("pair_path_m", "", "0.45", "")
	t.set("sun_counts", "", "1", "how much hours of sun count when places are weighed; 0 not at all, up to 10")
	t.set("carrying_counts", "", "1", "the same of the way from the gate")
}

func writeOnSale(t *tomlText, s geodata.Site) {
	b := s.Boards
	t.heading("boards")
	t.set("lengths_m", tomlNumbers(b.Lengths), "[3.6, 4.8]", "")
	t.set("heights_mm", tomlNumbers(b.Heights), "[150, 175, 200, 225]", "")
	t.set("thicknesses_mm", tomlNumbers(b.Thicknesses), "[25]", "")
	t.set("durability_class", tomlCount(b.Durability), "4", "EN 350, from 1 (lasts longest) to 5")
	t.set("life_years", tomlNumber(b.Life), "5", "that boards should last: the thinnest that do are taken")
	t.set("price_per_m", tomlNumber(b.PricePerM), "4.20", "")
	t.set("kerf_mm", tomlNumber(b.Kerf), "3", "width of a saw cut")

	t.heading("pegs")
	t.set("size_mm", tomlNumber(s.Pegs.Size), "50", "side of a square peg")
	t.set("spacing_m", tomlNumber(s.Pegs.Spacing), "1.8", "widest between pegs; closer where the load asks it")
	t.set("price_each", tomlNumber(s.Pegs.Price), "1.60", "")

	t.heading("compost")
	t.set("price_per_m3", tomlNumber(s.Compost.PricePerM3), "62", "")
	t.set("currency", tomlString(s.Compost.Currency), `"GBP"`, "of all prices")
	t.set("fill", tomlString(s.Compost.Fill), tomlString(soil.DefaultFill), fillsSaid())
	t.set("dry_density_kg_m3", tomlNumber(s.Compost.DryDensity), "300", "only if measured, with the moisture")
	t.set("moisture_percent", tomlNumber(s.Compost.Moisture), "50", "of its wet mass, as bought; only if measured")

	t.set("order_factor", tomlNumber(s.Compost.OrderFactor), "1.15", "loose compost to order over compost as laid; 1.25 if it is freshly screened")

	writePrices(t, s.Prices)

	t.heading("carrying")
	t.set("load_litres", tomlNumber(s.Carrying.Load), "45", "of compost in one load, as laid")
	t.set("barrow_kg", tomlNumber(s.Carrying.Barrow), "15", "empty")
	t.set("barrow_width_m", tomlNumber(s.Carrying.Width), "0.6", "with the hands that push it")
	t.set("steepest_percent", tomlNumber(s.Carrying.Steepest), "8.3", "of the way with a full load; 8.3 is 1 in 12")
}

// fillsSaid lists what beds may be filled with.
func fillsSaid() string {
	words := soil.FillWords()
	quoted := make([]string, len(words))
	for i, word := range words {
		quoted[i] = tomlString(word)
	}
	return strings.Join(quoted, ", ")
}

func writeRain(t *tomlText, r geodata.RainWish) {
	t.heading("rain")
	t.remark("Leave this out if you have no figures, or put a record into rain.csv.")
	t.set("winter_half_mm", tomlNumber(r.WinterHalf), "560", "mean rain of the wet half-year")
	t.set("m5_60_mm", tomlNumber(r.M5Hour), "18", "60-minute rain met once in 5 years on average")
	t.set("ratio_r", tomlNumber(r.Ratio), "0.35", "that rain over the two-day rain of the same rarity")
	t.set("erosivity", tomlNumber(r.Erosivity), "600", "erosive power of the rain of a mean year, MJ mm/(ha h), from a map")
}

func writeServices(t *tomlText, services map[geodata.Carrier]string) {
	t.heading("services")
	t.remark(`For each: "drawn", "located by ...", "none, known by ..." or "unknown".`)
	t.remark("What is there must be drawn in features.csv. The last line is for anything else.")
	for _, c := range geodata.Carriers() {
		t.set(string(c), tomlString(services[c]), tomlString(serviceUnknown), "")
	}
}

func writeAcknowledged(t *tomlText, read []geodata.Acknowledgement) {
	t.WriteByte('\n')
	t.remark("When you have read a caution, you may say so. It takes nothing of it away.")
	for _, a := range read {
		t.heading("[acknowledged]")
		t.set("caution", tomlString(a.Caution), `""`, "")
		t.set("by", tomlString(a.By), `""`, "")
		t.set("date", tomlString(a.Date), `""`, "")
	}
	if len(read) == 0 {
		t.remark("[[acknowledged]]")
		t.set("caution", "", `"the id of the caution"`, "")
		t.set("by", "", `"your name"`, "")
		t.set("date", "", `"2026-03-01"`, "")
	}
}
