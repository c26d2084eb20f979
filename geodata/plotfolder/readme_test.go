package plotfolder_test

import (
	"os"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// block is the example in this folder's README that begins with a line.
func block(t *testing.T, first string) string {
	t.Helper()
	readme, err := os.ReadFile("README.md")
	require.NoError(t, err)
	_, after, found := strings.Cut(string(readme), "\n"+first)
	require.True(t, found, first)
	text, _, _ := strings.Cut(after, "```")
	return first + text
}

// What the README shows can be read as it stands.
func TestExamplesOfTheReadmeAreSound(t *testing.T) {
	book, faults := levelbook.ReadLevels(strings.NewReader(block(t, "station,back,inter")), "levels.csv", geodata.Metre)
	require.Zero(t, faults.Problems(), "%v", faults)
	reduced, found := book.Reduce(levelbook.Options{})
	require.Zero(t, found.Problems(), "%v", found)
	assert.Equal(t, levelbook.Closed, reduced.Runs[0].Sections[0].Verdict)
	require.NotNil(t, reduced.PegTest)
	assert.InDelta(t, 0.0010, reduced.PegTest.E, 1e-12)

	ties, faults := levelbook.ReadTies(strings.NewReader(block(t, "point,method,from")), "ties.csv", geodata.Metre)
	require.Zero(t, faults.Problems(), "%v", faults)
	assert.Len(t, ties.Rows, 18)
	assert.Empty(t, faults)
}

// What the README shows of rain is read as it stands; its records are too short
// to be used, and that is all that is wrong with them.
func TestRainOfTheReadmeIsSound(t *testing.T) {
	rain := plot(t, files{"heights.csv": sound, "rain.csv": block(t, "month,mm")}).Rain
	assert.Len(t, rain.Monthly, 12)
	rain = plot(t, files{"heights.csv": sound, "rain.csv": block(t, "minutes,years,mm"), "site.toml": block(t, "[rain]")}).Rain
	assert.Len(t, rain.Bursts, 5)
	for _, first := range []string{"date,mm", "time,mm"} {
		assert.Equal(t, []string{"record-too-short at rain.csv: "}, short(faults(t, files{"heights.csv": sound, "rain.csv": block(t, first)})), first)
	}
}

// What the README shows of what is drawn is read as it stands.
func TestFeaturesOfTheReadmeAreSound(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "features.csv": block(t, "kind,name,x (m)")})
	assert.Len(t, p.Boundary[0], 5)
	require.Len(t, p.OfKind(geodata.ServiceKind), 1)
	assert.Equal(t, "located by the owner's trench", p.OfKind(geodata.ServiceKind)[0].Located)
	assert.Len(t, p.Fixtures, 4, "hedge, tree, cable and mark")
}
