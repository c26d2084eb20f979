package takeoff_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting/takeoff"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ptr(v float64) *float64 { return &v }

// bed is a bed of 3.6 by 1.2 m under a slope of 12 %: 0.6134 m3 of compost,
// six pegs.
func bed(name string) takeoff.BedInput {
	return takeoff.BedInput{
		Name: name, Length: 3.6, Width: 1.2,
		Volume:      geodata.Estimate{Value: 0.6134, Low: 0.58, High: 0.65},
		BoardUphill: 175, BoardDownhill: 175, Thickness: 25,
		Pegs: 6, PegLength: 365, PegSize: 50, FallGradient: 0.12,
	}
}

// Worked by hand with a barrow of 15 kg (a default of ours), 45 litres to a load, 1.15
// times the laid volume to order and 25 to 50 mm of top-up a year (common practice, no
// source), and compost of 600 kg/m3, 500 to 900 (Agnew & Leonard 2003; Oregon State
// University Extension).
func TestCountOneBed(t *testing.T) {
	list, said, err := takeoff.Count([]takeoff.BedInput{bed("Bed 1")}, geodata.Site{})
	require.NoError(t, err)
	// worked by hand: 0.6134 x 1.15; 0.6134 / 0.045 rounded up; 0.6134 x 600
	assert.InDelta(t, 0.7054, list.CompostOrder.Value, 5e-5)
	assert.Equal(t, 14.0, list.Loads.Value)
	assert.InDelta(t, 368, list.Mass.Value, 0.1)
	assert.InDelta(t, 0.58*500, list.Mass.Low, 1e-9)
	assert.InDelta(t, 0.65*900, list.Mass.High, 1e-9)
	assert.Equal(t, 24, list.Screws, "two for each of six pegs, three for each of four corners")
	assert.Equal(t, []takeoff.PegLine{{Length: 365, Size: 50, Count: 6, Stake: 2400, FromStake: 6, Stakes: 1}}, list.Pegs)
	assert.Equal(t, 14, list.Cardboard, "12 sheets and one in ten more")
	// 4.32 m2 under 37.5 mm: 0.810 m3 in five years
	assert.InDelta(t, 0.810, 5*list.YearlyTopUp.Value, 1e-9)
	require.NotNil(t, list.Push)
	// 42 kg on a lawn, 37.5 kg on a firm path and 55.5 kg on wet, soft ground at 12 %:
	// 42 x 9.81 x (0.11915 + 0.10 x 0.99288) = 90.00
	assert.InDelta(t, 90.00, list.Push.Value, 0.005)
	assert.InDelta(t, 51.13, list.Push.Low, 0.01)
	assert.InDelta(t, 145.95, list.Push.High, 0.01)
	assert.InDelta(t, 4.32*0.025, list.YearlyTopUp.Low, 1e-9)
	assert.InDelta(t, 4.32*0.050, list.YearlyTopUp.High, 1e-9)
	assert.Contains(t, strings.Join(said, "\n"), "sheets of 0.8 by 1.2 m, lapped 150 mm and 150 mm past the bed")
	assert.Nil(t, list.Cost)
	for _, e := range []geodata.Estimate{list.Compost, list.CompostOrder, list.Loads, list.Mass, list.YearlyTopUp, *list.Push} {
		assert.True(t, e.Low < e.Value && e.Value < e.High, "%v", e)
	}
	require.Len(t, list.Boards, 1)
	line := list.Boards[0]
	// two sides of 3600 and two ends of 1150: three boards of 3.6 m against two of 4.8 m
	// and a rest that does not hold both; 2 x 4.8 < 3 x 3.6
	assert.Equal(t, 4800.0, line.Length)
	assert.Equal(t, 2, line.Count)
	assert.True(t, line.Proved)
	assert.Contains(t, strings.Join(said, "\n"), "of the lengths on sale, 2 of 4.8 m is the least board found, 9.6 m in all")
}

func TestCountChoosesTheLeastBoard(t *testing.T) {
	beds := []takeoff.BedInput{bed("Bed 1"), bed("Bed 2"), bed("Bed 3")}
	site := geodata.Site{Boards: geodata.BoardOffer{Lengths: []float64{4.8, 3.6}, Kerf: ptr(3)}}
	list, _, err := takeoff.Count(beds, site)
	require.NoError(t, err)
	require.Len(t, list.Boards, 1)
	// 8 of 3.6 m and 6 of 4.8 m both make 28.8 m: the fewer boards are taken
	assert.Equal(t, 4800.0, list.Boards[0].Length)
	assert.Equal(t, 6, list.Boards[0].Count)

	site.Boards.Lengths = []float64{3.6}
	list, said, err := takeoff.Count(beds, site)
	require.NoError(t, err)
	assert.Equal(t, 8, list.Boards[0].Count, "ends of 1150 between the sides, kerf 3")
	assert.NotContains(t, strings.Join(said, "\n"), "of the lengths on sale", "with one length there is nothing to choose")
	var names []string
	for _, c := range list.Boards[0].Cuts {
		for _, p := range c.Pieces {
			names = append(names, p.For)
		}
	}
	assert.Len(t, names, 12)
	assert.Contains(t, names, "Bed 2, left end")
}

func TestCountCourses(t *testing.T) {
	b := bed("Bed 1")
	b.BoardDownhill = 300 // two of 150, the highest on sale being 225
	list, _, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	// Of 150 mm: two courses of the downhill side whole out of 3.6 m, and the four
	// ends of 1150 out of 4.8 m.
	require.Len(t, list.Boards, 3)
	assert.Equal(t, []float64{175, 150, 150}, []float64{list.Boards[0].Height, list.Boards[1].Height, list.Boards[2].Height})
	assert.Equal(t, []float64{3600, 4800, 3600}, []float64{list.Boards[0].Length, list.Boards[1].Length, list.Boards[2].Length})
	pieces := 0
	for _, line := range list.Boards[1:] {
		for _, c := range line.Cuts {
			pieces += len(c.Pieces)
		}
	}
	assert.Equal(t, 6, pieces, "downhill side and both ends in two courses")
	// two screws for each of 6 pegs and 2 courses, three for each corner: 2 of one course, 2 of two
	assert.Equal(t, 24+6+12, list.Screws)

	b.BoardDownhill = 6 * 225
	_, _, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	b.BoardDownhill++
	_, _, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	assert.ErrorIs(t, err, takeoff.ErrTooHigh)
}

func TestCountStepsAndCrossBoards(t *testing.T) {
	b := bed("Bed 1")
	b.CrossBoards, b.BaysAcross, b.BaysAlong = 3, 2, 3
	list, _, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	lengths := map[string]float64{}
	for _, line := range list.Boards {
		for _, c := range line.Cuts {
			for _, p := range c.Pieces {
				lengths[p.For] = p.Length
			}
		}
	}
	assert.Equal(t, map[string]float64{
		"Bed 1, uphill side": 3600, "Bed 1, downhill side": 3600, "Bed 1, left end": 1150, "Bed 1, right end": 1150,
		"Bed 1, step along the bed 1": 3550, "Bed 1, cross board 2": 1150, "Bed 1, cross board 3": 1150,
	}, lengths)
	assert.Equal(t, 24+6, list.Screws)
}

func TestCountOpenEdgedBed(t *testing.T) {
	b := bed("Bed 1")
	b.BoardUphill, b.BoardDownhill, b.Thickness, b.Pegs = 0, 0, 0, 0
	list, said, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	assert.Empty(t, list.Boards)
	assert.Empty(t, list.Pegs)
	assert.Zero(t, list.Screws)
	assert.InDelta(t, 0.6134, list.Compost.Value, 1e-9)
	assert.NotContains(t, strings.Join(said, "\n"), "boards on sale", "nothing is said of boards")
}

func TestCountNoBeds(t *testing.T) {
	list, said, err := takeoff.Count(nil, geodata.Site{})
	require.NoError(t, err)
	assert.Empty(t, said)
	text, err := json.Marshal(list)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"boards":[],"pegs":[],"screws":0`)
	assert.Nil(t, list.Push)
	assert.Zero(t, list.Compost.High)

	list, _, err = takeoff.Count(nil, geodata.Site{Compost: geodata.CompostOffer{PricePerM3: ptr(50)}})
	require.NoError(t, err)
	require.NotNil(t, list.Cost)
	assert.Zero(t, list.Cost.Total)
}

func TestCountRefuses(t *testing.T) {
	long := bed("Bed 1")
	long.Length = 4.9
	wrong := bed("Bed 2")
	wrong.Width = math.NaN()
	metres := bed("Bed 3")
	metres.Length = 3600
	thick := bed("Bed 4")
	thick.Thickness = 0
	cases := []struct {
		name string
		beds []takeoff.BedInput
		want error
		says []string
	}{
		{"too long", []takeoff.BedInput{long}, takeoff.ErrTooLong, []string{"Bed 1, uphill side", "no board on sale is long enough"}},
		{"nonsense", []takeoff.BedInput{wrong, metres, thick}, takeoff.ErrBed, []string{"Bed 2", "Bed 3", "Bed 4", "board thickness"}},
	}
	for _, c := range cases {
		list, _, err := takeoff.Count(c.beds, geodata.Site{})
		require.ErrorIs(t, err, c.want, c.name)
		for _, s := range c.says {
			assert.ErrorContains(t, err, s, c.name)
		}
		assert.Empty(t, list.Boards, c.name)
	}
}

func TestCountCost(t *testing.T) {
	site := geodata.Site{
		Boards:  geodata.BoardOffer{Lengths: []float64{3.6}, PricePerM: ptr(2.5)},
		Compost: geodata.CompostOffer{PricePerM3: ptr(60), Currency: "GBP"},
	}
	list, _, err := takeoff.Count([]takeoff.BedInput{bed("Bed 1")}, site)
	require.NoError(t, err)
	require.NotNil(t, list.Cost)
	// 0.6134 x 1.15 x 60; three boards of 3.6 m at 2.5
	assert.InDelta(t, 42.3246+27, list.Cost.Total, 1e-6)
	assert.Equal(t, []string{"pegs", "screws", "cardboard"}, list.Cost.Missing)
	assert.Equal(t, "GBP", list.Cost.Currency)

	site.Compost.Currency = ""
	_, said, err := takeoff.Count([]takeoff.BedInput{bed("Bed 1")}, site)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(said, "\n"), "no currency")
}

func TestCountGathersPegsOfOneLength(t *testing.T) {
	a, b, c := bed("Bed 1"), bed("Bed 2"), bed("Bed 3")
	b.PegLength, b.Pegs = 320, 10
	list, _, err := takeoff.Count([]takeoff.BedInput{a, b, c}, geodata.Site{})
	require.NoError(t, err)
	assert.Equal(t, []takeoff.PegLine{
		{Length: 320, Size: 50, Count: 10, Stake: 2400, FromStake: 7, Stakes: 2},
		{Length: 365, Size: 50, Count: 12, Stake: 2400, FromStake: 6, Stakes: 2},
	}, list.Pegs)
}

func TestCountWarnsOfAHeavyPush(t *testing.T) {
	b := bed("Bed 1")
	_, said, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(said, "\n"), "guideline for keeping a load moving is 100 newtons for men and 70 newtons for women")
	b.FallGradient = 0.30
	_, said, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{Carrying: geodata.Carrying{Barrow: ptr(18)}})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(said, "\n"), "no useful load")
	b.FallGradient = 0
	_, said, err = takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(said, "\n"), "guideline")
}

// Push of 60 kg against a rolling resistance of 0.10, worked by hand; 400 kg
// up 1 in 12 needs over 30 kgf for the slope alone (Health and Safety Executive,
// guidance on pushing and pulling).
func TestPush(t *testing.T) {
	for gradient, want := range map[float64]float64{0: 58.9, 0.05: 88.2, 0.10: 117.1, 0.15: 145.5, 0.20: 173.2, 0.25: 199.9} {
		assert.InDelta(t, want, takeoff.Push(60, gradient, 0.10), 0.06, "gradient %g", gradient)
	}
	assert.InDelta(t, 33.2, takeoff.Push(400, 1.0/12, 0)/9.81, 0.05)
	assert.InDelta(t, 41.2, takeoff.Push(400, 1.0/12, 0.02)/9.81, 0.05)
}

// 100 and 70 N (Health and Safety Executive, INDG143) over 9.81 (sin a + 0.10 cos a),
// worked by hand: at 10 % 9.81 x (0.09950 + 0.09950) = 1.9523, so 51.2 and 35.9 kg.
func TestLargestMass(t *testing.T) {
	for gradient, want := range map[float64][2]float64{
		0: {101.9, 71.4}, 0.05: {68.0, 47.6}, 0.10: {51.2, 35.9}, 0.15: {41.2, 28.9}, 0.20: {34.7, 24.3}, 0.25: {30.0, 21.0},
	} {
		assert.InDelta(t, want[0], takeoff.LargestMass(100, gradient, 0.10), 0.06, "gradient %g", gradient)
		assert.InDelta(t, want[1], takeoff.LargestMass(70, gradient, 0.10), 0.06, "gradient %g", gradient)
	}
}

// Worked by hand: 0.6134 / 0.045 = 13.6, 0.648 / 0.045 = 14.4, 0.675 / 0.045 = 15.
func TestLoads(t *testing.T) {
	assert.Equal(t, 14.0, takeoff.Loads(0.6134, 45))
	assert.Equal(t, 15.0, takeoff.Loads(0.648, 45))
	assert.Equal(t, 15.0, takeoff.Loads(0.675, 45), "a whole number of loads is not rounded up")
	assert.Equal(t, 18.0, takeoff.Loads(0.810, 45))
	assert.Zero(t, takeoff.Loads(0, 45))
}

// Rows and columns of sheets, worked by hand both ways round.
func TestSheets(t *testing.T) {
	cases := []struct {
		width, length, overhang, p, q, lap float64
		want                               int
	}{
		{1.2, 3.6, 0.15, 0.8, 1.2, 0.15, 12},
		{1.2, 3.6, 0.10, 1.0, 1.5, 0.10, 5},
		{1.2, 2.4, 0.15, 0.6, 0.9, 0.15, 12},
		{0.3, 0.5, 0.10, 1.0, 1.5, 0.10, 1},
		{1.2, 3.6, 0.15, 0.1, 1.2, 0.15, 0}, // narrower than the lap
	}
	for _, c := range cases {
		assert.Equal(t, c.want, takeoff.Sheets(c.width, c.length, c.overhang, c.p, c.q, c.lap), "%v", c)
	}
}

func TestPegs(t *testing.T) {
	// 180 mm deep, a 150 mm board sunk 40 mm
	assert.Equal(t, 8, takeoff.PegsFrom(2400, 265, 3), "nine would take 2409 mm")
	assert.Equal(t, 9, takeoff.PegsFrom(2409, 265, 3))
	assert.Equal(t, 0, takeoff.PegsFrom(200, 265, 3))
}

func ExampleCount() {
	bed := takeoff.BedInput{
		Name: "Bed 1", Length: 3.6, Width: 1.2, Volume: geodata.Estimate{Value: 0.6134, Low: 0.58, High: 0.65},
		BoardUphill: 175, BoardDownhill: 300, Thickness: 25, Pegs: 6, PegLength: 365, PegSize: 50, FallGradient: 0.12,
	}
	list, _, err := takeoff.Count([]takeoff.BedInput{bed}, geodata.Site{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f cubic metres to order, %.0f loads\n", list.CompostOrder.Value, list.Loads.Value)
	for _, b := range list.Boards {
		fmt.Printf("%d of %.0f x %.0f mm, %.1f m long\n", b.Count, b.Height, b.Thickness, b.Length/1000)
	}
	// Output:
	// 0.71 cubic metres to order, 14 loads
	// 1 of 175 x 25 mm, 3.6 m long
	// 1 of 150 x 25 mm, 4.8 m long
	// 2 of 150 x 25 mm, 3.6 m long
}

// The boards that a frame was reckoned with are those that are bought.
func TestCountBuildsTheCoursesGiven(t *testing.T) {
	b := bed("Bed 1")
	b.BoardDownhill, b.CoursesDownhill = 375, []float64{225, 150}
	list, _, err := takeoff.Count([]takeoff.BedInput{b}, geodata.Site{})
	require.NoError(t, err)
	heights := map[float64]bool{}
	for _, l := range list.Boards {
		heights[l.Height] = true
	}
	assert.True(t, heights[225] && heights[150])
	assert.False(t, heights[200])
}
