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

func oneMM(time.Time) float64 { return 1 }

// A hundredth of an inch is 0.254 mm; whatever the unit, the same rain is read.
func TestUnitsOfRain(t *testing.T) {
	for head, scale := range map[string]float64{
		"rain (0.1 mm)": 10, "rain (1/10 mm)": 10, "rain (0.01 mm)": 100, "rain (0.01 in)": 100 / 25.4, "rain (0.01 inch)": 100 / 25.4,
		"rain (hundredths of an inch)": 100 / 25.4, "rain (cm)": 0.1, "rain (inches)": 1 / 25.4,
	} {
		p := plot(t, files{"heights.csv": sound, "rain.csv": months("month,"+head, ",", full, scale)})
		assert.InDeltaSlice(t, monthly, p.Rain.Monthly, 1e-3, head)
		code := "rain-unit"
		if strings.HasSuffix(head, "(inches)") {
			code = "rain-in-inches"
		}
		assert.Equal(t, 7, find(t, p.Notes, code).Pos.Col, head)
	}
}

// Rain in a unit that the header does not name: 1026 mm a year as 40 in, 10 260
// tenths of a millimetre, 4039 hundredths of an inch.
func TestRainInTheWrongUnit(t *testing.T) {
	for _, c := range []struct {
		scale  float64
		advice string
	}{{1 / 25.4, "rain (in)"}, {10, "rain (0.1 mm)"}, {100 / 25.4, "rain (0.01 in)"}} {
		p := plot(t, files{"heights.csv": sound, "rain.csv": months("month,rain", ",", full, c.scale)})
		doubt := find(t, p.Notes, "rain-unit-doubtful")
		assert.Equal(t, "rain.csv:1:7", fmt.Sprintf("%s:%d:%d", doubt.Pos.File, doubt.Pos.Line, doubt.Pos.Col))
		assert.Contains(t, doubt.Want, c.advice)
		assert.NotNil(t, p.Rain.Monthly)
	}
	fs := faults(t, files{"heights.csv": sound, "rain.csv": months("month,rain", ",", full, 12)})
	assert.Equal(t, []string{"rain-unit-wrong at rain.csv:1:7: rain"}, short(fs))
	assert.Contains(t, fs[0].Want, "rain (0.01 mm)")

	p := plot(t, files{"heights.csv": sound, "rain.csv": days(365, func(time.Time) float64 { return 0.11 })})
	assert.Contains(t, find(t, p.Notes, "rain-unit-doubtful").Want, "rain (in)", "40 inches a year, read as millimetres")
	fs = faults(t, files{"heights.csv": sound, "rain.csv": days(365, func(time.Time) float64 { return 40 })})
	assert.Equal(t, []string{"rain-unit-wrong at rain.csv:1:6: mm"}, short(fs))

	p = plot(t, files{"heights.csv": sound, "rain.csv": "minutes,years,depth\n60,5,0.8\n15,5,0.5\n"})
	doubt := find(t, p.Notes, "rain-unit-doubtful")
	assert.Equal(t, 2, doubt.Pos.Line)
	assert.Equal(t, 6, doubt.Pos.Col)
	// in an hour nobody has measured over 491 mm, nor over 262 in a quarter
	fs = faults(t, files{"heights.csv": sound, "rain.csv": "minutes,years,depth\n60,5,492\n15,5,262.5\n5760,100,2900\n"})
	assert.Equal(t, []string{"out-of-range at rain.csv:2:6: 492", "out-of-range at rain.csv:3:6: 262.5"}, short(fs))
}

func TestDailyRecordIsKept(t *testing.T) {
	text := days(800, func(d time.Time) float64 {
		if d.Equal(time.Date(2021, 6, 2, 0, 0, 0, 0, time.UTC)) || d.Year() == 2022 && d.Month() == 3 && d.Day() < 21 {
			return -1
		}
		return float64(d.Day())
	})
	text = strings.Replace(text, "2021-06-05,5\n", "2021-06-05,\n", 1)
	p := plot(t, files{"heights.csv": sound, "rain.csv": text})
	daily := p.Rain.Daily
	require.NotNil(t, daily)
	assert.Equal(t, time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC), daily.First)
	require.Len(t, daily.MM, 800)
	missing := 0
	for i, v := range daily.MM {
		switch {
		case math.IsNaN(v):
			missing++
		default:
			assert.Equal(t, float64(daily.First.AddDate(0, 0, i).Day()), v)
		}
	}
	assert.Equal(t, 22, missing, "one day left out, twenty in a row, and one empty")
	note := find(t, p.Notes, "days-missing")
	assert.Contains(t, note.Message, "22 of 800")
	assert.Contains(t, note.Message, "is 20, before this row")
	assert.Equal(t, "2022-03-21,21", strings.Split(text, "\n")[note.Pos.Line-1])
	assert.Len(t, p.Rain.Monthly, 12)
	assert.Nil(t, plot(t, files{"heights.csv": sound, "rain.csv": months("month,mm", ",", full, 1)}).Rain.Daily)
}

func TestAYearOfZeros(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "rain.csv": days(3*365, func(d time.Time) float64 {
		if d.Year() == 2022 {
			return 0
		}
		return 2
	})})
	doubt := find(t, p.Notes, "year-all-zero")
	assert.Equal(t, "rain.csv:367:1", fmt.Sprintf("%s:%d:%d", doubt.Pos.File, doubt.Pos.Line, doubt.Pos.Col))
	assert.InDelta(t, 62, p.Rain.Monthly[0], 1e-9, "the means are those of the other years")
	assert.Equal(t, 2.0, p.Rain.Years)
	assert.True(t, math.IsNaN(p.Rain.Daily.MM[365]) && math.IsNaN(p.Rain.Daily.MM[729]))
	assert.Equal(t, []float64{2, 2}, []float64{p.Rain.Daily.MM[364], p.Rain.Daily.MM[730]})
	assert.Contains(t, find(t, p.Notes, "days-missing").Message, "365 of 1095")
}

func TestBadDays(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string
	}{
		{"a mark for a missing day", "date,mm\n2021-01-01,3\n2021-01-02,-99\n", []string{"out-of-range at rain.csv:3:12: -99"}, "leave the cell empty"},
		{"more than ever fell", "date,mm\n2021-01-01,2001\n", []string{"out-of-range at rain.csv:2:12: 2001"}, "unit"},
		{"a word", "date,mm\n2021-01-01,trace\n", []string{"not-a-number at rain.csv:2:12: trace"}, "number"},
		{"a wrong century", "date,mm\n1821-01-01,3\n2021-01-02,3\n", []string{"record-too-long at rain.csv:3:1: 2021-01-02"}, "years"},
		{"every fault at once", "date,mm\n2021-01-02,-1\n2021-01-01,1\n2021-01-03,x\n2021-01-03,2\n",
			[]string{"date-out-of-order at rain.csv:3:1: 2021-01-01", "date-twice at rain.csv:5:1: 2021-01-03", "not-a-number at rain.csv:4:12: x", "out-of-range at rain.csv:2:12: -1"}, ""},
	} {
		fs := faults(t, files{"heights.csv": sound, "rain.csv": c.text})
		assert.ElementsMatch(t, c.want, short(fs), c.name)
		assert.Contains(t, fs[0].Want, c.advice, c.name)
	}
	// 200 years to the day are read, in as many rows as there are
	p := plot(t, files{"heights.csv": sound, "rain.csv": days(365, oneMM) + "2220-12-31,1\n"})
	assert.Equal(t, 73048, len(p.Rain.Daily.MM), "200 years of 365 days and 48 leap days")
}

func TestErosivityByHandIsInRange(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "site.toml": "[rain]\nerosivity = 600\n"})
	require.NotNil(t, p.Site.Rain.Erosivity)
	assert.Equal(t, 600.0, *p.Site.Rain.Erosivity)
	for _, v := range []string{"9", "20001"} {
		fs := faults(t, files{"heights.csv": sound, "site.toml": "[rain]\nerosivity = " + v + "\n"})
		assert.Equal(t, []string{"site-out-of-range at site.toml:2:1: erosivity = " + v}, short(fs))
	}
}
