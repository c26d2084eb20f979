package levelbook_test

import (
	"math"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func faultsOf(text string) (levelbook.Reduction, geodata.Faults) {
	book, faults := levelbook.ReadLevels(strings.NewReader(text), "levels.csv", 0)
	red, more := book.Reduce(levelbook.Options{})
	return red, append(faults, more...)
}

// Every malformed book is a fault at its place.
func TestBadBooks(t *testing.T) {
	for _, c := range []struct {
		name, text, code string
		line, col        int
		severity         geodata.Severity
	}{
		{"empty", "", "empty-file", 0, 0, geodata.Problem},
		{"no text", "a\x00b", "not-text", 0, 0, geodata.Problem},
		{"no header", "A,1.2,,\nB,,,1.3\n", "no-header", 1, 0, geodata.Problem},
		{"only a header", "station,back,fore\n", "no-rows", 0, 0, geodata.Problem},
		{"no backsights", "station,fore\nA,1.2\n", "column-missing", 1, 0, geodata.Problem},
		{"column twice", "station,BS,back,fore\nA,1.2,,\n", "column-twice", 1, 12, geodata.Problem},
		{"unit", "station,back (furlong),fore\nA,1.2,\n", "unit-unknown", 1, 9, geodata.Problem},
		{"column not used", "station,back,fore,weather\nA,1.2,,dry\nB,,1.3,\n", "column-not-used", 1, 19, geodata.Note},
		{"no number", "station,back,fore\nA,one,\nB,,1.3\n", "not-a-number", 2, 3, geodata.Problem},
		{"infinite", "station,back,fore\nA,inf,\nB,,1.3\n", "not-a-number", 2, 3, geodata.Problem},
		{"no name", "station,back,fore\nA,1.2,\n,,1.3\n", "station-missing", 3, 1, geodata.Problem},
		{"more cells", "station,back,fore,note\nA,1.2,,x,y\nB,,1.3\n", "too-many-cells", 2, 10, geodata.Problem},
		{"instrument", "station,back,fore,instrument\nA,1.2,,stick\nB,,1.3,\n", "instrument-unknown", 2, 8, geodata.Problem},
		{"quote", "station,back,fore,note\nA,1.2,,\"x\nB,,1.3,\n", "quote-not-closed", 2, 8, geodata.Problem},
		{"centimetres", "station,back,fore\nA,121,\nB,,1.3\n", "reading-beyond-staff", 2, 3, geodata.Warning},
		{"intersight beside foresight", "station,back,inter,fore\nA,1.2,,\nB,,1.3,1.4\nC,,,1.1\n", "intersight-not-alone", 3, 4, geodata.Problem},
		{"foresight first", "station,back,inter,fore\nA,,,1.2\nB,1.3,,\nC,,,1\n", "sight-without-backsight", 2, 5, geodata.Problem},
		{"intersight first", "station,back,inter,fore\nA,,1.2,\nB,1.3,,\nC,,,1\n", "sight-without-backsight", 2, 4, geodata.Problem},
		{"moved after an intersight", "station,back,inter,fore\nA,1,,\nB,,1.2,\nB,1.3,,\nC,,,1\n", "intersight-then-backsight", 3, 4, geodata.Problem},
		{"stand without foresight", "station,back,inter,fore\nA,1,,\nB,,1.2,\nA,1.3,,\nC,,,1\n", "stand-without-foresight", 4, 3, geodata.Warning},
		{"backsight on nothing known", "station,back,inter,fore\nA,1,,\nB,,,1.2\nX,1.3,,\nC,,,1\n", "backsight-without-level", 4, 3, geodata.Problem},
		{"backsight alone", "station,back,fore\nA,1,\nB,1.1,1.2\n", "backsight-alone", 3, 3, geodata.Warning},
		{"row of nothing", "station,back,fore,note\nA,1,,\nhedge,,,tall\nB,,1.2,\n", "row-without-reading", 3, 0, geodata.Warning},
		{"two levels", "station,back,fore,level\nA,1,,5\nB,,1.2,\nA,,1.1,6\n", "level-given-twice", 4, 8, geodata.Problem},
		{"out of range", "station,back,fore,level\nA,1,,5e9\nB,,1.2,\n", "figure-out-of-range", 2, 6, geodata.Problem},
		{"never closes", "station,back,fore\nA,1,\nB,,1.2\n", "level-book-no-closure", 3, 0, geodata.Warning},
		{"ends on an intersight", "station,back,inter,fore,level\nA,1,,,5\nB,,1.2,,\n", "level-book-no-closure", 3, 0, geodata.Warning},
		{"nothing known", "station,back,fore\nA,1,\nB,,1.2\n", "level-assumed", 2, 0, geodata.Note},
		{"page carried over", "station,back,inter,fore\nA,1,,\nB,,,1.2\nB,1.2,,\nA,,,1.001\n", "carried-over", 4, 3, geodata.Note},
		{"inches over a foot", "station,back,fore\nA,3' 14\",\nB,,3' 2\"\n", "inches-over-a-foot", 2, 3, geodata.Note},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := faultsOf(c.text)
			var got *geodata.Fault
			for i := range faults {
				if faults[i].Code == c.code {
					got = &faults[i]
					break
				}
			}
			require.NotNil(t, got, "%v", faults)
			assert.Equal(t, geodata.Pos{File: "levels.csv", Line: c.line, Col: c.col}, got.Pos)
			assert.Equal(t, c.severity, got.Severity)
			assert.NotEmpty(t, got.Message)
		})
	}
}

// A known point that is not the first: levels go both ways from it.
func TestKnownPointInTheMiddle(t *testing.T) {
	red, faults := reduced(t, `station,back,inter,fore,level
A,1.500,,,
B,,1.200,,
K,1.400,,1.100,50.000
C,,,1.900,
`, levelbook.Options{})
	_, _, _, got := figures(red.Runs[0])
	assert.InDelta(t, 49.600, red.Runs[0].Levels[0].Level, 1e-9)
	near(t, []float64{49.900, 50.000, 49.500}, got, 1e-9)
	assert.Contains(t, codes(faults), "level-book-no-closure")
	sigma := levelbook.ByLevel.SetupSigma()
	for i, want := range []float64{1, 1, 0, 1} {
		assert.InDelta(t, want*sigma, red.Runs[0].Levels[i].Sigma, 1e-9, "line %d", i)
	}
	require.Len(t, red.Runs[0].Sections, 2)
	assert.Equal(t, levelbook.Unchecked, red.Runs[0].Sections[0].Verdict)
}

// The only known point is read as an intersight.
func TestKnownIntersight(t *testing.T) {
	red, _ := reduced(t, "station,back,inter,fore,level\nA,1.500,,,\nK,,1.200,,7.000\nB,,,1.000,\n", levelbook.Options{})
	_, _, _, got := figures(red.Runs[0])
	near(t, []float64{7.0, 7.2}, got, 1e-9)
	assert.InDelta(t, 6.7, red.Runs[0].Levels[0].Level, 1e-9)
	assert.Empty(t, red.Runs[0].Repeats)
}

// A known point read as an intersight beside a known first point only checks.
func TestIntersightChecks(t *testing.T) {
	red, faults := reduced(t, "station,back,inter,fore,level\nA,1.500,,,6.700\nK,,1.200,,7.030\nB,,,1.000,\n", levelbook.Options{})
	require.Len(t, red.Runs[0].Repeats, 1)
	r := red.Runs[0].Repeats[0]
	assert.InDelta(t, -0.030, r.Difference, 1e-9)
	assert.False(t, r.OK)
	assert.Contains(t, codes(faults), "station-read-twice")
}

// No known level: the first station is 10.000 m, and a loop back on it closes.
func TestLoopOnAssumedLevel(t *testing.T) {
	const loop = `station,back,inter,fore
A,1.500,,
P,,1.750,
CP,1.400,,1.100
CP,,,1.900
CP,1.300,,
A,,,1.203
`
	red, faults := reduced(t, loop, levelbook.Options{})
	assert.True(t, red.Assumed)
	assert.Contains(t, codes(faults), "level-assumed")
	s := red.Runs[0].Sections[0]
	assert.Equal(t, 3, s.Setups)
	assert.InDelta(t, -0.003, s.Misclosure, 1e-9)
	assert.Equal(t, levelbook.Closed, s.Verdict)
	_, _, _, got := figures(red.Runs[0])
	near(t, []float64{9.751, 10.401, 9.902, 10.000}, got, 1e-9)
	assert.NotContains(t, codes(faults), "level-book-no-closure")
	assert.NotContains(t, codes(faults), "station-read-twice") // change points without a number are different places
}

// A loop that hangs on a known point in its middle closes on its own start.
func TestLoopThroughKnownPoint(t *testing.T) {
	red, _ := reduced(t, `station,back,fore,level
A,1.500,,
K,1.400,1.100,50.000
B,1.000,1.900,
A,,0.906,
`, levelbook.Options{})
	s := red.Runs[0].Sections[0]
	assert.InDelta(t, -0.006, s.Misclosure, 1e-9)
	assert.Equal(t, 3, s.Setups)
	l := red.Runs[0].Levels
	assert.InDelta(t, 50, l[1].Level, 1e-9)
	assert.InDelta(t, l[0].Level, l[3].Level, 1e-9)
	// From K to B -0.500 and 2 mm of the misclosure.
	assert.InDelta(t, 49.502, l[2].Level, 1e-9)
	assert.Zero(t, l[1].Sigma)
}

// Sections between known points close each for itself.
func TestSections(t *testing.T) {
	red, faults := reduced(t, `station,back,fore,level
A,1.000,,10.000
K,1.000,1.002,10.000
B,1.000,1.000,
C,,1.100,10.000
D,,,
`, levelbook.Options{})
	ss := red.Runs[0].Sections
	require.Len(t, ss, 2)
	assert.Equal(t, levelbook.Closed, ss[0].Verdict)
	assert.Equal(t, levelbook.NotClosed, ss[1].Verdict)
	assert.Equal(t, 2, ss[1].Setups)
	assert.Equal(t, "step", ss[1].Suspects[0].Kind) // exactly a tenth of a metre
	assert.Contains(t, codes(faults), "level-book-misclosure")
}

// A second run hangs on a station of the first.
func TestTwoRuns(t *testing.T) {
	red, _ := reduced(t, `station,back,inter,fore,level
BM,1.000,,,20.000
P,,0.500,,
BM,,,1.000,
P,2.000,,,
Q,,1.000,,
BM,,,2.498,
`, levelbook.Options{})
	require.Len(t, red.Runs, 2)
	require.Len(t, red.Runs[1].Sections, 1)
	assert.InDelta(t, 0.002, red.Runs[1].Sections[0].Misclosure, 1e-9)
	assert.Contains(t, red.Runs[1].Datum, "earlier run")
	names := []string{}
	for _, s := range red.Stations {
		names = append(names, s.Station)
	}
	assert.Equal(t, []string{"BM", "P", "Q"}, names)
}

// The foot of a page is booked as foresight and again as backsight: no move.
func TestPageCarriedOver(t *testing.T) {
	red, _ := reduced(t, "station,back,inter,fore\nA,1,,\nB,,,1.200\nB,1.200,,\nC,,1.5,\nA,,,1.003\n", levelbook.Options{})
	s := red.Runs[0].Sections[0]
	assert.Equal(t, 1, s.Setups)
	assert.Equal(t, 1, red.Runs[0].Setups)
	_, _, _, got := figures(red.Runs[0])
	near(t, []float64{9.803, 9.503, 10.000}, got, 1e-9)
}

// A reading on an inverted staff is negative, and its station is no ground.
func TestInvertedStaff(t *testing.T) {
	red, _ := reduced(t, "station,back,inter,fore,level\nA,1.500,,,10\nbeam,,-2.100,,\nA,,,1.500,\n", levelbook.Options{})
	assert.InDelta(t, 13.600, red.Stations[1].Level, 1e-9)
	assert.True(t, red.Stations[1].Inverted)
}

// Readings repeated on a station are averaged and compared.
func TestRepeatedStation(t *testing.T) {
	red, _ := reduced(t, "station,back,inter,fore,level\nA,1.500,,,10\nP,,1.000,,\nP,,1.004,,\nA,,,1.500,\n", levelbook.Options{})
	p := red.Stations[1]
	assert.InDelta(t, 10.498, p.Level, 1e-9)
	assert.Equal(t, 2, p.Readings)
	require.Len(t, red.Runs[0].Repeats, 1)
	assert.True(t, red.Runs[0].Repeats[0].OK)
}

// Levels on every row are the booker's own working, not known points.
func TestLevelsOnMostRows(t *testing.T) {
	red, faults := reduced(t, "station,BS,IS,FS,RL\nA,1.5,,,10\nB,,1.4,,10.1\nC,,1.3,,10.2\nD,,,1.2,10.3\n", levelbook.Options{})
	assert.Contains(t, codes(faults), "levels-on-most-rows")
	assert.Equal(t, levelbook.Unchecked, red.Runs[0].Sections[0].Verdict)
}

func TestCollimationCorrection(t *testing.T) {
	const text = "station,back,fore,back length,fore length,level\nA,1.500,,30,,10\nB,,1.000,,10,\n"
	red, _ := reduced(t, text, levelbook.Options{Collimation: 0.001})
	// 1.470 and 0.990 are left.
	assert.InDelta(t, 10.480, red.Runs[0].Levels[1].Level, 1e-9)
	_, faults := reduced(t, strings.Replace(text, ",10,\n", ",,\n", 1), levelbook.Options{Collimation: 0.001})
	assert.Contains(t, codes(faults), "sight-length-missing")
}

// Within a spread section the middle is the least certain, by the propagation
// of independent errors: i(n-i)/n set-ups for a change point.
func TestSigmaOfSpreadSection(t *testing.T) {
	red, _ := reduced(t, "station,back,fore,level\nA,1,,5\nB,1,1,\nC,1,1,\nD,1,1,\nE,,1,5\n", levelbook.Options{})
	s := levelbook.ByLevel.SetupSigma()
	for i, k := range []float64{0, 0.75, 1, 0.75, 0} {
		assert.InDelta(t, s*math.Sqrt(k), red.Runs[0].Levels[i].Sigma, 1e-12, "point %d", i)
	}
	// The ground under the staff comes on top.
	assert.InDelta(t, math.Hypot(s, levelbook.DefaultGroundSigma), red.Stations[3].Sigma, 1e-12)

	// By hand, a point read in the first of two set-ups, b - i - (b - f + b' - f') / 2, has
	// the errors b/2, i, f/2 and half that of the second set-up: in variances of a set-up,
	// of which a reading has half, 1/8, 1/2, 1/8 and 1/4.
	red, _ = reduced(t, "station,back,inter,fore,level\nA,1,,,5\nP,,1,,\nB,1,,1,\nC,,,1,5\n", levelbook.Options{})
	assert.InDelta(t, s*math.Sqrt(0.5*0.25+0.5*0.25+0.5+0.25), red.Runs[0].Levels[1].Sigma, 1e-12)
}

// An allowance is the instrument's, 5, 10 and 20 mm for one set-up.
func TestInstruments(t *testing.T) {
	for words, want := range map[string]float64{"Builders\u2019 level": 0.005, "water tube": 0.010, "Line-level": 0.010, "A-frame": 0.020} {
		red, _ := reduced(t, "station,back,fore,instrument\nA,1,,"+words+"\nA,,1,\n", levelbook.Options{})
		assert.InDelta(t, want, red.Runs[0].Sections[0].Allowance, 1e-12, words)
	}
}

func TestZeroValues(t *testing.T) {
	red, faults := levelbook.Book{}.Reduce(levelbook.Options{})
	assert.Empty(t, red.Runs)
	assert.Empty(t, faults)
	sol, faults := levelbook.Ties{}.Solve(nil, nil, levelbook.TieOptions{})
	assert.Empty(t, sol.Places)
	assert.Empty(t, faults)
	heights, faults := levelbook.Heights(nil, levelbook.Solution{})
	assert.Empty(t, heights)
	assert.Empty(t, faults)
}
