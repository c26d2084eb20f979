package takeoff

import "math"

// Cardboard laid under a bed; all common practice, no source.
const (
	sheetShort = 0.8  // m
	sheetLong  = 1.2  // m
	sheetLap   = 0.15 // m, of neighbouring sheets
	overhang   = 0.15 // m, past the bed on every side
)

// Sheets is the least number of rectangular sheets p by q (m), all laid the
// same way round with a lap, that cover a bed of so much width and length with
// an overhang on every side; 0 when the sheets are no wider than the lap.
func Sheets(width, length, overhang, p, q, lap float64) int {
	if min(p, q) <= lap {
		return 0
	}
	w, l := width+2*overhang, length+2*overhang
	rows := func(over, sheet float64) float64 { return math.Max(1, math.Ceil((over-lap)/(sheet-lap)-1e-9)) }
	return int(min(rows(w, p)*rows(l, q), rows(w, q)*rows(l, p)))
}

// countCardboard adds up the sheets, and one in ten for spoiled ones.
func countCardboard(list *List, said *lines, beds []BedInput) {
	if len(beds) == 0 {
		return
	}
	n := 0
	for _, b := range beds {
		n += max(1, b.Cardboard) * Sheets(b.Width, b.Length, overhang, sheetShort, sheetLong, sheetLap)
	}
	list.Cardboard = (11*n + 9) / 10
	said.add("cardboard sheets of %.1f by %.1f m, lapped %.0f mm and %.0f mm past the bed all round, and one in ten more"+
		" (common practice); lay the uphill sheet over the lower one, like tiles", sheetShort, sheetLong, 1000*sheetLap, 1000*overhang)
}
