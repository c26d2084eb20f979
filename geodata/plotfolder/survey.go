package plotfolder

import (
	"cmp"
	"slices"

	"crossfall/geodata"
)

// survey is what a file of heights holds.
type survey struct {
	// spots have their place in local metres, or in degrees when lonLat.
	spots  []geodata.SpotHeight
	lonLat bool
	file   string
	epsg   int // map grid of the places, as the file says; 0 when it says none
}

// The range of heights that ground has, m: from under the shore of the Dead
// Sea to the highest mountain, which leaves out the figures that programs put
// for a missing height.
const lowestGround, highestGround = -500, 9000

// checkHeight refuses a height that no ground has.
func checkHeight(z float64, pos geodata.Pos, read string, c *collector) bool {
	if z >= lowestGround && z <= highestGround {
		return true
	}
	c.problem(pos, "height-out-of-range", read, "no ground has this height", "write a height from -500 to 9000 m, or leave the row out")
	return false
}

// checkLonLat refuses what cannot be longitude and latitude in degrees.
func checkLonLat(lon, lat float64, pos geodata.Pos, read, want string, c *collector) bool {
	if lon >= -180 && lon <= 180 && lat >= -90 && lat <= 90 {
		return true
	}
	c.problem(pos, "not-degrees", read, "this is no longitude and latitude in degrees", want)
	return false
}

// sortSpots puts heights in order of x, y, height and name, then of their row.
func sortSpots(spots []geodata.SpotHeight) {
	slices.SortStableFunc(spots, func(a, b geodata.SpotHeight) int {
		return cmp.Or(
			cmp.Compare(a.At[0], b.At[0]),
			cmp.Compare(a.At[1], b.At[1]),
			cmp.Compare(a.Height, b.Height),
			cmp.Compare(a.Name, b.Name),
			cmp.Compare(a.Source.Line, b.Source.Line),
		)
	})
}

// sideOf reads top or toe: the whole word, or what a note begins with.
func sideOf(text string) geodata.BreakSide {
	for _, s := range []struct {
		word string
		side geodata.BreakSide
	}{{"top", geodata.Top}, {"toe", geodata.Toe}} {
		if beginsWithWord(text, s.word) {
			return s.side
		}
	}
	return geodata.NoSide
}
