package levelbook_test

import (
	"math"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
)

// A book and its ties give the heights that have both, sorted by place, and
// name the stations that have only one.
func TestHeightsJoinBookAndTies(t *testing.T) {
	red, _ := reduced(t, `station,back,inter,fore,level,note
post,1.500,,,10.000,
East,,1.400,,,by the hedge
west,,1.600,,,
lost,,1.700,,,
eaves,,-0.900,,,
gate,,1.450,,,
post,,,1.502,,
`, levelbook.Options{})
	sol, _ := solved(t, `east,offset,shed,gate,8,2
West,offset,shed,gate,2,2
eaves,offset,shed,gate,5,0
nowhere,offset,shed,gate,5,5
`, red.Stations...)
	heights, faults := levelbook.Heights(red.Stations, sol)
	names := []string{}
	for _, h := range heights {
		names = append(names, h.Name)
	}
	assert.Equal(t, []string{"west", "East", "gate"}, names)
	east := heights[1]
	// 10.100 and the 2 mm that the one set-up is out.
	assert.InDelta(t, 10.102, east.Height, 1e-9)
	assert.Equal(t, "by the hedge", east.Note)
	assert.Equal(t, geodata.Pos{File: "levels.csv", Line: 3}, east.Source)
	assert.Equal(t, 1, east.Readings)
	assert.Greater(t, east.Sigma, levelbook.DefaultGroundSigma)

	told := map[string]string{}
	for _, f := range faults {
		told[f.Read] = f.Code + " " + f.Severity.String()
	}
	assert.Equal(t, map[string]string{
		"post": "level-not-ground note", "eaves": "level-not-ground note",
		"lost": "level-without-place warning", "nowhere": "place-without-level warning",
	}, told)
}

// Figures that no file can hold are refused all the same.
func TestFiguresOutOfRange(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), 1e6} {
		book := levelbook.Book{File: "levels.csv", Rows: []levelbook.Row{
			{Station: "A", Back: written(1)}, {Station: "B", Fore: written(v)},
		}}
		_, faults := book.Reduce(levelbook.Options{})
		assert.Contains(t, codes(faults), "figure-out-of-range")
	}
}
