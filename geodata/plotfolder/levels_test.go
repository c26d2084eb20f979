package plotfolder_test

import (
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The book is a textbook's: benchmark 49.872, reduced levels 49.556, 49.738,
// 50.567, 51.073, 50.775, last 48.710 (a public textbook page on rise and fall).
// The closing level is brought to 48.716, so that -6 mm over three set-ups is
// within 5 mm times their root; adjusted by 2 mm for each set-up, by hand.
const book = `station,back,inter,fore,level
BM,2.191,,,49.872
A,,2.507,,
B,,2.325,,
C,3.019,,1.496,
D,,2.513,,
E,1.752,,2.811,
TBM,,,3.817,48.716
`

func TestHeightsTakeTheirLevelsFromTheBook(t *testing.T) {
	dir := folder(t, map[string]string{
		"levels.csv":  book,
		"heights.csv": "name,x,y,z\nA,0,0,\nB,8,0,\n C ,0,6,\nd,8,6,\nextra,4,3,50.2\n",
	})
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	got := map[string]geodata.SpotHeight{}
	for _, s := range p.Spots {
		got[s.Name] = s
	}
	for name, want := range map[string]float64{"A": 49.558, "B": 49.740, "C": 50.569, "d": 51.077, "extra": 50.2} {
		assert.InDelta(t, want, got[name].Height, 1e-9, name)
	}
	assert.Greater(t, got["A"].Sigma, 0.010, "the ground under the staff is in it")
	assert.Zero(t, got["extra"].Sigma)
	var said []string
	for _, n := range p.Notes {
		if n.Code == "station-without-place" {
			said = append(said, n.Read)
		}
	}
	assert.Equal(t, []string{"E"}, said)
}

func TestColumnZMayBeLeftOut(t *testing.T) {
	dir := folder(t, map[string]string{"levels.csv": book, "heights.csv": "station,x,y\nA,0,0\nB,8,0\nC,0,6\n"})
	_, err := plotfolder.Read(dir, plotfolder.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults, "station is no header of heights.csv: names are needed")
	dir = folder(t, map[string]string{"levels.csv": book, "heights.csv": "name,x,y\nA,0,0\nB,8,0\nC,0,6\n"})
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	assert.Len(t, p.Spots, 3)
}

func TestBookThatDoesNotCloseIsNotUsed(t *testing.T) {
	bad := `station,back,inter,fore,level
BM,2.191,,,49.872
A,,2.507,,
C,3.019,,1.496,
TBM,,,3.817,48.719
`
	dir := folder(t, map[string]string{"levels.csv": bad, "heights.csv": "name,x,y,z\nA,0,0,\nC,0,6,\nother,5,5,\n"})
	_, err := plotfolder.Read(dir, plotfolder.Options{})
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	codes := map[string]int{}
	for _, f := range faults {
		codes[f.Code]++
	}
	assert.Equal(t, 2, codes["level-not-closed"], "%v", faults)
	assert.Equal(t, 1, codes["no-level"], "%v", faults)

	b, err := plotfolder.Books(dir)
	require.NoError(t, err)
	require.NotNil(t, b.Levels)
	assert.Equal(t, levelbook.NotClosed, b.Levels.Runs[0].Sections[0].Verdict)
}

func TestBooksOfAFolderWithoutAny(t *testing.T) {
	b, err := plotfolder.Books(t.TempDir())
	require.NoError(t, err)
	assert.Nil(t, b.Levels)
	assert.Nil(t, b.Ties)
}
