package siting_test

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func read(t testing.TB, name string) *geodata.Plot {
	t.Helper()
	p, err := plotfolder.Read(filepath.Join("..", "testdata", name), plotfolder.Options{})
	require.NoError(t, err)
	return p
}

func assess(t testing.TB, p *geodata.Plot) *siting.Assessment {
	t.Helper()
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	require.NoError(t, err)
	return a
}

func bedOf(t testing.TB, a *siting.Assessment, name string) siting.Bed {
	t.Helper()
	for _, b := range a.Beds {
		if b.Name == name {
			return b
		}
	}
	require.Fail(t, "no bed "+name)
	return siting.Bed{}
}

// The classes were written down from the ground's formula and the rules before
// the program was run; testdata/hillside-pinned/expected.csv has them.
func TestEveryClassOfEdgeOccursAsExpected(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	f, err := os.Open(filepath.Join("..", "testdata", "hillside-pinned", "expected.csv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	seen := map[frame.Class]bool{}
	for _, row := range rows[1:] {
		b := bedOf(t, a, row[0])
		assert.Equal(t, row[1], string(b.Edge), "%s: %s", row[0], row[2])
		assert.NotEmpty(t, b.EdgeBecause)
		seen[b.Edge] = true
	}
	assert.Len(t, seen, len(frame.Classes()), "every class is among the five beds")
	assert.Len(t, a.Beds, len(rows)-1)
}

// Plane through the 52 heights of Davis 1973 (data set topo of the R package MASS):
// R 4.2.2 lm gives a gradient of 0.506171 and a downslope azimuth of 3.84026
// degrees. Ground as steep as that takes no bed.
func TestDavisGroundIsTooSteep(t *testing.T) {
	a := assess(t, read(t, "davis"))
	assert.InDelta(t, 50.6171, a.Ground.FallPercent.Value, 1e-3)
	require.NotNil(t, a.Ground.RunoffBearing.Value)
	assert.InDelta(t, 3.84026, *a.Ground.RunoffBearing.Value, 1e-4)
	require.NotEmpty(t, a.Beds)
	for _, b := range a.Beds {
		assert.Equal(t, frame.DoNotBuild, b.Edge, b.Name)
		assert.Nil(t, b.Pegs, b.Name)
		assert.Nil(t, b.Build, b.Name)
	}
	assert.Zero(t, a.Quantities.Compost.Value)
	assert.Empty(t, a.SettingOut.Beds)
}

// hillside is the ground that the heights of testdata/hillside were made from;
// its README has the formula.
func hillside(p orb.Point) float64 {
	x, y := p[0], p[1]
	sin, cos := math.Sincos(20 * math.Pi / 180)
	u, v := x*sin+y*cos, x*cos-y*sin
	soft := func(t float64) float64 { return math.Log1p(math.Exp(t)) }
	bank := 0.46 / (1 + math.Exp(-(u-21.2)/1.05)) * math.Exp(-(v+3.2)*(v+3.2)/(3.6*3.6)/2)
	hollow := 0.36 * math.Exp(-((x-10.2)*(x-10.2)+(y-3.4)*(y-3.4))/(2*2.3*2.3))
	return 30 - (0.03*u + 0.066*soft((u-9)/1.1) + 0.078*soft((u-18)/1.3)) - bank - hollow
}

// The true fall under every bed lies in the interval that was told.
func TestTrueFallsLieInTheIntervals(t *testing.T) {
	for _, plot := range []string{"hillside", "hillside-pinned"} {
		a := assess(t, read(t, plot))
		require.GreaterOrEqual(t, len(a.Beds), 4, plot)
		for _, b := range a.Beds {
			mid := func(i, j int) float64 {
				return hillside(orb.Point{(b.Corners[i][0] + b.Corners[j][0]) / 2, (b.Corners[i][1] + b.Corners[j][1]) / 2})
			}
			across, along := math.Abs(mid(0, 1)-mid(2, 3))*1000, math.Abs(mid(0, 3)-mid(1, 2))*1000
			assert.GreaterOrEqual(t, across, b.FallAcross.Low, "%s %s across", plot, b.Name)
			assert.LessOrEqual(t, across, b.FallAcross.High, "%s %s across", plot, b.Name)
			assert.GreaterOrEqual(t, along, b.FallAlong.Low, "%s %s along", plot, b.Name)
			assert.LessOrEqual(t, along, b.FallAlong.High, "%s %s along", plot, b.Name)
		}
	}
}

// The hollow that the formula digs is found where it is, with water standing
// about 70 mm deep at its deepest by a flood of the formula on a 0.1 m lattice;
// the heights tell its depth to about their error.
func TestHollowIsFound(t *testing.T) {
	a := assess(t, read(t, "hillside"))
	require.Len(t, a.Ground.Hollows, 1)
	h := a.Ground.Hollows[0]
	assert.Less(t, planar.Distance(h.At, orb.Point{10.4, 4.0}), 0.6)
	assert.InDelta(t, 70, h.Depth, 40)
}

func TestWishedBedsKeepOffEverything(t *testing.T) {
	p := read(t, "hillside")
	a := assess(t, p)
	require.Len(t, a.Beds, 4)
	assert.Zero(t, a.StandingStops())
	for _, b := range a.Beds {
		for _, c := range b.Corners {
			assert.True(t, planar.PolygonContains(p.Boundary, orb.Point{c[0], c[1]}), b.Name)
		}
		assert.LessOrEqual(t, b.OffContour, 15.0+1e-6, b.Name)
		assert.Less(t, math.Abs(b.FallPercent.Value), 33.0, b.Name)
	}
}

// Beds drawn by hand count among those wished for: with six wished and five
// drawn, one is placed beside them.
func TestTheRestIsPlacedRoundDrawnBeds(t *testing.T) {
	p := read(t, "hillside-pinned")
	six := 6
	p.Site.Beds.Count = &six
	a := assess(t, p)
	require.Len(t, a.Beds, 6)
	placed := a.Beds[5]
	assert.False(t, placed.Pinned)
	for _, b := range a.Beds[:5] {
		assert.True(t, b.Pinned)
		for _, c := range placed.Corners {
			for i := range b.Corners {
				q := b.Corners[i]
				assert.Greater(t, math.Hypot(c[0]-q[0], c[1]-q[1]), 0.5, "%s and %s", placed.Name, b.Name)
			}
		}
	}
}

// A bed under a standing stop prints no pegs, cut list, buying line or
// set-out; acknowledging the stop restores none of them.
func TestAStopTakesTheBedAway(t *testing.T) {
	p := read(t, "hillside-pinned")
	check := func(a *siting.Assessment) {
		b := bedOf(t, a, "by the cable")
		assert.Equal(t, frame.DoNotBuild, b.Edge)
		assert.Nil(t, b.Pegs)
		assert.Nil(t, b.Build)
		for _, s := range a.SettingOut.Beds {
			assert.NotEqual(t, "by the cable", s.Name)
		}
		for _, line := range a.Quantities.Boards {
			for _, cut := range line.Cuts {
				for _, piece := range cut.Pieces {
					assert.NotContains(t, piece.For, "by the cable")
				}
			}
		}
	}
	a := assess(t, p)
	check(a)
	assert.Equal(t, 1, a.StandingStops())
	var stop caution.Caution
	for _, c := range a.Cautions {
		if c.Severity == caution.Stop {
			stop = c
		}
	}
	assert.Contains(t, stop.Text, "power to shed")

	p.Site.Acknowledged = []geodata.Acknowledgement{{Caution: stop.ID, By: "the plot holder", Date: "2026-11-01"}}
	a = assess(t, p)
	check(a)
	assert.Zero(t, a.StandingStops())
}

// No printed peg has a factor of safety under 2 in the winter case, none lies
// within the clearance of a service, and the list of places is complete.
func TestPegsHoldAndKeepClear(t *testing.T) {
	for _, plot := range []string{"hillside", "hillside-pinned"} {
		p := read(t, plot)
		for _, b := range assess(t, p).Beds {
			if b.Pegs == nil {
				continue
			}
			assert.Len(t, b.Pegs.Positions, b.Pegs.Count, b.Name)
			if b.Pegs.Count == 0 {
				assert.Equal(t, frame.OpenEdged, b.Edge)
				continue
			}
			assert.GreaterOrEqual(t, b.Pegs.FactorWinter, 2.0, b.Name)
			assert.LessOrEqual(t, b.Pegs.Embedment.Value, 300.0, "services are not all located: %s", b.Name)
			assert.Greater(t, b.Pegs.Length, b.Pegs.Embedment.Value, b.Name)
			for _, s := range p.OfKind(geodata.ServiceKind) {
				for _, at := range b.Pegs.Positions {
					assert.GreaterOrEqual(t, planar.DistanceFrom(s.Shape, at), 0.6, "%s and %s", b.Name, s.Name)
				}
			}
		}
	}
}

// plane is a plot of exact heights on ground falling by slope to the south,
// 12 x 9 m, read to sigma.
func plane(slope, sigma float64) *geodata.Plot {
	p := &geodata.Plot{Name: "plane", Frame: geodata.Frame{North: "the +y axis"}}
	for x := 0.0; x <= 12; x += 4 {
		for y := 0.0; y <= 9; y += 3 {
			p.Spots = append(p.Spots, geodata.SpotHeight{Name: "h", At: orb.Point{x, y}, Height: 20 + slope*y, Sigma: sigma, Readings: 1})
		}
	}
	p.Boundary = orb.Polygon{{{0, 0}, {12, 0}, {12, 9}, {0, 9}, {0, 0}}}
	return p
}

// With 16 heights of 50 mm at 4 x 3 m the fall of 1.2 % is under three
// standard errors: 0.05 / sqrt(4 * 45) = 0.37 points each way.
func TestAFallUnderThreeErrorsIsNotTold(t *testing.T) {
	a := assess(t, plane(0.011, 0.05))
	assert.False(t, a.Ground.Determined)
	assert.True(t, strings.HasPrefix(a.Ground.FallSaid, "cannot tell: between "), a.Ground.FallSaid)
	assert.Nil(t, a.Ground.RunoffBearing.Value)
	assert.NotEmpty(t, a.Ground.RunoffBearing.Reason)
	assert.NotEmpty(t, a.Ground.NextHeight, "the reading that would settle it is named")
	require.Len(t, a.Beds, 1)
	assert.False(t, a.Beds[0].EdgeFirm)
}

func TestLevelOnlyWhenTheUpperLimitIsUnderOnePercent(t *testing.T) {
	a := assess(t, plane(0.002, 0.005))
	assert.True(t, strings.HasPrefix(a.Ground.FallSaid, "level"), a.Ground.FallSaid)
	assert.Less(t, a.Ground.FallPercent.High, 1.0)
	b := assess(t, plane(0.009, 0.012))
	assert.False(t, strings.HasPrefix(b.Ground.FallSaid, "level"), b.Ground.FallSaid)
}

// Where the fall cannot be told the edge is decided at its upper limits: never
// milder than the same bed on ground known to fall that much.
func TestUntoldFallIsDecidedAtTheUpperLimit(t *testing.T) {
	unsure, sure := plane(0.03, 0.15), plane(0.09, 0.002)
	for _, p := range []*geodata.Plot{unsure, sure} {
		p.Fixtures = []geodata.Fixture{{
			Kind: geodata.BedKind, Name: "bed", Pinned: true,
			Shape: orb.Polygon{{{4, 5}, {7.6, 5}, {7.6, 6.2}, {4, 6.2}, {4, 5}}},
		}}
	}
	u := assess(t, unsure).Beds[0]
	require.Greater(t, u.FallPercent.High, 5.0)
	assert.NotEqual(t, frame.OpenEdged, u.Edge)
	assert.False(t, u.EdgeFirm)
	assert.Contains(t, u.EdgeBecause, "cannot tell")
	s := assess(t, sure).Beds[0]
	assert.Equal(t, s.EdgeRange[0], s.EdgeRange[1])
	assert.NotContains(t, s.EdgeBecause, "cannot tell")
}

// The defaults used for a file of heights alone are all named.
func TestAssumptionsAreNamed(t *testing.T) {
	var said []string
	for _, s := range assess(t, plane(0.08, 0)).Assumptions {
		said = append(said, s.What+": "+s.Value)
		assert.NotEmpty(t, s.Set, s.What)
	}
	all := strings.Join(said, "\n")
	for _, want := range []string{"hull of the heights", "+y axis", "metres unless", "3.6 m", "1.2 m", "150 mm", "soft wet turf topsoil", "number of beds: 1", "rain", "no sun", "no cost"} {
		assert.Contains(t, all, want)
	}
}

func TestShuffledHeightsGiveTheSameBytes(t *testing.T) {
	p := read(t, "hillside")
	first, err := json.Marshal(assess(t, p))
	require.NoError(t, err)
	for range 3 {
		again, err := json.Marshal(assess(t, p))
		require.NoError(t, err)
		require.Equal(t, string(first), string(again))
	}
	dir := t.TempDir()
	src := filepath.Join("..", "testdata", "hillside")
	for _, f := range []string{"features.csv", "rain.csv", "site.toml"} {
		data, err := os.ReadFile(filepath.Join(src, f))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, f), data, 0o600))
	}
	data, err := os.ReadFile(filepath.Join(src, "heights.csv"))
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(data)), "\n")
	r := rand.New(rand.NewPCG(1, 2))
	body := lines[3:]
	r.Shuffle(len(body), func(i, j int) { body[i], body[j] = body[j], body[i] })
	require.NoError(t, os.WriteFile(filepath.Join(dir, "heights.csv"), []byte(strings.Join(lines, "\n")+"\n"), 0o600))
	q, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	shuffled, err := json.Marshal(assess(t, q))
	require.NoError(t, err)
	require.Equal(t, string(first), string(shuffled))
}

func TestWorkingIsCompleteAndFinite(t *testing.T) {
	a := assess(t, read(t, "hillside-pinned"))
	ids := map[string]bool{}
	for _, b := range a.Working {
		assert.False(t, ids[b.ID], "%s twice", b.ID)
		ids[b.ID] = true
		assert.NotEmpty(t, b.Formula, b.ID)
		assert.NotEmpty(t, b.Source, b.ID)
		assert.LessOrEqual(t, b.Low, b.Value+1e-9, b.ID)
		assert.GreaterOrEqual(t, b.High, b.Value-1e-9, b.ID)
	}
	for _, id := range []string{"ground.fall", "ground.runoff-bearing", "water.design-rain", "water.winter-rain", "lower-slope.pegs.embedment", "lower-slope.compost"} {
		assert.True(t, ids[id], id)
	}
}

// The planned readings lie inside the boundary, off buildings, and each says
// what it helps to settle; none is planned unless asked.
func TestNextHeightsArePlannedWhereAsked(t *testing.T) {
	p := read(t, "hillside")
	one := 1
	p.Site.Beds.Count = &one
	p.Fixtures = append(p.Fixtures, drawnBed("bed 1", 6, 6)) // on ground where the fall leaves its edge open
	assert.Empty(t, assess(t, p).Ground.NextHeights)
	a, err := siting.Assess(context.Background(), p, siting.Options{Readings: 3})
	require.NoError(t, err)
	require.NotEmpty(t, a.Ground.NextHeights)
	assert.LessOrEqual(t, len(a.Ground.NextHeights), 3)
	open := false
	for _, b := range a.Beds {
		open = open || !b.EdgeFirm
	}
	require.True(t, open, "the readings are for beds that are not firm")
	for _, n := range a.Ground.NextHeights {
		assert.True(t, planar.PolygonContains(p.Boundary, n.At))
		require.NotEmpty(t, n.Settles)
		assert.Contains(t, n.Settles[0], "whether bed ")
	}
}

func TestCancelledWorkIsAnError(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a, err := siting.Assess(ctx, read(t, "hillside"), siting.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Nil(t, a)
}

func TestUnknownGroundWordIsAFault(t *testing.T) {
	p := plane(0.08, 0)
	p.Site.Ground.Thumb = "spongy"
	_, err := siting.Assess(context.Background(), p, siting.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, "spongy", faults[0].Read)
	assert.Contains(t, faults[0].Want, "soft wet turf topsoil")
}

func BenchmarkAssess(b *testing.B) {
	for _, plot := range []string{"hillside", "hillside-pinned"} {
		b.Run("plot="+plot, func(b *testing.B) {
			p := read(b, plot)
			for b.Loop() {
				assess(b, p)
			}
		})
	}
}
