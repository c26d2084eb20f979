package plotfolder_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var monthly = []float64{112, 84, 79, 66, 62, 58, 61, 73, 82, 110, 118, 121}

// months is a table of monthly means with the given names of the months.
func months(head string, delimiter string, name func(time.Month) string, scale float64) string {
	var b strings.Builder
	b.WriteString(head + "\n")
	for i, v := range monthly {
		fmt.Fprintf(&b, "%s%s%.6g\n", name(time.Month(i+1)), delimiter, v*scale)
	}
	return b.String()
}

func full(m time.Month) string { return m.String() }

func TestMonthlyRain(t *testing.T) {
	turned := strings.Split(strings.TrimSpace(months("month,mm", ",", full, 1)), "\n")
	turned[1], turned[7] = turned[7], turned[1]
	for name, text := range map[string]string{
		"names":          months("month,rain (mm)", ",", full, 1),
		"lower case":     months("Month;Rainfall", ";", func(m time.Month) string { return strings.ToLower(m.String()) }, 1),
		"short names":    months("month,mm", ",", func(m time.Month) string { return m.String()[:3] + "." }, 1),
		"numbers":        months("month,mm", ",", func(m time.Month) string { return fmt.Sprint(int(m)) }, 1),
		"two digits":     months("month\tmm", "\t", func(m time.Month) string { return fmt.Sprintf("%02d", int(m)) }, 1),
		"inches":         months("month,rain (in)", ",", full, 1/25.4),
		"inches in word": months("month,rain in inches", ",", full, 1/25.4),
		"inches alone":   months("month,inches", ",", full, 1/25.4),
		"turned":         strings.Join(turned, "\n"),
		"depth before": "mm,month\n" + strings.Join(func() (rows []string) {
			for i, v := range monthly {
				rows = append(rows, fmt.Sprintf("%g,%d", v, i+1))
			}
			return rows
		}(), "\n"),
	} {
		t.Run(name, func(t *testing.T) {
			rain := plot(t, files{"heights.csv": sound, "rain.csv": text}).Rain
			assert.InDeltaSlice(t, monthly, rain.Monthly, 1e-3)
			assert.Equal(t, "monthly means", rain.From)
			assert.Nil(t, rain.Bursts)
			assert.Zero(t, rain.Years)
			assert.Equal(t, geodata.Pos{File: "rain.csv"}, rain.Source)
		})
	}
}

func TestBursts(t *testing.T) {
	rain := plot(t, files{"heights.csv": sound, "rain.csv": "minutes,years,mm\n60,5,18\n15,5,9.5\n1440,30,61\n"}).Rain
	assert.Equal(t, []geodata.DepthDuration{{Minutes: 60, ReturnYears: 5, Depth: 18}, {Minutes: 15, ReturnYears: 5, Depth: 9.5}, {Minutes: 1440, ReturnYears: 30, Depth: 61}}, rain.Bursts)
	assert.Equal(t, "depth-duration figures", rain.From)
	assert.Nil(t, rain.Monthly)
	rain = plot(t, files{"heights.csv": sound, "rain.csv": "duration (min);return period (years);depth (in)\n60;5;1\n"}).Rain
	assert.InDelta(t, 25.4, rain.Bursts[0].Depth, 1e-12)
}

func TestRainFaults(t *testing.T) {
	sound12 := months("month,mm", ",", full, 1)
	zero := months("month,mm", ",", full, 0)
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string
	}{
		{"empty", "", []string{"empty-file at rain.csv: "}, "header"},
		{"delimiters only", ",,\n", []string{"empty-file at rain.csv: "}, "header"},
		{"no header", "1,112\n2,84\n", []string{"no-header at rain.csv:1: 1,112"}, "month,mm"},
		{"header only", "month,mm\n", []string{"no-rows at rain.csv: "}, "month,mm"},
		{"no rain", "month,wet days\n1,3\n", []string{"column-missing at rain.csv:1: month,wet days"}, "month,mm"},
		{"neither", "place,mm\nhere,3\n", []string{"rain-columns-unknown at rain.csv:1: place,mm"}, "month,mm"},
		{"unit", "month,rain (litres)\n1,3\n", []string{"unit-unknown at rain.csv:1:7: rain (litres)"}, "mm or inches"},
		{"thirteen months", sound12 + "13,5\n", []string{"month-unknown at rain.csv:14:1: 13"}, "December or 12"},
		{"month twice", sound12 + "jan,5\n", []string{"month-twice at rain.csv:14:1: jan"}, "once"},
		{"missing", strings.Replace(sound12, "June,58\n", "", 1), []string{"month-missing at rain.csv: "}, "all twelve"},
		{"negative", strings.Replace(sound12, "June,58", "June,-58", 1), []string{"out-of-range at rain.csv:7:6: -58"}, "figure and its unit"},
		{"text", strings.Replace(sound12, "June,58", "June,wet", 1), []string{"not-a-number at rain.csv:7:6: wet"}, "write a number"},
		{"infinite", strings.Replace(sound12, "June,58", "June,inf", 1), []string{"not-a-number at rain.csv:7:6: inf"}, "write a number"},
		{"no figure", strings.Replace(sound12, "June,58", "June,", 1), []string{"row-short at rain.csv:7: June,"}, "give it"},
		{"all zero", zero, []string{"rain-all-zero at rain.csv: "}, "mean rain of each month"},
		{"both wrong", strings.Replace(sound12, "June,58", "Jubilee,-1", 1), []string{"month-missing at rain.csv: ", "month-unknown at rain.csv:7:1: Jubilee", "out-of-range at rain.csv:7:9: -1"}, ""},
		{"no return period", "minutes,mm\n60,18\n", []string{"column-missing at rain.csv:1: minutes,mm"}, "minutes,years,mm"},
		{"hours", "duration (hours),years,mm\n1,5,18\n", []string{"unit-unknown at rain.csv:1:1: duration (hours)"}, "give minutes"},
		{"storm without rain", "minutes,years,mm\n60,5,0\n", []string{"out-of-range at rain.csv:2:6: 0"}, "depth"},
		{"storm twice", "minutes,years,mm\n60,5,18\n60,5,19\n", []string{"duration-twice at rain.csv:3: 60,5,19"}, "keep one"},
		{"storm out of range", "minutes,years,mm\n0,5,18\n60,0,18\n60,5,5000\n", []string{"out-of-range at rain.csv:2:1: 0", "out-of-range at rain.csv:3:4: 0", "out-of-range at rain.csv:4:6: 5000"}, "figure and its unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": sound, "rain.csv": c.text})
			assert.Equal(t, c.want, short(fs))
			assert.Contains(t, fs[0].Want, c.advice)
			assert.NotEmpty(t, fs[0].Want)
		})
	}
}

// days is a daily record of so many days from 1 January 2021; mm gives the
// rain of a day, negative for a day to leave out.
func days(count int, mm func(day time.Time) float64) string {
	var b strings.Builder
	b.WriteString("date,mm\n")
	for i := range count {
		day := time.Date(2021, 1, 1+i, 0, 0, 0, 0, time.UTC)
		if v := mm(day); v >= 0 {
			fmt.Fprintf(&b, "%s,%g\n", day.Format(time.DateOnly), v)
		}
	}
	return b.String()
}

func TestDailyRain(t *testing.T) {
	// 1 mm a day in 2021, 3 mm a day in 2022: means of 2 mm a day.
	rain := plot(t, files{"heights.csv": sound, "rain.csv": days(730, func(d time.Time) float64 { return float64(2*(d.Year()-2021) + 1) })}).Rain
	assert.InDeltaSlice(t, []float64{62, 56, 62, 60, 62, 60, 62, 62, 60, 62, 60, 62}, rain.Monthly, 1e-9)
	assert.Equal(t, 2.0, rain.Years)
	assert.Equal(t, "daily record from 2021-01-01 to 2022-12-31", rain.From)

	// Three days of June lacking: scaled up. Four of July: that July is left out.
	gaps := days(730, func(d time.Time) float64 {
		if d.Year() == 2021 && (d.Month() == 6 && d.Day() <= 3 || d.Month() == 7 && d.Day() <= 4) {
			return -1
		}
		return float64(d.Year() - 2020)
	})
	p := plot(t, files{"heights.csv": sound, "rain.csv": gaps})
	assert.InDelta(t, 45, p.Rain.Monthly[5], 1e-9, "30 and 60 mm")
	assert.InDelta(t, 62, p.Rain.Monthly[6], 1e-9, "of 2022 alone")
	assert.Equal(t, 1.0, p.Rain.Years, "the fewest of any month")
	assert.Contains(t, find(t, p.Notes, "months-left-out").Message, "because more than 3 of their days are missing: 1")

	blank := strings.Replace(days(365, func(time.Time) float64 { return 1 }), "2021-06-01,1\n", "2021-06-01,\n", 1)
	assert.InDelta(t, 30, plot(t, files{"heights.csv": sound, "rain.csv": blank}).Rain.Monthly[5], 1e-9, "a day without a reading is not a day without rain")
}

func TestDailyRainFaults(t *testing.T) {
	dry := func(time.Time) float64 { return 0 }
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"out of order", "date,mm\n2021-01-02,1\n2021-01-01,1\n", []string{"date-out-of-order at rain.csv:3:1: 2021-01-01"}},
		{"twice", "date,mm\n2021-01-02,1\n2021-01-02,1\n", []string{"date-twice at rain.csv:3:1: 2021-01-02"}},
		{"not a date", "date,mm\n01/02/2021,1\n2021-02-30,1\n", []string{"date-unknown at rain.csv:2:1: 01/02/2021", "date-unknown at rain.csv:3:1: 2021-02-30"}},
		{"negative", "date,mm\n2021-01-02,-1\n", []string{"out-of-range at rain.csv:2:12: -1"}},
		{"short", days(300, func(time.Time) float64 { return 1 }), []string{"record-too-short at rain.csv: "}},
		{"dry", days(365, dry), []string{"rain-all-zero at rain.csv: "}},
	} {
		fs := faults(t, files{"heights.csv": sound, "rain.csv": c.text})
		assert.Equal(t, c.want, short(fs), c.name)
		require.NotEmpty(t, fs[0].Want)
	}
}
