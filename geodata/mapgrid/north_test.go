package mapgrid_test

import (
	"fmt"
	"math"
	"testing"

	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A published example (its source was not noted): a map printed in 2003 says magnetic
// north 5 degrees 30 minutes west of grid north, moving east by 9 minutes a year. In
// 2018: 15 * 9 = 135 minutes less, which leaves 3 degrees 15 minutes west.
func TestCompassInAnotherYear(t *testing.T) {
	printed := mapgrid.PrintedAngle{Angle: -rad(dms(5, 30, 0)), Year: 2003, PerYear: rad(dms(0, 9, 0))}
	a, err := printed.In(2018)
	require.NoError(t, err)
	assert.InDelta(t, -3.25, a.Value*180/math.Pi, 1e-12)
	assert.InDelta(t, 0.75, (a.High-a.Value)*180/math.Pi, 1e-12) // 15 years of 3 minutes
	assert.InDelta(t, 0.75, (a.Value-a.Low)*180/math.Pi, 1e-12)

	same, err := printed.In(2003)
	require.NoError(t, err)
	assert.Equal(t, same.Low, same.High)
	_, err = printed.In(2034)
	assert.ErrorIs(t, err, mapgrid.ErrDriftTooOld)
	_, err = printed.In(math.NaN())
	assert.ErrorIs(t, err, mapgrid.ErrDriftTooOld)
}

func TestBackSight(t *testing.T) {
	assert.InDelta(t, 0, mapgrid.BackSightOff(rad(30), rad(210)), 1e-12)
	assert.InDelta(t, rad(3), mapgrid.BackSightOff(rad(350), rad(173)), 1e-12)
	assert.InDelta(t, rad(-3), mapgrid.BackSightOff(rad(1), rad(178)), 1e-12)
	assert.Greater(t, math.Abs(mapgrid.BackSightOff(rad(350), rad(173))), mapgrid.MostBackSightOff)
}

// Half a degree west of the central meridian at 50.7 north the convergence is
// -0.5 sin 50.7 = -0.387 degrees, to first order; on the meridian it is none,
// and south of the equator it has the other sign.
func TestConvergence(t *testing.T) {
	g := byCode(t, 32630)
	c, err := g.Convergence(orb.Point{-3.5, 50.7})
	require.NoError(t, err)
	assert.InDelta(t, -0.5*math.Sin(rad(50.7)), c*180/math.Pi, 1e-4)

	on, err := g.NorthAt(orb.Point{-3, 50.7})
	require.NoError(t, err)
	assert.Equal(t, "grid north of the UTM zone 30 north on WGS84, which is true north here to a tenth of a degree", on)

	gb := byCode(t, 27700)
	words, err := gb.NorthAt(orb.Point{1.718, 52.658})
	require.NoError(t, err)
	assert.Equal(t, "grid north of the British National Grid, which lies 3.0 degrees east of true north here", words)

	south := byCode(t, 32755)
	c, err = south.Convergence(orb.Point{148, -37})
	require.NoError(t, err)
	assert.Negative(t, c)
}

func ExamplePrintedAngle_In() {
	printed := mapgrid.PrintedAngle{Angle: -5.5 * math.Pi / 180, Year: 2003, PerYear: 0.15 * math.Pi / 180}
	a, err := printed.In(2018)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f degrees, between %.2f and %.2f\n", a.Value*180/math.Pi, a.Low*180/math.Pi, a.High*180/math.Pi)
	// Output:
	// -3.25 degrees, between -4.00 and -2.50
}
