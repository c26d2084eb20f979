package levelbook_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// levelsOf solves ties from a mark at 10.000 m called peg.
func levelsOf(t *testing.T, rows string) (map[string]levelbook.StationLevel, levelbook.Solution, geodata.Faults) {
	t.Helper()
	ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+rows), "ties.csv", 0)
	require.Zero(t, faults.Problems(), "%v", faults)
	sol, told := ties.Solve([]levelbook.Mark{{Name: "peg", Height: 10, HasHeight: true}}, nil, levelbook.TieOptions{})
	out := map[string]levelbook.StationLevel{}
	for _, l := range sol.Levels {
		out[l.Station] = l
	}
	return out, sol, told
}

// A water tube of one step each from the peg over A, B and C back: rises of
// +0.300, -0.100, +0.200 and -0.412 sum to -0.012. Each of four steps gets a
// quarter, 3 mm: 10.303, 10.206, 10.409. D hangs on B by +0.050 and moves with it.
func TestALoopOfRisesIsSpreadByItsSteps(t *testing.T) {
	levels, sol, told := levelsOf(t, `A,water tube,peg,,1.300,1.000
B,water tube,A,,1.000,1.100
C,water tube,B,,1.300,1.100
D,water tube,B,,1.100,1.050
peg,water tube,C,,1.000,1.412
`)
	assert.Zero(t, told.Problems())
	for station, want := range map[string]float64{"A": 10.303, "B": 10.206, "C": 10.409, "D": 10.256} {
		assert.InDelta(t, want, levels[station].Level, 1e-9, station)
		assert.False(t, levels[station].Failed)
	}
	last := sol.Results[4]
	require.NotNil(t, last.Misclosure)
	assert.InDelta(t, -0.012, *last.Misclosure, 1e-9)
	assert.InDelta(t, 0.020, last.Allowance, 1e-9, "10 mm times the root of 4 steps")
	assert.True(t, last.Spread)
}

// An A-frame of 3 steps and one of 1: the misclosure of 16 mm is spread 3 to 1.
func TestALoopIsSpreadByTheStepsOfEachRow(t *testing.T) {
	levels, _, told := levelsOf(t, "A,a-frame,peg,,0.500,,,,,,,,3\npeg,a-frame,A,,,0.516,,,,,,,1\n")
	assert.Zero(t, told.Problems())
	assert.InDelta(t, 10.500+0.016*3/4, levels["A"].Level, 1e-9)
}

// A loop that does not close is not spread, and gives no heights.
func TestALoopThatDoesNotCloseIsRefused(t *testing.T) {
	levels, sol, told := levelsOf(t, "A,water tube,peg,,1.3,1\nB,water tube,A,,1,1.1\npeg,water tube,B,,1,1.3\nC,water tube,B,,1,1.1\nD,water tube,peg,,1,1.1\n")
	assert.Contains(t, codes(told), "height-disagrees")
	assert.InDelta(t, 10.3, levels["A"].Level, 1e-9)
	assert.True(t, levels["A"].Failed)
	assert.True(t, levels["B"].Failed)
	assert.True(t, levels["C"].Failed, "it hangs on B")
	assert.False(t, levels["D"].Failed)
	_, found := levelbook.Heights(nil, sol)
	assert.Contains(t, codes(found), "level-not-closed")
	assert.Positive(t, found.Problems())
}

// Two loops that share a side: by hand from the normal equations. peg-A +1.000,
// A-B +1.000, B-peg -2.010; A-C +0.500, C-B +0.510; all of one weight. With a, b,
// c the changes of 11, 12, 11.5: 3a-b-c = 0, 3b-a-c = 0.010+0.010, 2c-a-b = -0.010.
func TestLoopsThatShareASide(t *testing.T) {
	levels, _, told := levelsOf(t, `A,water tube,peg,,2.0,1.0
B,water tube,A,,2.0,1.0
C,water tube,A,,1.5,1.0
peg,water tube,B,,0,2.010
B,water tube,C,,1.510,1.0
`)
	assert.Zero(t, told.Problems())
	a, b, c := levels["A"].Level-11, levels["B"].Level-12, levels["C"].Level-11.5
	assert.InDelta(t, 0, 3*a-b-c, 1e-9)
	assert.InDelta(t, 0.020, 3*b-a-c, 1e-9)
	assert.InDelta(t, -0.010, 2*c-a-b, 1e-9)
}
