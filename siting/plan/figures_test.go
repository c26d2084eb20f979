package plan_test

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
	"crossfall/siting/sitingtest"
	"crossfall/siting/takeoff"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// drawn is a figure as SVG elements, which must be well formed.
func drawn(t *testing.T, f plan.Figure) []element {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, f.SVG(&b, "figure"))
	assert.NotContains(t, b.String(), "NaN")
	assert.NotContains(t, b.String(), ">-0")
	return parse(t, b.String())
}

func size(t *testing.T, e element) (wide, tall float64) {
	b := orb.MultiPoint(coordinates(t, e)).Bound()
	return b.Right() - b.Left(), b.Top() - b.Bottom()
}

func TestCutsAreTrueToScale(t *testing.T) {
	line := takeoff.BoardLine{Height: 150, Thickness: 38, Length: 4800, Waste: 1200, Cuts: []takeoff.Cut{
		{Pieces: []takeoff.Piece{{For: "bed 1, uphill side", Length: 3600}, {For: "bed 1, left end", Length: 1200}}},
		{Pieces: []takeoff.Piece{{For: "bed 1, downhill side", Length: 3600}}, Waste: 1200},
	}}
	f, err := plan.CutFigure(line, plan.Options{})
	require.NoError(t, err)
	assert.Equal(t, "How 2 boards of 150 mm by 38 mm, 4.80 m long are cut", f.Title)
	assert.Equal(t, "1.20 m left over in all.", f.Description)
	es := drawn(t, f)
	head := ""
	for _, e := range es {
		if strings.Contains(e.text, "lengths 1:") {
			head = e.text
		}
	}
	ratio, err := strconv.ParseFloat(regexp.MustCompile(`1:(\d+)`).FindStringSubmatch(head)[1], 64)
	require.NoError(t, err)
	pieces := classed(es, "piece")
	require.Len(t, pieces, 3)
	for i, want := range []float64{3600, 1200, 3600} {
		wide, _ := size(t, pieces[i])
		assert.InDelta(t, want, wide*ratio, .011*ratio)
	}
	wide, _ := size(t, classed(es, "waste")[0])
	assert.InDelta(t, 1200, wide*ratio, .011*ratio)
	_, err = plan.CutFigure(takeoff.BoardLine{}, plan.Options{})
	assert.ErrorIs(t, err, plan.ErrNoCuts)
}

// Bars are as long to each other as their figures.
func TestMonthsOfRain(t *testing.T) {
	a := &siting.Assessment{}
	assert.Empty(t, plan.RainFigures(a, plan.Options{}))
	a.Water.Months = []float64{120, 80, 80, 60, 60, 60, 60, 70, 80, 100, 110, 120}
	a.Water.WinterMonths = "October to March"
	for units, want := range map[geodata.Units]string{"": "120 mm", "ft": "4.7 in"} {
		fs := plan.RainFigures(a, plan.Options{Units: units})
		require.Len(t, fs, 1)
		assert.Contains(t, fs[0].Description, want)
		bars := classed(drawn(t, fs[0]), "bar")
		require.Len(t, bars, 12)
		_, january := size(t, bars[0])
		_, june := size(t, bars[5])
		assert.InDelta(t, 2, january/june, .01)
		assert.NotEqual(t, bars[5].attr["fill"], bars[0].attr["fill"], "the wet half is told apart")
	}
}

func TestGreatestDaysByHowSeldomTheyAreMet(t *testing.T) {
	a := &siting.Assessment{}
	level := func(years, v, low, high float64) siting.DayLevel {
		return siting.DayLevel{ReturnYears: years, Depth: geodata.Estimate{Value: v, Low: low, High: high}}
	}
	a.Water.Days = &siting.RainDays{
		Winters:  []siting.DayLevel{level(2, 30, 27, 33), level(10, 44, 38, 52), level(30, 54, 44, 70), level(100, 66, 50, 95)},
		Greatest: []float64{21, 25, 26, 28, 29, 31, 33, 36, 41, 52},
	}
	fs := plan.RainFigures(a, plan.Options{})
	require.Len(t, fs, 1)
	assert.Equal(t, "The greatest day of a winter, by how seldom it is met. Met once in 100 winters: 66 mm (50 to 95).", fs[0].Title)
	es := drawn(t, fs[0])
	curve := coordinates(t, classed(es, "return-level")[0])
	require.Len(t, curve, 4)
	assert.InDelta(t, (curve[1][0]-curve[0][0])/(curve[3][0]-curve[2][0]), 1.6094/1.2040, .005, "2 to 10 and 30 to 100 as ln 5 to ln 3.33")
	assert.Greater(t, curve[0][1], curve[3][1], "deeper is higher up")
	assert.NotEmpty(t, classed(es, "dot"))
}

func TestSunBarsAreAsLongAsTheirHours(t *testing.T) {
	a := sitingtest.Sloping()
	hours := func(v float64) geodata.Estimate { return geodata.Estimate{Value: v, Low: v - .5, High: v + .5} }
	a.Beds = a.Beds[:1]
	a.Beds[0].Light = &siting.BedLight{Days: []siting.SunHours{{Date: "21 March", Hours: hours(8), DayLength: 12}, {Date: "21 December", Hours: hours(2), DayLength: 7.5}}}
	f, err := plan.SunFigure(a)
	require.NoError(t, err)
	assert.Contains(t, f.Description, "8.0 hours on 21 March, 2.0 hours on 21 December")
	bars := classed(drawn(t, f), "bar")
	require.Len(t, bars, 2)
	march, _ := size(t, bars[0])
	december, _ := size(t, bars[1])
	assert.InDelta(t, 4, march/december, .01)
	_, err = plan.SunFigure(&siting.Assessment{})
	assert.ErrorIs(t, err, plan.ErrNoSun)
}

// Where the heights do not tell, no slope and no arrow is drawn.
func TestFallThatCannotBeTold(t *testing.T) {
	a := sitingtest.Sloping()
	f, err := plan.FallFigure(a)
	require.NoError(t, err)
	assert.Contains(t, f.Title, a.Ground.FallSaid)
	es := drawn(t, f)
	assert.Len(t, classed(es, "fall"), 1)
	assert.Len(t, classed(es, "runoff"), 1)
	a.Ground.Determined, a.Ground.RunoffBearing = false, siting.Interval{Reason: "too flat"}
	f, err = plan.FallFigure(a)
	require.NoError(t, err)
	es = drawn(t, f)
	assert.Empty(t, classed(es, "fall"))
	assert.Empty(t, classed(es, "runoff"))
	_, err = plan.FallFigure(&siting.Assessment{})
	assert.ErrorIs(t, err, plan.ErrNoFall)
}

func TestKeyPlanKeepsToItsRoom(t *testing.T) {
	for _, room := range []float64{75, 120, 250} {
		f, err := plan.KeyFigure(sitingtest.Sloping(), plan.Options{}, room)
		require.NoError(t, err)
		assert.LessOrEqual(t, f.Height, room, fmt.Sprint(room))
		assert.NotEmpty(t, classed(drawn(t, f), "bed"))
	}
}

func ExampleFigure() {
	f, err := plan.CutFigure(takeoff.BoardLine{Height: 150, Thickness: 38, Length: 3600, Cuts: []takeoff.Cut{{Pieces: []takeoff.Piece{{For: "bed 1", Length: 3600}}}}}, plan.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	var svg, pdf, png bytes.Buffer
	fmt.Println(f.SVG(&svg, "cuts"), f.PDF(&pdf), f.PNG(&png, 150))
	fmt.Println(f.Title)
	// Output:
	// <nil> <nil> <nil>
	// How 1 board of 150 mm by 38 mm, 3.60 m long is cut
}
