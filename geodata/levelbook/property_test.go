package levelbook_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata/levelbook"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// randomBook draws a book of one run from a known station to a known one, with
// readings in whole millimetres.
func randomBook(t *rapid.T) levelbook.Book {
	reading := rapid.IntRange(-3000, 5000)
	draw := func(name string) levelbook.Figure {
		return written(float64(reading.Draw(t, name)) / 1000)
	}
	setups := rapid.IntRange(1, 8).Draw(t, "setups")
	b := levelbook.Book{Rows: []levelbook.Row{{Station: "start", Back: draw("back"), Level: written(100)}}}
	for s := range setups {
		for i := range rapid.IntRange(0, 4).Draw(t, "intersights") {
			b.Rows = append(b.Rows, levelbook.Row{Station: fmt.Sprintf("p%d.%d", s, i), Inter: draw("inter")})
		}
		row := levelbook.Row{Station: fmt.Sprintf("c%d", s), Fore: draw("fore"), Distance: written(float64(20 * (s + 1)))}
		if s+1 < setups {
			row.Back = draw("back")
		} else {
			row.Level = written(100 + float64(reading.Draw(t, "end"))/1000)
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

func TestBothReductionsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := randomBook(t)
		opt := levelbook.Options{DistributeAnyway: true, ByDistance: rapid.Bool().Draw(t, "by distance")}
		red, faults := book.Reduce(opt)
		require.Zero(t, faults.Problems())
		run := red.Runs[0]
		require.Len(t, run.Checks, 4)
		for _, c := range run.Checks {
			require.True(t, c.OK, "%+v", c)
		}
		last := run.Levels[len(run.Levels)-1]
		require.InDelta(t, red.Stations[1].Level, last.Level, 1e-9)
		level := run.Levels[0].Raw
		for _, l := range run.Levels[1:] { // by rise and fall, here and now
			level += l.Rise
			require.InDelta(t, level, l.Raw, 1e-9)
		}
	})
}

func TestPointsOfOneSetupKeepTheirDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		red, _ := randomBook(t).Reduce(levelbook.Options{DistributeAnyway: true, ByDistance: rapid.Bool().Draw(t, "by distance")})
		levels := red.Runs[0].Levels[1:]
		for i := 1; i < len(levels); i++ {
			if a, b := levels[i-1], levels[i]; a.Setup == b.Setup {
				require.InDelta(t, b.Raw-a.Raw, b.Level-a.Level, 1e-9)
			}
		}
	})
}

// A failing book is never changed; a closing one meets its known point.
func TestNothingIsSpreadBeyondTheAllowance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		red, _ := randomBook(t).Reduce(levelbook.Options{})
		s := red.Runs[0].Sections[0]
		levels := red.Runs[0].Levels
		for _, l := range levels[:len(levels)-1] {
			if s.Verdict == levelbook.NotClosed {
				require.Zero(t, l.Correction)
			}
		}
		require.Equal(t, math.Abs(s.Misclosure) <= s.Allowance+1e-6, s.Verdict == levelbook.Closed)
		require.Equal(t, s.Verdict == levelbook.NotClosed, len(s.Suspects) > 0)
	})
}

// Tapes measured to a place give it back, from two marks and from three.
func TestTrilaterateFindsThePlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-30, 30)
		draw := func(n string) orb.Point { return orb.Point{coordinate.Draw(t, n), coordinate.Draw(t, n)} }
		p := draw("place")
		var tapes []levelbook.Tape
		for i := range rapid.IntRange(2, 5).Draw(t, "marks") {
			m := draw(fmt.Sprint("mark", i))
			d := math.Hypot(m[0]-p[0], m[1]-p[1])
			if d < 0.5 {
				t.Skip("a mark on the place")
			}
			tapes = append(tapes, levelbook.Tape{From: m, Length: d})
		}
		side := levelbook.LeftSide
		a, b := tapes[0].From, tapes[1].From
		cross := (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
		if cross < 0 {
			side = levelbook.RightSide
		}
		tie, err := levelbook.Trilaterate(tapes, side)
		if err != nil {
			return // refused: the angle
		}
		if tie.OnLine {
			return // on the line to within the error of the tapes
		}
		require.InDelta(t, 0, math.Hypot(tie.At[0]-p[0], tie.At[1]-p[1]), 1e-4)
	})
}

// The compass rule closes any traverse and keeps one that closes.
func TestBowditchCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var legs []levelbook.Leg
		for range rapid.IntRange(1, 9).Draw(t, "legs") {
			legs = append(legs, levelbook.Leg{
				Bearing:  rapid.Float64Range(0, 2*math.Pi).Draw(t, "bearing"),
				Distance: rapid.Float64Range(1, 50).Draw(t, "distance"),
			})
		}
		end := orb.Point{rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")}
		tr := levelbook.Bowditch(legs, orb.Point{}, end)
		require.InDelta(t, end[0], tr.Adjusted[len(legs)-1][0], 1e-9)
		require.InDelta(t, end[1], tr.Adjusted[len(legs)-1][1], 1e-9)
		again := levelbook.Bowditch(legs, orb.Point{}, tr.Raw[len(legs)-1])
		assert.InDelta(t, 0, again.Linear, 1e-9)
	})
}
