package levelbook_test

import (
	"strings"
	"testing"

	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The test of 0.0010 m in a metre of TestTwoPeg, booked before a run from 100.000
// with sights of 30 m back and 10 m fore, which it makes 20 mm too high.
func TestTwoPegTestInABook(t *testing.T) {
	const book = `station,back,fore,level,back length,fore length,instrument
A,1.476,,,20,,two-peg test
B,,1.432,,,20,
A,1.556,,,50,,two-peg test
B,,1.472,,,10,
BM,1.530,,100,30,,
P,,1.010,,,10,
`
	b, faults := levelbook.ReadLevels(strings.NewReader(book), "levels.csv", 0)
	require.Empty(t, faults)
	red, faults := b.Reduce(levelbook.Options{})
	assert.Equal(t, 0, faults.Problems())
	require.NotNil(t, red.PegTest)
	assert.InDelta(t, 0.0010, red.PegTest.E, 1e-12)
	assert.InDelta(t, 0.006/40, red.PegTest.Sigma, 1e-12)
	assert.InDelta(t, 20, red.PegTest.Unequal, 1e-12)
	require.Len(t, red.Runs, 1, "the pegs are no levels")
	require.Len(t, red.Stations, 2)
	assert.InDelta(t, 100.500, red.Stations[1].Level, 1e-9, "1.530 - 0.030 back, 1.010 - 0.010 fore")
}

// Booked from the other peg, and with the pegs' names in another case, the test
// says the same; what the readings' own errors hide corrects nothing.
func TestTwoPegTestEitherWay(t *testing.T) {
	b, _ := levelbook.ReadLevels(strings.NewReader("station,back,fore,back length,fore length,instrument\n"+
		"A,1.476,,20,,peg test\nB,,1.432,,20,\nb,1.472,,10,,peg test\na,,1.556,,50,\n"), "levels.csv", 0)
	red, faults := b.Reduce(levelbook.Options{})
	assert.Equal(t, 0, faults.Problems())
	require.NotNil(t, red.PegTest)
	assert.InDelta(t, 0.0010, red.PegTest.E, 1e-12)
	assert.True(t, red.PegTest.Tilted())

	small, ok := levelbook.TwoPeg(levelbook.PegStand{A: 1.476, B: 1.432, ToA: 20, ToB: 20}, levelbook.PegStand{A: 1.520, B: 1.472, ToA: 50, ToB: 10})
	require.True(t, ok)
	assert.False(t, small.Tilted(), "4 mm from four readings of 3 mm each")
}

func TestTwoPegTestFaults(t *testing.T) {
	const head = "station,back,fore,back length,fore length,instrument\n"
	for name, rows := range map[string]string{
		"one stand":      "A,1.476,,20,,two-peg test\nB,,1.432,,20,\n",
		"no lengths":     "A,1.476,,,,two-peg test\nB,,1.432,,20,\nA,1.556,,50,,two-peg test\nB,,1.472,,10,\n",
		"other pegs":     "A,1.476,,20,,two-peg test\nB,,1.432,,20,\nA,1.556,,50,,two-peg test\nC,,1.472,,10,\n",
		"equal sights":   "A,1.476,,20,,two-peg test\nB,,1.432,,20,\nA,1.556,,30,,two-peg test\nB,,1.472,,30,\n",
		"no foresight":   "A,1.476,,20,,two-peg test\nA,1.556,,50,,two-peg test\nB,,1.472,,10,\n",
		"a third stand":  "A,1.4,,20,,peg test\nB,,1.4,,20,\nA,1.5,,50,,peg test\nB,,1.4,,10,\nA,1.5,,50,,peg test\nB,,1.4,,10,\n",
		"the other twos": "A,1.4,,20,,peg test\nB,,1.4,,20,\nC,1.5,,50,,peg test\nD,,1.4,,10,\n",
	} {
		b, _ := levelbook.ReadLevels(strings.NewReader(head+rows), "levels.csv", 0)
		red, faults := b.Reduce(levelbook.Options{})
		assert.Contains(t, codes(faults), "two-peg-test", name)
		assert.Nil(t, red.PegTest, name)
	}
}
