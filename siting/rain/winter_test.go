package rain_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"crossfall/geodata"
	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWinterHalf(t *testing.T) {
	monthly := geodata.Rain{Monthly: southWest, Years: 48, From: "daily record 1914-1961"}
	cases := []struct {
		name     string
		rain     geodata.Rain
		wish     geodata.RainWish
		latitude *float64
		total    float64
		months   string
		assumed  bool
	}{
		// 126.9 + 149.2 + 149.2 + 139.9 + 101.4 + 83.7
		{"north", monthly, geodata.RainWish{}, ptr(50.7), 750.3, "October to March", false},
		// 71.3 + 79.5 + 66.3 + 96.1 + 103.4 + 103.0
		{"south", monthly, geodata.RainWish{}, ptr(-41), 519.6, "April to September", false},
		{"no latitude", monthly, geodata.RainWish{}, nil, 750.3, "October to March", true},
		{"by hand", monthly, geodata.RainWish{WinterHalf: ptr(600)}, ptr(50.7), 600, "October to March", false},
		{"by hand, nonsense", monthly, geodata.RainWish{WinterHalf: ptr(math.NaN())}, ptr(50.7), 750.3, "October to March", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			w := rain.WinterHalf(c.rain, c.wish, c.latitude)
			require.NotNil(t, w)
			assert.InDelta(t, c.total, w.Total.Value, 1e-9)
			assert.Less(t, w.Total.Low, w.Total.Value)
			assert.Greater(t, w.Total.High, w.Total.Value)
			assert.Equal(t, c.months, w.Months)
			assert.Equal(t, c.assumed, w.Assumed)
		})
	}
}

func TestWinterHalfMonthsAndTheirNamesAgree(t *testing.T) {
	for _, c := range []struct{ latitude, first float64 }{{50, 9}, {-40, 3}} {
		w := rain.WinterHalf(geodata.Rain{Monthly: southWest}, geodata.RainWish{}, &c.latitude)
		require.NotNil(t, w)
		first, last := time.Month(w.Indices[0]+1), time.Month(w.Indices[5]+1)
		assert.Equal(t, w.Months, first.String()+" to "+last.String())
	}
}

func TestWinterHalfWithoutFigures(t *testing.T) {
	for name, r := range map[string]geodata.Rain{
		"nothing":       {},
		"bursts only":   {Bursts: []geodata.DepthDuration{{Minutes: 15, ReturnYears: 10, Depth: 15}}},
		"eleven months": {Monthly: southWest[:11]},
		"a hole":        {Monthly: []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, math.NaN()}},
	} {
		assert.Nil(t, rain.WinterHalf(r, geodata.RainWish{}, ptr(50)), name)
	}
}

func TestWinterBandWidensWithAShortRecord(t *testing.T) {
	long := rain.WinterHalf(geodata.Rain{Monthly: southWest, Years: 60}, geodata.RainWish{}, nil)
	short := rain.WinterHalf(geodata.Rain{Monthly: southWest, Years: 3}, geodata.RainWish{}, nil)
	assert.Less(t, short.Total.Low, long.Total.Low)
	assert.Greater(t, short.Total.High, long.Total.High)
}

// The band must do on the record it was taken from what it says it does.
func TestWinterBandOnTheRecord(t *testing.T) {
	totals := winterTotals(t)
	mean, squares := 0.0, 0.0
	for _, v := range totals {
		mean += v / float64(len(totals))
	}
	for _, v := range totals {
		squares += (v - mean) * (v - mean)
	}
	assert.InDelta(t, 0.215, math.Sqrt(squares/float64(len(totals)-1))/mean, 0.0005)
	w := rain.WinterHalf(geodata.Rain{}, geodata.RainWish{WinterHalf: &mean}, nil)
	inside := 0
	for _, v := range totals {
		if v >= w.Total.Low && v <= w.Total.High {
			inside++
		}
	}
	assert.Contains(t, []int{44, 45, 46}, inside, "about 19 in 20 of %d winters", len(totals))
}

// winterTotals are the October to March totals of the daily record whose day 1
// is 1914-01-01.
func winterTotals(t *testing.T) []float64 {
	dir := os.Getenv("CROSSFALL_DATA")
	if dir == "" {
		t.Skip("set CROSSFALL_DATA to the folder of real data to run this test")
	}
	f, err := os.Open(filepath.Join(dir, "rain_southwest_england_daily.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	totals := make([]float64, 47) // winters 1914-15 to 1960-61
	day := time.Date(1914, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, row := range rows[1:] {
		mm, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		winter := day.Year() - 1914
		if day.Month() <= time.March {
			winter--
		}
		if (day.Month() >= time.October || day.Month() <= time.March) && winter >= 0 && winter < len(totals) {
			totals[winter] += mm
		}
		day = day.AddDate(0, 0, 1)
	}
	return totals
}

// The south-west record varies from winter to winter by the 0.215 that stands in
// for other places; a record that varies less has a narrower band.
func TestWinterBandOfARecord(t *testing.T) {
	r := southWestRecord(t)
	daily := geodata.DailyRain(r)
	own := rain.WinterHalf(geodata.Rain{Monthly: southWest, Daily: &daily}, geodata.RainWish{}, nil)
	other := rain.WinterHalf(geodata.Rain{Monthly: southWest, Years: 47}, geodata.RainWish{}, nil)
	assert.InDelta(t, other.Total.Low, own.Total.Low, 1)
	assert.InDelta(t, other.Total.High, own.Total.High, 1)
	assert.Contains(t, own.Source, "as its 47 winters vary")
}

func TestWinterBandOfASteadyRecord(t *testing.T) {
	// October to March has 182 days, or 183; each has 1 mm but the wet one
	w := rain.WinterHalf(wetDays(twelveWinters...), geodata.RainWish{}, nil)
	mean, squares := 0.0, 0.0
	for i, v := range twelveWinters {
		days := 182.0
		if (2001+i)%4 == 0 {
			days++
		}
		mean += (days - 1 + v) / 12
	}
	for i, v := range twelveWinters {
		days := 182.0
		if (2001+i)%4 == 0 {
			days++
		}
		squares += (days - 1 + v - mean) * (days - 1 + v - mean)
	}
	half := 1.96 * math.Sqrt(squares/11) / mean * math.Sqrt(1+1.0/12)
	assert.InDelta(t, 750.3*(1+half), w.Total.High, 1e-9)
	assert.InDelta(t, 750.3*(1-half), w.Total.Low, 1e-9)
}

func ExampleWinterHalf() {
	latitude := 50.7
	w := rain.WinterHalf(geodata.Rain{Monthly: southWest}, geodata.RainWish{}, &latitude)
	fmt.Printf("%s: %.0f mm, single winters %.0f to %.0f\n", w.Months, w.Total.Value, w.Total.Low, w.Total.High)
	// Output:
	// October to March: 750 mm, single winters 429 to 1072
}
