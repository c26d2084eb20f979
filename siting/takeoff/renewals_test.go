package takeoff_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Lives begun within the years, less the first: 12 years of 5 are three, 10 of 5
// two, 20 of 7.5 three.
func TestRenewals(t *testing.T) {
	assert.Equal(t, 2.0, takeoff.Renewals(12, 5))
	assert.Equal(t, 1.0, takeoff.Renewals(10, 5))
	assert.Equal(t, 2.0, takeoff.Renewals(20, 7.5))
	assert.Zero(t, takeoff.Renewals(10, 12))
	assert.Zero(t, takeoff.Renewals(10, 0))
}

// A bed of 3.6 by 1.2 m in boards of 25 mm: two sides of 3600 and two ends of
// 1150 mm a course. Boards last 6 years (4 to 12), pegs 4.5 (3 to 6).
func TestTenYearsOfOneBed(t *testing.T) {
	b := bed("Bed 1")
	b.BoardUphill, b.BoardDownhill, b.CoursesUphill, b.CoursesDownhill = 150, 150, nil, nil
	b.BoardLife = geodata.Estimate{Value: 6, Low: 4, High: 12}
	b.PegLife = geodata.Estimate{Value: 4.5, Low: 3, High: 6}
	board, peg, compost := 4.0, 1.5, 60.0
	site := geodata.Site{Boards: geodata.BoardOffer{PricePerM: &board}, Pegs: geodata.PegOffer{Price: &peg}, Compost: geodata.CompostOffer{PricePerM3: &compost}}
	list, _, err := takeoff.Count([]takeoff.BedInput{b}, site)
	require.NoError(t, err)
	r := list.Renewal
	require.NotNil(t, r)
	assert.Equal(t, geodata.Estimate{Value: 9.5, Low: 0, High: 19}, r.BoardLength, "once; never; twice")
	assert.Equal(t, geodata.Estimate{Value: 12, Low: 6, High: 18}, r.Pegs)
	assert.InDelta(t, 10*list.YearlyTopUp.Value, r.TopUp.Value, 1e-9)
	assert.InDelta(t, 4*9.5+1.5*12+60*1.15*r.TopUp.Value, r.Cost.Value, 1e-9)
	list, _, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	assert.Nil(t, list.Renewal.Cost)
}
