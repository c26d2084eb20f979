package levelbook_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const tieHeader = "point,method,from,to,a,b,side,tape,rise,angle,eye,target,count,order,note\n"

var marks = []levelbook.Mark{
	{Name: "Shed"}, {Name: "gate", At: orb.Point{10, 0}}, {Name: "post", At: orb.Point{0, 20}},
}

// solved reads and solves rows that must have no problems.
func solved(t *testing.T, rows string, levels ...levelbook.StationLevel) (levelbook.Solution, geodata.Faults) {
	t.Helper()
	ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+rows), "ties.csv", 0)
	require.Zero(t, faults.Problems(), "%v", faults)
	sol, more := ties.Solve(marks, levels, levelbook.TieOptions{})
	require.Zero(t, more.Problems(), "%v", more)
	return sol, append(faults, more...)
}

func where(t *testing.T, sol levelbook.Solution, name string) orb.Point {
	t.Helper()
	for _, p := range sol.Places {
		if p.Station == name {
			return p.Where
		}
	}
	require.Fail(t, "not placed", name)
	return orb.Point{}
}

func result(t *testing.T, sol levelbook.Solution, name string) levelbook.TieResult {
	t.Helper()
	for _, r := range sol.Results {
		if r.Station == name {
			return r
		}
	}
	require.Fail(t, "no result", name)
	return levelbook.TieResult{}
}

// The example of the documentation of ReadTies, whole: every method at once.
// Expected places and heights are worked by hand.
func TestEveryMethod(t *testing.T) {
	const rows = `P1, tie, shed, , 8.00, , left, , , , , , , , two tapes: the side
P1, tie, gate, , 6.00, , , slope, 0.70, , , , , , looking from shed to gate
P2, offset, shed, gate, 12.5, -3.10, , , , , , , , , left positive
P3, offset, shed, gate, 25, 5, right, , , , , , , , or left and right in words
P4, bearing, shed, , 35.5, 24.6, , slope, , 7, , , , , bearing and distance
, pace, , , 75, , , , , , , , 100, , 100 paces are 75 m
P5, bearing, shed, , 120, 31, , paces, , , , , , , 31 paces
T1, traverse, gate, , 20, 14.2, , , , , , , , , each leg from the last point
T2, traverse, T1, , 140, 16.0, , , , , , , , ,
gate, traverse, T2, , 265.3, 15.1, , , , , , , , , closes on a mark
G, grid, shed, gate, 3, 4, left, , , , , , , serpentine 5x4, stations G1 to G20
P1, water tube, BM1, , 1.482, 1.207, , , , , , , , , readings at from and point
P2, line level, P1, , 1.400, 1.050, , , , , , , , , heights of the string
P3, a-frame, P2, , 0.035, , , , , , , , 1, , block under the foot at from
P4, clinometer, P1, , 18.2, 35.5, , , , 4.5, 1.6, 1.6, , , b: bearing or nothing
`
	sol, faults := solved(t, rows)
	assert.Contains(t, codes(faults), "level-assumed")

	b := math.Sqrt(36 - 0.49) // the slope tape in plan
	x := (64 - b*b + 100) / 20
	p := where(t, sol, "P1")
	near(t, []float64{x, math.Sqrt(64 - x*x)}, p[:], 1e-9)
	p = where(t, sol, "P2")
	near(t, []float64{12.5, -3.1}, p[:], 1e-9)
	p = where(t, sol, "P3")
	near(t, []float64{25, -5}, p[:], 1e-9)
	d := 24.6 * math.Cos(radians(7))
	p = where(t, sol, "P4")
	near(t, []float64{d * math.Sin(radians(35.5)), d * math.Cos(radians(35.5))}, p[:], 1e-9)
	p = where(t, sol, "P5")
	near(t, []float64{23.25 * math.Sin(radians(120)), 23.25 * math.Cos(radians(120))}, p[:], 1e-9)
	p = where(t, sol, "G1")
	near(t, []float64{0, 0}, p[:], 1e-9)
	p = where(t, sol, "G6") // the second line begins at its far end
	near(t, []float64{12, 4}, p[:], 1e-9)
	p = where(t, sol, "G20")
	near(t, []float64{0, 12}, p[:], 1e-9)

	var closing levelbook.TieResult
	for _, r := range sol.Results {
		if r.Closing != nil {
			closing = r
		}
	}
	require.NotNil(t, closing.Closing)
	assert.InDelta(t, 45.3, closing.Closing.Perimeter, 1e-9)
	assert.True(t, closing.Closing.Spread)

	heights := map[string]float64{}
	for _, l := range sol.Levels {
		heights[l.Station] = l.Level
	}
	assert.InDelta(t, 10, heights["BM1"], 1e-9)
	assert.InDelta(t, 10.275, heights["P1"], 1e-9)
	assert.InDelta(t, 10.625, heights["P2"], 1e-9)
	assert.InDelta(t, 10.660, heights["P3"], 1e-9)
	assert.InDelta(t, 10.275+18.2*math.Sin(radians(4.5)), heights["P4"], 1e-9)

	spots, told := levelbook.Heights(nil, sol)
	assert.Contains(t, codes(told), "place-without-level")
	assert.Contains(t, codes(told), "level-without-place") // BM1
	require.Len(t, spots, 4)
	assert.Equal(t, "ties.csv", spots[0].Source.File)

	_, err := json.Marshal(sol)
	assert.NoError(t, err)
}

// A third tape needs no side, and its disagreement shows as residuals.
func TestThreeTapes(t *testing.T) {
	sol, faults := solved(t, "P,tie,shed,,5,\nP,tie,gate,,8.0623,\nP,tie,post,,16.2788,\n")
	p := where(t, sol, "P")
	near(t, []float64{3, 4}, p[:], 2e-3)
	r := result(t, sol, "P")
	require.Len(t, r.Residuals, 3)
	assert.True(t, r.WithinLimit)
	assert.NotContains(t, codes(faults), "tie-residual")

	sol, faults = solved(t, "P,tie,shed,,5,\nP,tie,gate,,8.0623,\nP,tie,post,,16.9,\n")
	assert.False(t, result(t, sol, "P").WithinLimit)
	assert.Contains(t, codes(faults), "tie-residual")
	assert.Greater(t, result(t, sol, "P").Sigma, r.Sigma)
}

func TestTrilaterateRefuses(t *testing.T) {
	a, b := levelbook.Tape{Length: 8}, levelbook.Tape{From: orb.Point{10, 0}, Length: 6}
	with := func(la, lb float64) []levelbook.Tape {
		x, y := a, b
		x.Length, y.Length = la, lb
		return []levelbook.Tape{x, y}
	}
	inLine := []levelbook.Tape{{Length: 5}, {From: orb.Point{6, 0}, Length: 5}, {From: orb.Point{3, 0}, Length: 4}}
	// The first two marks are 6 mm apart, and so the third nearly in line with them
	// across the place: 0.5 m east of all fits as well as 0.5 m west.
	var together []levelbook.Tape
	for _, m := range []orb.Point{{0.002, 0}, {0.008, -1e-9}, {0.002, 2}} {
		together = append(together, levelbook.Tape{From: m, Length: math.Hypot(0.531-m[0], m[1])})
	}
	for _, c := range []struct {
		name  string
		tapes []levelbook.Tape
		side  levelbook.Side
		code  string
	}{
		{"none", nil, levelbook.LeftSide, "tie-few"},
		{"one", with(1, 1)[:1], levelbook.LeftSide, "tie-few"},
		{"no side", with(8, 6), levelbook.SideUnknown, "tie-side"},
		{"together", []levelbook.Tape{a, a}, levelbook.LeftSide, "tie-marks-together"},
		{"three together", []levelbook.Tape{a, a, a}, levelbook.LeftSide, "tie-marks-together"},
		{"too short", with(3, 3), levelbook.LeftSide, "tie-too-short"},
		{"too long", with(30, 3), levelbook.LeftSide, "tie-too-long"},
		{"flat", with(5.1, 5.1), levelbook.LeftSide, "tie-angle"},
		{"sharp", with(30, 30), levelbook.LeftSide, "tie-angle"},
		{"nothing", with(0, 3), levelbook.LeftSide, "tie-length"},
		{"not a number", with(math.NaN(), 3), levelbook.LeftSide, "tie-length"},
		{"three in line", inLine, levelbook.SideUnknown, "tie-side"},
		{"two places, both in line with the first two marks", together, levelbook.LeftSide, "tie-side"},
		{"the same, the other side named", together, levelbook.RightSide, "tie-side"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := levelbook.Trilaterate(c.tapes, c.side)
			var e *levelbook.TieError
			require.ErrorAs(t, err, &e)
			assert.Equal(t, c.code, e.Code)
		})
	}
	tie, err := levelbook.Trilaterate(inLine, levelbook.RightSide)
	require.NoError(t, err)
	near(t, []float64{3, -4}, tie.At[:], 1e-6)
}

// 6.00 and 3.99 m over 10 m: a²-x² is -0.048, no less than two standard
// deviations of 10 mm times 6 m allow.
func TestTapesThatJustMiss(t *testing.T) {
	tie, err := levelbook.Trilaterate([]levelbook.Tape{{Length: 6, Sigma: 0.01}, {From: orb.Point{10, 0}, Length: 3.99, Sigma: 0.01}}, levelbook.LeftSide)
	require.NoError(t, err)
	assert.True(t, tie.OnLine)
	assert.InDelta(t, (36-3.99*3.99+100)/20, tie.At[0], 1e-12)
	assert.Zero(t, tie.At[1])
	assert.InDelta(t, math.Sqrt(0.12), tie.SigmaY, 1e-12)
	sol, faults := solved(t, "P,tie,shed,,6,,left\nP,tie,gate,,3.99,\n")
	assert.True(t, result(t, sol, "P").OnLine)
	assert.Contains(t, codes(faults), "tie-on-line")
}

// Every malformed row is a fault at its place.
func TestBadTies(t *testing.T) {
	for _, c := range []struct {
		name, row, code string
		col             int
		severity        geodata.Severity
	}{
		{"method", "P,guess,shed,,8", "method-unknown", 3, geodata.Problem},
		{"no mark", "P,tie,,,8", "cell-missing", 7, geodata.Problem},
		{"no length", "P,tie,shed,,,,left", "cell-missing", 13, geodata.Problem},
		{"no base end", "P,offset,shed,,8,1", "cell-missing", 15, geodata.Problem},
		{"not used", "P,tie,shed,,8,3,left\nP,tie,gate,,6", "cell-not-used", 15, geodata.Warning},
		{"no number", "P,tie,shed,,eight", "not-a-number", 13, geodata.Problem},
		{"negative", "P,tie,shed,,-8", "distance-not-positive", 13, geodata.Problem},
		{"bearing", "P,bearing,shed,,-5,8", "not-an-angle", 17, geodata.Problem},
		{"bearing too large", "P,bearing,shed,,361,8", "not-an-angle", 17, geodata.Problem},
		{"angle", "P,clinometer,shed,,8,,,,,steep", "not-an-angle", 26, geodata.Problem},
		{"no angle", "P,clinometer,shed,,8", "cell-missing", 0, geodata.Problem},
		{"eye without target", "P,clinometer,shed,,8,,,,,5,1.6", "eye-and-target", 28, geodata.Problem},
		{"side", "P,tie,shed,,8,,up", "side-unknown", 16, geodata.Problem},
		{"side twice", "P,offset,shed,gate,8,-1,left", "side-twice", 22, geodata.Problem},
		{"tape", "P,tie,shed,,8,,left,elastic", "tape-unknown", 21, geodata.Problem},
		{"count", "P,a-frame,shed,,0.1,,,,,,,,1.5", "not-a-count", 28, geodata.Problem},
		{"no block", "P,a-frame,shed,,,,,,,,,,2", "cell-missing", 17, geodata.Problem},
		{"order", "G,grid,shed,gate,1,1,left,,,,,,,spiral 3x3", "order-unknown", 33, geodata.Problem},
		{"order without size", "G,grid,shed,gate,1,1,left,,,,,,,raster", "order-unknown", 33, geodata.Problem},
		{"order too large", "G,grid,shed,gate,1,1,left,,,,,,,raster 9999x9999", "too-many-heights", 33, geodata.Problem},
		{"itself", "P,tie,p,,8,,left", "from-is-point", 7, geodata.Problem},
		{"far away", "P,tie,shed,,8e9,,left", "figure-out-of-range", 13, geodata.Problem},
		{"unknown mark", "P,tie,shed,,8,,left\nP,tie,barn,,6", "station-unknown", 0, geodata.Problem},
		{"one tape", "P,tie,shed,,8,,left", "tie-few", 0, geodata.Problem},
		{"no rise", "P,bearing,shed,,5,8,,slope", "slope-without-rise", 0, geodata.Problem},
		{"too steep", "P,bearing,shed,,5,8,,slope,9", "slope-too-steep", 0, geodata.Problem},
		{"no pace", "P,bearing,shed,,5,8,,paces", "pace-not-calibrated", 0, geodata.Problem},
		{"pace", ",pace,,,75,,,,,,,,10", "pace-impossible", 0, geodata.Problem},
		{"steep sight", "P,clinometer,shed,,8,,,,,70", "sight-out-of-range", 0, geodata.Problem},
		{"long offset", "P,offset,shed,gate,8,16", "offset-long", 0, geodata.Warning},
		{"open traverse", "P,traverse,shed,,8,16", "traverse-open", 0, geodata.Warning},
		{"sides", "P,tie,shed,,8,,left\nP,tie,gate,,6,,right", "sides-differ", 0, geodata.Problem},
		{"base", "P,offset,shed,Shed,8,1", "base-too-short", 0, geodata.Problem},
		{"more cells", "P,tie,shed,,8,,left,,,,,,,,x,y", "too-many-cells", 30, geodata.Problem},
		{"second place", "P,offset,shed,gate,5,1\nP,offset,shed,gate,5,2", "place-disagrees", 0, geodata.Warning},
		{"second level", "P,water tube,Q,,1,1.2\nP,line level,Q,,1,1.5", "height-disagrees", 0, geodata.Warning},
	} {
		t.Run(c.name, func(t *testing.T) {
			ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+c.row+"\n"), "ties.csv", 0)
			_, more := ties.Solve(marks, nil, levelbook.TieOptions{})
			for _, f := range append(faults, more...) {
				if f.Code == c.code {
					assert.Equal(t, c.severity, f.Severity)
					assert.Equal(t, "ties.csv", f.Pos.File)
					assert.GreaterOrEqual(t, f.Pos.Line, 2)
					assert.Equal(t, c.col, f.Pos.Col)
					return
				}
			}
			assert.Fail(t, "not found", "%v", append(faults, more...))
		})
	}
}

// A chainage at the far mark checks the base line.
func TestClosingChainage(t *testing.T) {
	sol, faults := solved(t, "gate,offset,shed,gate,10.02,0\n")
	r := result(t, sol, "gate")
	require.NotNil(t, r.Apart)
	assert.InDelta(t, 0.02, *r.Apart, 1e-9)
	assert.True(t, r.WithinLimit)
	assert.Empty(t, faults)
}

// A traverse closes on a mark: the misclosure is spread, and a leg read
// backwards is not.
func TestTraverse(t *testing.T) {
	const square = "A,traverse,shed,,90,30\nB,traverse,A,,0,30\nC,traverse,B,,270,30\nshed,traverse,C,,180,%\n"
	sol, _ := solved(t, strings.ReplaceAll(square, "%", "30.4"))
	a := where(t, sol, "A")
	// 0.4 m too far south in 120.4 m: a quarter goes north on every leg.
	near(t, []float64{30, 0.4 * 30 / 120.4}, a[:], 1e-9)
	r := result(t, sol, "Shed")
	assert.InDelta(t, 0.4, r.Closing.Linear, 1e-9)
	assert.True(t, r.Closing.Spread)

	sol, faults := solved(t, strings.ReplaceAll(square, "%", "40"))
	assert.Contains(t, codes(faults), "traverse-misclosure")
	assert.False(t, result(t, sol, "Shed").WithinLimit)
	assert.Greater(t, result(t, sol, "A").Sigma, 10.0)
	a = where(t, sol, "A")
	near(t, []float64{30, 0}, a[:], 1e-9)
}

// The sight back cancels the index error of a clinometer.
func TestClinometerBothWays(t *testing.T) {
	level := levelbook.StationLevel{Station: "shed", Level: 5}
	sol, _ := solved(t, "P,clinometer,shed,,20,,,,,5.2\nshed,clinometer,P,,20,,,,,-4.8\n", level)
	require.Len(t, sol.Levels, 1)
	assert.InDelta(t, 5+10*(math.Sin(radians(5.2))+math.Sin(radians(4.8))), sol.Levels[0].Level, 1e-9)
	require.NotNil(t, result(t, sol, "P").Index)
	assert.InDelta(t, radians(0.2), *result(t, sol, "P").Index, 1e-9)
}

// Without a rise a slope tape takes the levels of its ends.
func TestSlopeTapeByLevels(t *testing.T) {
	levels := []levelbook.StationLevel{{Station: "shed", Level: 5}, {Station: "P", Level: 8}}
	sol, _ := solved(t, "P,bearing,shed,,90,5,,slope\n", levels...)
	p := where(t, sol, "P")
	near(t, []float64{4, 0}, p[:], 1e-9)
	_, faults := solved(t, "P,bearing,shed,,90,5\n", levels...)
	assert.Contains(t, codes(faults), "tape-may-lie-on-slope")
}

// Heights go backwards along a row too, and marks give them without levels.
func TestHeightsFromMarks(t *testing.T) {
	ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+"peg,water tube,P,,1.2,1.0\n"), "ties.csv", 0)
	require.Empty(t, faults)
	sol, faults := ties.Solve([]levelbook.Mark{{Name: "peg", Height: 3, HasHeight: true}}, nil, levelbook.TieOptions{})
	require.Empty(t, faults)
	require.Len(t, sol.Levels, 1)
	assert.Equal(t, "P", sol.Levels[0].Station)
	assert.InDelta(t, 2.8, sol.Levels[0].Level, 1e-9)
	assert.False(t, sol.Assumed)
}

// A grid on a slope of 10 percent along the lines, with its second line booked
// backwards, and then with every second one.
func TestReversedGridLine(t *testing.T) {
	levels := func(turned ...int) []levelbook.StationLevel {
		var out []levelbook.StationLevel
		for n := range 20 {
			line, k := n/5, n%5
			for _, l := range turned {
				if l == line+1 {
					k = 4 - k
				}
			}
			out = append(out, levelbook.StationLevel{Station: "G" + string(rune('0'+(n+1)/10)) + string(rune('0'+(n+1)%10)), Level: 0.3*float64(k) + 0.05*float64(line)})
			out[n].Station = strings.Replace(out[n].Station, "G0", "G", 1)
		}
		return out
	}
	const row = "G,grid,shed,gate,3,3,left,,,,,,,raster 5x4\n"
	for _, want := range [][]int{nil, {2}, {4}, {2, 4}} {
		sol, faults := solved(t, row, levels(want...)...)
		assert.Equal(t, want, sol.Results[len(sol.Results)-1].Reversed)
		assert.Equal(t, want != nil, strings.Contains(strings.Join(codes(faults), " "), "grid-line-reversed"))
	}
}

func TestReversedLinesNeedsEvidence(t *testing.T) {
	flat := [][]float64{{0, 0.01, 0.02, 0.01}, {0.02, 0, 0.01, 0.02}}
	assert.Empty(t, levelbook.ReversedLines(flat, 0.01))
	assert.Empty(t, levelbook.ReversedLines([][]float64{{0, 1, 2}, {2, math.NaN(), 0}}, 0.01))
	assert.Empty(t, levelbook.ReversedLines([][]float64{{0, 1, 2}, {2, 1}}, 0.01))
	assert.Empty(t, levelbook.ReversedLines(nil, 0.01))
}

func TestParseBearingAndAngle(t *testing.T) {
	for text, want := range map[string]float64{
		"35.5": 35.5, "35-30-00": 35.5, "35°30'": 35.5, "360": 0, "N10E": 10, "S 10 E": 170, "S10W": 190, "n10w": 350, "0": 0,
	} {
		got, err := levelbook.ParseBearing(text)
		require.NoError(t, err, text)
		assert.InDelta(t, radians(want), got, 1e-12, text)
	}
	for _, text := range []string{"", "-1", "361", "N", "NE", "N91E", "10-70", "1 2 3 4", "ten", "1e3", "nan", "10.5-30"} {
		_, err := levelbook.ParseBearing(text)
		assert.Error(t, err, text)
	}
	for text, want := range map[string]float64{"4.5": radians(4.5), "\u22124.5": radians(-4.5), "-4°30'": radians(-4.5), "8 %": math.Atan(0.08), "1 in 12": math.Atan(1.0 / 12), "-1 in 12": -math.Atan(1.0 / 12), "12.5 mm/m": math.Atan(0.0125), "-12.5 mm per m": -math.Atan(0.0125)} {
		got, err := levelbook.ParseAngle(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 1e-12, text)
	}
	for _, text := range []string{"", "90", "1 in 0", "2 in 3", "%", "--5", "x", "1:12", "mm/m"} {
		_, err := levelbook.ParseAngle(text)
		assert.Error(t, err, text)
	}
}
