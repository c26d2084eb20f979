package frame_test

import (
	"testing"

	"crossfall/siting/frame"

	"github.com/stretchr/testify/assert"
)

// A channel above is asked for by over 3 mm of water, over half a litre a
// second, or over 20 m of slope steeper than 10 % (defaults), and changes no
// class by itself.
func TestChannelIsAskedFor(t *testing.T) {
	for _, c := range []struct {
		name               string
		sheet, flow, above float64
		across             float64
		want               string
	}{
		{"at the limits", .003, .5, 20, .04, ""},
		{"deep", .0031, 0, 0, .04, "3.1 mm (over 3 mm) deep"},
		{"much", .001, .51, 0, .04, "0.51 litres of water a second"},
		{"off a long slope", .001, .1, 21, .11, "off 21 m of slope above (over 20 m) on a fall of 11 % (over 10 %)"},
		{"off a long gentle slope", .001, .1, 21, .10, ""},
	} {
		k := usual(c.across, 0)
		k.SheetDepth, k.Flow, k.Above = c.sheet, c.flow, c.above
		d := frame.Decide(k)
		assert.Equal(t, c.want != "", d.Channel != "", c.name)
		assert.Contains(t, d.Channel, c.want)
		k.Flow, k.Above = 0, 0
		assert.Equal(t, frame.ClassOf(k), d.Class, c.name)
	}
}

// Ground that bends 30 mm deeper than a plane takes boards 30 mm higher and
// holds back 30 mm more.
func TestBendCountsAtEveryBoard(t *testing.T) {
	c := usual(.08, 0)
	flat := frame.Decide(c)
	c.Bend = .03
	bent := frame.Decide(c)
	assert.InDelta(t, flat.Retained.Downhill+.03, bent.Retained.Downhill, 1e-9)
	assert.Greater(t, bent.Boards.Downhill.Needed-bent.Boards.Sunken, flat.Boards.Downhill.Needed-flat.Boards.Sunken)
	assert.GreaterOrEqual(t, bent.Pegs.FactorWinter, 2.0)
	assert.Greater(t, bent.Pegs.Load/bent.Pegs.Spacing, flat.Pegs.Load/flat.Pegs.Spacing)
}
