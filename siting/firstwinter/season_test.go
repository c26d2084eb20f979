package firstwinter_test

import (
	"testing"
	"time"

	"crossfall/siting/firstwinter"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func at(latitude float64) *float64 { return &latitude }

// Means in mm of places whose wet season every atlas has, from memory and rounded:
// Athens (wet from October), Darwin (from November, its dry months under 20 mm) and
// Cape Town (from April); and one with the same rain every month.
var (
	athens   = []float64{57, 47, 41, 31, 23, 11, 6, 6, 15, 51, 56, 69}
	darwin   = []float64{420, 370, 320, 100, 21, 2, 1, 5, 15, 70, 140, 250}
	capeTown = []float64{15, 17, 20, 41, 69, 93, 82, 77, 40, 30, 14, 17}
	even     = []float64{50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50}
)

func TestWetSeason(t *testing.T) {
	for name, c := range map[string]struct {
		monthly  []float64
		latitude *float64
		first    time.Month
		says     string
	}{
		"north without rain": {nil, at(51), time.October, "north of the equator"},
		"south without rain": {nil, at(-37), time.April, "south of the equator"},
		"nothing known":      {nil, nil, time.October, "neither a latitude nor monthly rain"},
		"Athens":             {athens, at(38), time.October, "of the year's"},
		"Darwin":             {darwin, at(-12.5), time.November, "of the year's"},
		"Cape Town":          {capeTown, at(-34), time.April, "of the year's"},
		"even":               {even, at(52), time.October, "spread over the year"},
		"even in the south":  {even, at(-43), time.April, "spread over the year"},
		"even on the line":   {even, at(1), time.October, "of the year's"},
		"eleven months":      {even[:11], at(-43), time.April, "no monthly rain"},
	} {
		t.Run(name, func(t *testing.T) {
			s := firstwinter.WetSeason(c.monthly, c.latitude)
			assert.Equal(t, c.first, s.First)
			assert.Equal(t, (int(c.first)-1+5)%12+1, int(s.Last))
			assert.Contains(t, s.Why, c.says)
			assert.Equal(t, len(c.monthly) == 12, s.Share != nil)
		})
	}
	// October to March of Athens: 51 + 56 + 69 + 57 + 47 + 41 of 413 mm
	assert.InDelta(t, 100*321.0/413, *firstwinter.WetSeason(athens, at(38)).Share, 1e-9)
}

// Rain moved by six months moves the season by six.
func TestSeasonFollowsTheRain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		monthly := rapid.SliceOfN(rapid.Float64Range(1, 300), 12, 12).Draw(t, "rain")
		turned := make([]float64, 12)
		for i, m := range monthly {
			turned[(i+6)%12] = m
		}
		s := firstwinter.WetSeason(monthly, at(50))
		if s.Share == nil || *s.Share < 56 {
			return
		}
		o := firstwinter.WetSeason(turned, at(50))
		require.NotNil(t, o.Share)
		assert.InDelta(t, *s.Share, *o.Share, 1e-6)
		half, year := 0.0, 0.0 // of months as wet there may be two
		for i := range 12 {
			year += turned[i]
			if i < 6 {
				half += turned[(int(o.First)-1+i)%12]
			}
		}
		assert.InDelta(t, *s.Share, 100*half/year, 1e-6)
	})
}
