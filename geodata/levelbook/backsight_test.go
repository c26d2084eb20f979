package levelbook_test

import (
	"strings"
	"testing"

	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
)

// A line read from both ends must give bearings 180 degrees apart, within 2.
func TestBackBearings(t *testing.T) {
	for back, want := range map[string]bool{"215.5": false, "217.4": false, "218.5": true, "35.5": true} {
		ties, faults := levelbook.ReadTies(strings.NewReader(tieHeader+"P,bearing,shed,,35.5,5\nshed,bearing,P,,"+back+",5\n"), "ties.csv", 0)
		assert.Empty(t, faults.Problems())
		_, told := ties.Solve(marks, nil, levelbook.TieOptions{})
		assert.Equal(t, want, strings.Contains(strings.Join(codes(told), " "), "back-bearing"), back)
	}
}
