package cli

import "crossfall/geodata"

// writeCompass says which north the bearings of ties count from.
func writeCompass(t *tomlText, k geodata.Compass) {
	t.heading("compass")
	t.remark("For bearings in ties.csv that were read from a north; left out, they count from the y axis.")
	t.set("north", tomlString(k.North), `"magnetic"`, `"magnetic", "true" or "grid"`)
	t.set("declination_degrees", tomlNumber(k.Declination), "-1.2", "of magnetic north, east positive, from a recent map")
	t.set("declination_from", tomlString(k.From), `"true"`, `"true", or "grid" where the map prints it from grid north`)
	t.remark("Where the map is of another year than the bearings, write all three:")
	t.set("declination_year", tomlCount(k.Year), "2020", "for which the map prints it")
	t.set("declination_minutes_a_year", tomlNumber(k.Yearly), "9", "of arc, east positive")
	t.set("bearings_year", tomlCount(k.Read), "2026", "in which they were read")
}
