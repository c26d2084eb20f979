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

// A ring of three equal sides of 5 m whose angles sum to 179 degrees 57 minutes
// (U.S. Navy training manual NAVEDTRA 14071 balances such a sum by 1 minute each):
// balanced, they close it exactly on the mark it began at. Walked the other way
// the angles turned are 360 degrees less those.
func TestTurnedAnglesOfARingAreBalanced(t *testing.T) {
	for name, angles := range map[string][3]string{
		"ground on the left":  {"59-59", "59-59", "59-59"},
		"ground on the right": {"300-01", "300-01", "300-01"},
	} {
		rows := "A,traverse,shed,,90,5\nB,angle,A,," + angles[0] + ",5\nshed,angle,B,," + angles[1] + ",5\nA,angle,shed,," + angles[2] + ",5\n"
		places, told := placesOf(t, rows)
		assert.Contains(t, codes(told), "angles-balanced", name)
		assert.InDelta(t, marks[0].At[0]+5, places["A"].Where[0], 1e-9, name)
		side := 1.0
		if angles[0] == "300-01" {
			side = -1
		}
		assert.InDelta(t, marks[0].At[0]+2.5, places["B"].Where[0], 1e-9, name)
		assert.InDelta(t, marks[0].At[1]+side*5*math.Sqrt(3)/2, places["B"].Where[1], 1e-9, name)
	}
}

func TestTurnedAngles(t *testing.T) {
	// East 6 m, then 90 degrees clockwise from the line back: north.
	places, told := placesOf(t, "A,traverse,shed,,90,6\nB,angle,A,,90,4\n")
	assert.Contains(t, codes(told), "traverse-open")
	assert.InDelta(t, marks[0].At[0]+6, places["B"].Where[0], 1e-9)
	assert.InDelta(t, marks[0].At[1]+4, places["B"].Where[1], 1e-9)

	_, told = placesOf(t, "A,traverse,shed,,90,5\nB,angle,A,,55,5\nshed,angle,B,,55,5\nA,angle,shed,,55,5\n")
	assert.Contains(t, codes(told), "angles-misclosure")
	_, told = placesOf(t, "B,angle,shed,,90,4\n")
	assert.Contains(t, codes(told), "angle-alone")
}

func placesOf(t *testing.T, rows string) (map[string]levelbook.Place, geodata.Faults) {
	t.Helper()
	ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+rows), "ties.csv", 0)
	require.Zero(t, faults.Problems(), "%v", faults)
	sol, told := ties.Solve(marks, nil, levelbook.TieOptions{})
	out := map[string]levelbook.Place{}
	for _, p := range sol.Places {
		out[p.Station] = p
	}
	return out, told
}
