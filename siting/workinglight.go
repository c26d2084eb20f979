package siting

import "fmt"

// bedLight records the sun hours of one bed.
func (l *ledger) bedLight(id string, said Light, b *BedLight) {
	if b == nil {
		return
	}
	for i, d := range b.Days {
		l.add(fmt.Sprintf("%s.sun-%02d", id, sunMonths[i]), d.Hours, "h",
			"hours with the sun's centre over the ground and over what is drawn, mean over six points of the bed; band: heights a tenth more or less, "+
				"crowns 0.15 to 0.35 of the tree's height in radius, shares of light let through, and the interval of the fall",
			"Meeus, Astronomical Algorithms (1998), chapters 12 and 25; day length: Duffie and Beckman, chapter 1; bands: common practice and defaults of ours",
			input("latitude", *said.Latitude, "degrees", "given"), input("length of the day", d.DayLength, "h", "computed"))
	}
}
