package frame_test

import (
	"math"
	"testing"

	"crossfall/siting/frame"
	"crossfall/siting/soil"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// worstFactor reckons the least factor of safety of a design's pegs in winter
// again, from the case, the printed figures and the published formulas alone.
// The peg in the middle of a long board, that in the middle of a short one, and
// that where both meet are each looked at.
func worstFactor(c frame.Case, d frame.Design) float64 {
	lc := frame.Winter(c.Material)
	w, l := c.Width/float64(d.BaysAcross), c.Length/float64(d.BaysAlong)
	low := d.Fill + w*(c.Across-d.TopAcross) + l*(c.Along-d.TopAlong)
	mean := (d.Fill + low) / 2
	slope := math.Hypot(c.Across, c.Along)
	pull := frame.SlipShear(lc, mean, slope)
	line := func(rise, share, run float64) (force, arm float64) {
		e := lc.Thrust(low, rise)
		if p := pull * share * run; p > e.Force {
			return p, low / 3
		}
		return e.Force, e.Arm
	}
	part, last := 0.0, 0.0
	for _, at := range append(append([]float64{}, d.Boards.CrossAt...), c.Length) {
		part, last = math.Max(part, at-last), at
	}
	across, along := 1.0, 0.0
	if slope > 0 {
		across, along = c.Across/slope, c.Along/slope
	}
	longForce, longArm := line(d.TopAcross, across, w)
	crossForce, crossArm := line(d.TopAlong, along, part)

	spans := (d.Pegs.PerSide - 1) / d.BaysAlong
	crossSpans := d.Pegs.PerCross/d.BaysAcross + 1
	inner := map[int]float64{1: .5, 2: 1.25, 3: 1.10}
	end := map[int]float64{1: .5, 2: .375, 3: .40}
	at := func(m map[int]float64, n int, many float64) float64 {
		if v, ok := m[n]; ok {
			return v
		}
		return many
	}
	p := longForce * l / float64(spans)
	q := crossForce * w / float64(crossSpans)
	meetLong, meetCross := at(end, spans, .393), at(end, crossSpans, .393)
	if d.BaysAlong > 1 {
		meetLong *= 2
	} else if d.Boards.CrossBoards > 0 {
		meetLong = math.Max(meetLong, at(inner, spans, 1.143))
	}
	if d.BaysAcross > 1 {
		meetCross *= 2
	}
	key := d.Boards.Sunken >= .03 &&
		frame.Key(c.Ground, d.Boards.Sunken, slope) >= 1.5*math.Max(longForce, crossForce)
	least := math.Inf(1)
	for _, load := range [][2]float64{
		{at(inner, spans, 1.143) * p, longArm},
		{at(inner, crossSpans, 1.143) * q, crossArm},
		{math.Hypot(meetLong*p, meetCross*q), math.Max(longArm, crossArm)},
	} {
		least = math.Min(least, held(c.Ground, d, load[0], load[1], slope, key))
	}
	return least
}

// held is the factor of safety of one peg, from the formulas for clay and sand.
func held(g soil.Ground, d frame.Design, load, arm, slope float64, key bool) float64 {
	b, depth := d.Pegs.Size, d.Pegs.Embedment.Value
	kp := frame.Passive(g.FrictionAngle, slope)
	lever := arm + d.Boards.Sunken/2
	switch {
	case g.Clay && key:
		return frame.ClayCouple(depth, b, g.Undrained) / (1 + slope) / (load * lever)
	case g.Clay:
		return frame.ClayCapacity(depth, arm, b, g.Undrained) / (1 + slope) / load
	case key:
		return frame.SandCouple(depth, b, g.UnitWeight, kp) / (load * lever)
	}
	return frame.SandCapacity(depth, arm, b, g.UnitWeight, kp) / load
}

// Slopes 0 to 40 %, long sides from 0 to 180 degrees off the fall, compost of 50
// to 300 mm, every ground: exactly one class each time, and what goes with it.
func TestSweep(t *testing.T) {
	bearings, fills := 13, []float64{.05, .10, .15, .20, .25, .30}
	if testing.Short() {
		bearings, fills = 5, []float64{.05, .15, .30}
	}
	seen := map[frame.Class]int{}
	for _, word := range soil.Words() {
		g, ok := soil.Named(word)
		require.True(t, ok)
		for b := range bearings {
			turn := math.Pi * float64(b) / float64(bearings-1)
			for _, fill := range fills {
				last := -1
				for percent := range 41 {
					across, along := frame.Parts(float64(percent)/100, turn, 0)
					c := frame.Case{
						Length: 3.6, Width: 1.2, Fill: fill, Slope: float64(percent) / 100,
						Across: across, Along: along, Ground: g, Turf: true, Material: compost(t),
					}
					d := frame.Decide(c)
					seen[d.Class]++
					if why := wrong(c, d); why != "" {
						require.Fail(t, why, "%s, %d %%, turned %.2f, %v m: %s %v", word, percent, turn, fill, d.Class, d.Because)
					}
					require.Equal(t, d.Class, frame.ClassOf(c))
					require.GreaterOrEqual(t, d.Class.Severity(), last, "a steeper fall never gets a milder class")
					last = d.Class.Severity()
				}
			}
		}
	}
	for _, k := range frame.Classes() {
		assert.Positive(t, seen[k], "%s occurs", k)
	}
}

// wrong names the first thing that a design must not be, or "".
func wrong(c frame.Case, d frame.Design) string {
	switch {
	case d.Class.Severity() < 0:
		return "no class"
	case d.Because == "":
		return "no reason"
	case (d.NextEdge == "") != (d.Class == frame.DoNotBuild):
		return "next edge: " + d.NextEdge
	}
	if d.Class == frame.OpenEdged || d.Class == frame.DoNotBuild {
		if d.Pegs != nil || d.Boards != nil {
			return "boards or pegs where there are none"
		}
		return ""
	}
	switch p, b := d.Pegs, d.Boards; {
	case p == nil || b == nil:
		return "no boards or no pegs"
	case p.FactorWinter < 2:
		return "peg under a factor of 2"
	case math.Abs(worstFactor(c, d)/p.FactorWinter-1) > 1e-9:
		return "the factor of safety does not come out again"
	case p.Embedment.Value > .30+1e-9:
		return "peg past the cap"
	case p.Embedment.Low > p.Embedment.Value || p.Embedment.High < p.Embedment.Value:
		return "band of embedment does not enclose it"
	case p.FactorDrained <= p.FactorWinter || p.FactorBlocked >= p.FactorWinter:
		return "load cases out of order"
	case d.SlipFactor < 1.5:
		return "the bed slides"
	case d.Retained.Downhill > .30+1e-9:
		return "retains over 0.30 m"
	case (b.Sunken == 0) != (d.Class == frame.Boarded):
		return "sunken edge"
	case d.Class == frame.Stepped && d.BaysAcross*d.BaysAlong < 2:
		return "stepped without steps"
	case d.Class != frame.Stepped && d.BaysAcross*d.BaysAlong != 1:
		return "steps in an unstepped bed"
	case d.RiseAcross > .20+1e-9 || d.RiseAlong > .20+1e-9:
		return "rise over 0.20 m"
	case c.Width/float64(d.BaysAcross) < .4-1e-9 || c.Length/float64(d.BaysAlong) < .6-1e-9:
		return "bay too small"
	case d.Fill > c.Fill || d.Fill < math.Min(c.Fill, .10)-1e-9:
		return "fill"
	case d.Fill < c.Fill && len(d.Changes) == 0, p.Spacing > 1.8+1e-9:
		return "a change not told"
	case b.Downhill.Bought < b.Downhill.Needed-1e-9 || b.Uphill.Bought < b.Uphill.Needed-1e-9:
		return "boards too low"
	case p.Count < p.Rows*p.PerSide || p.PerSide < 3:
		return "too few pegs"
	}
	return ""
}

func drawCase(t *rapid.T) frame.Case {
	g, _ := soil.Named(rapid.SampledFrom(soil.Words()).Draw(t, "ground"))
	f, _ := soil.FillNamed(soil.DefaultFill)
	slope := rapid.Float64Range(0, .33).Draw(t, "slope")
	across, along := frame.Parts(slope, rapid.Float64Range(0, math.Pi).Draw(t, "turn"), 0)
	return frame.Case{
		Length: rapid.Float64Range(.8, 8).Draw(t, "length"), Width: rapid.Float64Range(.5, 2.4).Draw(t, "width"),
		Fill: rapid.Float64Range(.03, .5).Draw(t, "fill"), Slope: slope, Across: across, Along: along,
		Ground: g, Turf: true, Material: f,
		PegSize:      rapid.SampledFrom([]float64{.03, .05, .075}).Draw(t, "peg"),
		DepthCap:     rapid.SampledFrom([]float64{.30, .45}).Draw(t, "cap"),
		BoardHeights: rapid.SampledFrom([][]float64{nil, {.10}, {.15, .30}}).Draw(t, "boards"),
		LongestBoard: 10,
	}
}

// like says whether two designs differ only in what loads and depths make.
func like(a, b frame.Design) bool {
	return a.Class == b.Class && a.Pegs != nil && b.Pegs != nil && a.Fill == b.Fill &&
		a.BaysAcross == b.BaysAcross && a.BaysAlong == b.BaysAlong &&
		a.Pegs.PerSide == b.Pegs.PerSide && a.Boards.CrossBoards == b.Boards.CrossBoards &&
		a.Pegs.PerCross == b.Pegs.PerCross && a.Pegs.PerHighEnd == b.Pegs.PerHighEnd && // one more bears a part of the load
		a.Pegs.Key == b.Pegs.Key
}

func TestSteeperNeverLessDeep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t)
		more := rapid.Float64Range(1, 1.3).Draw(t, "more")
		steep := c
		steep.Slope, steep.Across, steep.Along = c.Slope*more, c.Across*more, c.Along*more
		a, b := frame.Decide(c), frame.Decide(steep)
		if like(a, b) {
			assert.GreaterOrEqual(t, b.Pegs.Embedment.Value, a.Pegs.Embedment.Value)
			assert.GreaterOrEqual(t, b.Boards.Downhill.Needed, a.Boards.Downhill.Needed-1e-9)
		}
	})
}

func TestDeeperFillNeverLowerBoards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t)
		deep := c
		deep.Fill = c.Fill * rapid.Float64Range(1, 1.5).Draw(t, "more")
		a, b := frame.Decide(c), frame.Decide(deep)
		if a.Pegs != nil && b.Pegs != nil && a.Class == b.Class && b.Fill >= a.Fill &&
			a.BaysAcross == b.BaysAcross && a.BaysAlong == b.BaysAlong {
			assert.GreaterOrEqual(t, b.Boards.Downhill.Needed-b.Boards.Sunken, a.Boards.Downhill.Needed-a.Boards.Sunken-1e-9)
			assert.GreaterOrEqual(t, b.Boards.Uphill.Needed-b.Boards.Sunken, a.Boards.Uphill.Needed-a.Boards.Sunken-1e-9)
		}
	})
}

// Whatever is asked for, pegs that are printed hold twice the winter load and
// go no deeper than allowed.
func TestPrintedPegsAlwaysHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t)
		d := frame.Decide(c)
		assert.GreaterOrEqual(t, d.Class.Severity(), 0)
		if d.Pegs == nil {
			return
		}
		assert.GreaterOrEqual(t, worstFactor(c, d), 2.0)
		assert.LessOrEqual(t, d.Pegs.Embedment.Value, c.DepthCap+1e-9)
		assert.LessOrEqual(t, d.Pegs.LengthDownhill, .90+1e-9)
		assert.GreaterOrEqual(t, d.SlipFactor, 1.5)
		assert.LessOrEqual(t, d.Retained.Downhill, .30+1e-9)
		total := d.Pegs.Rows*d.Pegs.PerSide + (d.Boards.CrossBoards+1)*d.Pegs.PerCross + d.Pegs.PerHighEnd
		assert.Equal(t, total, d.Pegs.Count)
	})
}
