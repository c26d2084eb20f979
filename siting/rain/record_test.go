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

	"crossfall/siting/rain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func date(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

// southWestRecord is the daily record of Coles & Tawn (1996) and Coles (2001),
// 17 531 days from 1 January 1914.
func southWestRecord(t *testing.T) rain.Record {
	dir := os.Getenv("CROSSFALL_DATA")
	if dir == "" {
		t.Skip("set CROSSFALL_DATA to the folder of real data to run this test")
	}
	f, err := os.Open(filepath.Join(dir, "rain_southwest_england_daily.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	r := rain.Record{First: date(1914, 1, 1)}
	for _, row := range rows[1:] {
		mm, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		r.MM = append(r.MM, mm)
	}
	require.Equal(t, 17531, r.Read())
	return r
}

// steady is a record with one millimetre a day, and the depths given.
func steady(first time.Time, days int, depths map[time.Time]float64) rain.Record {
	r := rain.Record{First: first, MM: make([]float64, days)}
	for i := range r.MM {
		r.MM[i] = 1
		if v, ok := depths[first.AddDate(0, 0, i)]; ok {
			r.MM[i] = v
		}
	}
	return r
}

// The calendar: October to September is 365 days, 366 with a 29 February in
// it; October to March 182 or 183, April to September 183.
func TestBlocksByHemisphere(t *testing.T) {
	south := -41.0
	depths := map[time.Time]float64{date(2019, 9, 30): 50, date(2019, 10, 1): 30, date(2020, 3, 31): 30, date(2020, 4, 1): 40}
	r := steady(date(2018, 10, 1), 365+366, depths) // to 30 September 2020

	years := r.Years(nil)
	require.Len(t, years, 2)
	assert.Equal(t, []int{365, 366}, []int{years[0].Days, years[1].Days})
	assert.Equal(t, []float64{50, 40}, rain.Maxima(years))
	assert.Equal(t, date(2020, 4, 1), years[1].On)
	assert.InDelta(t, 365-1+50, years[0].Total, 1e-9)

	halves := r.WinterHalves(nil)
	require.Len(t, halves, 2)
	assert.Equal(t, []int{182, 183}, []int{halves[0].Days, halves[1].Days})
	assert.Equal(t, []float64{1, 30}, rain.Maxima(halves))
	assert.Equal(t, date(2019, 10, 1), halves[1].On, "the first of equal days")
	assert.Equal(t, date(2020, 3, 31), halves[1].To)

	halves = r.WinterHalves(&south)
	require.Len(t, halves, 2)
	assert.Equal(t, []int{183, 183}, []int{halves[0].Days, halves[1].Days})
	assert.Equal(t, []float64{50, 40}, rain.Maxima(halves))
	assert.Equal(t, date(2019, 4, 1), halves[0].From)
	years = r.Years(&south) // the first and the last have only half their days
	require.Len(t, years, 3)
	assert.False(t, years[0].Counted, "October to March is the summer half in the south")
	assert.True(t, years[1].Counted)
	assert.True(t, years[2].Counted, "all of its winter half was read")
}

func TestBlockRule(t *testing.T) {
	cases := []struct {
		name       string
		miss, from int // days not read, from this one on
		year, half bool
	}{
		{"all read", 0, 0, true, true},
		{"330 read", 35, 0, true, false}, // 147 of 182 days of the winter half
		{"329 read", 36, 0, false, false},
		{"winter half read, summer not", 183, 182, true, true},
		{"one day of winter and the summer not read", 184, 181, false, true},
		{"17 days of winter not read", 17, 10, true, true}, // 165/182 is over 330/365
		{"18 days of winter not read", 18, 10, true, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := steady(date(2018, 10, 1), 365, nil)
			for i := range c.miss {
				r.MM[c.from+i] = math.NaN()
			}
			year, half := r.Years(nil)[0], r.WinterHalves(nil)[0]
			assert.Equal(t, 365-c.miss, year.Read)
			assert.Equal(t, c.year, year.Counted)
			assert.Equal(t, c.half, half.Counted)
			assert.Equal(t, c.half, half.Why == "")
		})
	}
	assert.Nil(t, rain.Record{}.Years(nil))
	assert.Zero(t, rain.Record{}.Read())
}

// Storms parted by hand.
func TestPeaks(t *testing.T) {
	nan := math.NaN()
	r := rain.Record{First: date(2020, 1, 1), MM: []float64{31, 35, 0, 40, 0, 0, 33, 33, nan, 36, 30}}
	cases := []struct {
		apart int
		mm    []float64
	}{
		{0, []float64{35, 40, 33, 36}}, {1, []float64{35, 40, 33, 36}}, {2, []float64{40, 36}}, {3, []float64{40}},
	}
	for _, c := range cases {
		var mm []float64
		for _, p := range r.Peaks(30, c.apart) {
			mm = append(mm, p.MM)
		}
		assert.Equal(t, c.mm, mm, "%d days apart", c.apart)
	}
	p := r.Peaks(30, 1)[2]
	assert.Equal(t, date(2020, 1, 7), p.Date, "the first of equal days")
	assert.Equal(t, 2, p.Days)
}

// The record of Coles (2001): 152 days above 30 mm (section 4.4.1), counted in
// storms; the greatest days of its calendar years; the winters by Hosking's formulas.
func TestSouthWestRecord(t *testing.T) {
	r := southWestRecord(t)
	for apart, want := range map[int]int{1: 145, 2: 143, 3: 141} {
		peaks := r.Peaks(30, apart)
		assert.Len(t, peaks, want)
		days := 0
		for _, p := range peaks {
			days += p.Days
		}
		assert.Equal(t, 152, days)
	}

	byYear := make([]float64, 48)
	for i, v := range r.MM {
		y := r.First.AddDate(0, 0, i).Year() - 1914
		byYear[y] = math.Max(byYear[y], v)
	}
	assert.Equal(t, column(t, "southwest_england.csv", 1), byYear)

	halves := r.WinterHalves(nil)
	require.Len(t, halves, 49)
	assert.False(t, halves[0].Counted, "January to March 1914")
	assert.False(t, halves[48].Counted, "October to December 1961")
	x := rain.Maxima(halves)
	require.Len(t, x, 47)
	m := moments(t, x)
	assert.InDelta(t, 41.6936, m.L1, 6e-5)
	assert.InDelta(t, 7.75846, m.L2, 6e-6)
	assert.InDelta(t, 0.332724, m.T3, 6e-7)
	g, err := rain.GEVByHosking(m)
	require.NoError(t, err)
	for years, want := range map[float64]float64{2: 37.44, 5: 49.51, 10: 59.51, 30: 78.48, 100: 105.43} {
		assert.InDelta(t, want, g.ReturnLevel(years), 6e-3, "%g years", years)
	}
}

// Frequency of winters, years and storms from one record must tell one story:
// the ten-year day by peaks over a threshold (Coles 2001: 65.95 mm with all 152
// days) lies in the band by greatest days of years, and winters are not wetter
// than years.
func TestSouthWestFrequencies(t *testing.T) {
	r := southWestRecord(t)
	o := rain.FrequencyOptions{Years: []float64{10}}
	winter, _, err := r.WinterFrequency(nil, o)
	require.NoError(t, err)
	year, _, err := r.YearFrequency(nil, o)
	require.NoError(t, err)
	storms, peaks, err := r.PeakFrequency(30, 1, o)
	require.NoError(t, err)
	assert.Len(t, peaks, 145)
	assert.InDelta(t, 59.51, winter.Levels[0].Depth.Value, 0.02)
	assert.Less(t, winter.Levels[0].Depth.Value, year.Levels[0].Depth.Value)
	d := year.Levels[0].Depth
	assert.True(t, d.Low < storms.Levels[0].Depth.Value && storms.Levels[0].Depth.Value < d.High)
	assert.Contains(t, winter.Notes[0], "2 of 49 winters were left out")
}

func ExampleRecord_WinterFrequency() {
	// twelve winters with one wet day each
	r := rain.Record{First: date(2000, time.October, 1), MM: make([]float64, 12*365)}
	for i, mm := range []float64{31, 44, 28, 52, 39, 35, 61, 33, 41, 47, 30, 38} {
		r.MM[365*i+60] = mm
	}
	f, winters, err := r.WinterFrequency(nil, rain.FrequencyOptions{Years: []float64{10}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d winters, %s\n", len(winters), f.Model)
	fmt.Printf("%.0f mm in a day once in 10 winters on average\n", f.Levels[0].Depth.Value)
	// Output:
	// 12 winters, Gumbel distribution by L-moments
	// 54 mm in a day once in 10 winters on average
}
