package siting_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/siting"
)

// claybank is the ground that the heights of testdata/claybank were made from, in
// metres; its README has the formula in feet.
func claybank(p orb.Point) float64 {
	const foot = 0.3048
	sin, cos := math.Sincos(30 * math.Pi / 180)
	w := (p[0]*sin + p[1]*cos) / foot
	soft := func(t float64) float64 { return math.Log1p(math.Exp(t)) }
	return foot * (100 + 0.13*w + 0.10*3*soft((w-26)/3) + 0.15*3*soft((w-58)/3))
}

// expectedOf reads what was written down about each bed before the program was run.
func expectedOf(t *testing.T, plot string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", plot, "expected.csv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// Steep clay in feet: the edges and the services are decided as they were written
// down beforehand from the ground's formula and the rules.
func TestClaybankIsDecidedAsExpected(t *testing.T) {
	a := assess(t, read(t, "claybank"))
	assert.InDelta(t, 64*0.3048, a.Frame.Width, 1e-9, "feet without a unit in the header")
	assert.InDelta(t, 56*0.3048, a.Frame.Depth, 1e-9)
	rows := expectedOf(t, "claybank")
	for _, row := range rows {
		b := bedOf(t, a, row[0])
		assert.Equal(t, row[1], string(b.Edge), "%s: %s", row[0], row[3])
		assert.Equal(t, row[2], serviceCaution(b), "%s: %s", row[0], row[3])
		assert.Equal(t, row[1] == "do not build here", b.Pegs == nil, row[0])
	}
	assert.Len(t, a.Beds, len(rows))
}

// Beds drawn 12 by 4 feet are that to the last digit, and their sides are cut from
// boards of 12 feet (3.658 m on sale), not from the next longer ones.
func TestBedsDrawnInFeetAreOfWholeInches(t *testing.T) {
	const foot = 0.3048
	a := assess(t, read(t, "claybank"))
	for _, b := range a.Beds {
		assert.InDelta(t, 12*foot, b.Length, 1e-9, b.Name)
		assert.InDelta(t, 4*foot, b.Width, 1e-9, b.Name)
	}
	pieces := 0
	for _, line := range a.Quantities.Boards {
		for _, c := range line.Cuts {
			for _, p := range c.Pieces {
				assert.LessOrEqual(t, p.Length, 12*1000*foot+1e-6, p.For)
				pieces++
			}
		}
		if len(line.Cuts) > 0 && line.Height > 200 { // one long side of each
			assert.InDelta(t, 3658, line.Length, 1e-6)
		}
	}
	assert.NotZero(t, pieces)
	assert.Contains(t, strings.Join(a.Quantities.Notes, "\n"), "2 of 3.658 m is the least board found, 7.316 m in all", "no length is told rounded to another board's")
}

// serviceCaution is the kind of caution that a service brings to a bed, "" for none.
func serviceCaution(b siting.Bed) string {
	for _, id := range b.Cautions {
		if kind, _, _ := strings.Cut(id, "."); strings.HasPrefix(kind, "service") {
			return kind
		}
	}
	return ""
}

// The true heights of the corners lie within what 0.03 ft of error in the
// heights allows.
func TestClaybankStandsWhereTheFormulaSays(t *testing.T) {
	for _, b := range assess(t, read(t, "claybank")).Beds {
		for _, c := range b.Corners {
			assert.InDelta(t, claybank(orb.Point{c[0], c[1]}), c[2], 4*0.03*0.3048, b.Name)
		}
		mid := func(i, j int) float64 {
			return claybank(orb.Point{(b.Corners[i][0] + b.Corners[j][0]) / 2, (b.Corners[i][1] + b.Corners[j][1]) / 2})
		}
		across, along := math.Abs(mid(0, 1)-mid(2, 3))*1000, math.Abs(mid(0, 3)-mid(1, 2))*1000
		assert.LessOrEqual(t, b.FallAcross.Low, across, b.Name)
		assert.GreaterOrEqual(t, b.FallAcross.High, across, b.Name)
		assert.LessOrEqual(t, b.FallAlong.Low, along, b.Name)
		assert.GreaterOrEqual(t, b.FallAlong.High, along, b.Name)
	}
}
