package plotfolder_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// logger is a record of equal intervals from 1 January 2021; mm gives the rain
// of the i-th, negative for one to leave out.
func logger(step time.Duration, count int, mm func(i int) float64) string {
	var b strings.Builder
	b.WriteString("time,mm\n")
	for i := range count {
		if v := mm(i); v >= 0 {
			fmt.Fprintf(&b, "%s,%g\n", time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(i)*step).Format("2006-01-02 15:04"), v)
		}
	}
	return b.String()
}

func TestIntervals(t *testing.T) {
	// 0.1 mm an hour in 2021, but for the second hour of 3 January, which is not there
	text := logger(time.Hour, 365*24, func(i int) float64 {
		if i == 49 {
			return -1
		}
		return 0.1
	})
	rain := plot(t, files{"heights.csv": sound, "rain.csv": text}).Rain
	require.NotNil(t, rain.Intervals)
	assert.Equal(t, 60.0, rain.Intervals.Minutes)
	assert.Equal(t, time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC), rain.Intervals.First)
	assert.Equal(t, 365*24, len(rain.Intervals.MM))
	assert.True(t, math.IsNaN(rain.Intervals.MM[49]))
	require.NotNil(t, rain.Daily)
	assert.Equal(t, 365, len(rain.Daily.MM))
	assert.True(t, math.IsNaN(rain.Daily.MM[2]), "part of the day was not read")
	assert.InDelta(t, 2.4, rain.Daily.MM[3], 1e-12)
	assert.InDelta(t, 31*2.4, rain.Monthly[0], 1e-9)
	assert.Equal(t, "60-minute record from 2021-01-01 to 2021-12-31", rain.From)
}

func TestIntervalFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string
	}{
		{"not a time", "time,mm\n2021-01-01 25:00,1\n12:30,1\n", []string{"time-unknown at rain.csv:2:1: 2021-01-01 25:00", "time-unknown at rain.csv:3:1: 12:30"}, "2024-11-30 14:45"},
		{"one time", "time,mm\n2021-01-01 00:00,1\n", []string{"record-too-short at rain.csv: "}, "time,mm"},
		{"out of order", "time,mm\n2021-01-01 01:00,1\n2021-01-01 00:00,1\n", []string{"time-out-of-order at rain.csv:3:1: 2021-01-01 00:00"}, "winter time"},
		{"twice", "time,mm\n2021-01-01 01:00,1\n2021-01-01 01:00,1\n", []string{"time-twice at rain.csv:3:1: 2021-01-01 01:00"}, "once"},
		{"too long", "time,mm\n2021-01-01 00:00,1\n2021-01-01 03:00,1\n", []string{"intervals-too-long at rain.csv:3:1: 2021-01-01 03:00"}, "date,mm"},
		{"off the step", "time,mm\n2021-01-01 00:00,1\n2021-01-01 00:30,1\n2021-01-01 01:10,0\n2021-01-01 01:45,0\n", []string{"time-off-step at rain.csv:4:1: 2021-01-01 01:10"}, "one length"},
		{"dry ones left out", "time,mm\n2021-01-01 00:00,1\n2021-01-01 00:30,1\n2021-01-02 01:30,1\n", []string{"times-missing at rain.csv: "}, "with 0"},
		{"too many", "time,mm\n2021-01-01 00:00,1\n2021-01-01 00:01,1\n2031-01-02 01:30,1\n", []string{"record-too-long at rain.csv:4:1: 2031-01-02 01:30"}, "years"},
		{"negative", "time,mm\n2021-01-01 00:00,-1\n2021-01-01 00:30,1\n", []string{"out-of-range at rain.csv:2:18: -1"}, "leave the cell empty"},
		{"under a year", logger(time.Hour, 24*300, func(int) float64 { return 0.1 }), []string{"record-too-short at rain.csv: "}, "whole year"},
		{"in hundredths", logger(time.Hour, 24*365, func(int) float64 { return 8 }), []string{"rain-unit-wrong at rain.csv:1:6: mm"}, "0.01 mm"},
	} {
		fs := faults(t, files{"heights.csv": sound, "rain.csv": c.text})
		assert.Equal(t, c.want, short(fs), c.name)
		assert.Contains(t, fs[0].Want, c.advice, c.name)
	}
}
