package plotfolder_test

import (
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadSoFar has two heights, a boundary and a bed: too little to assess, and
// all of it is there to be shown.
func TestReadSoFar(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"site.toml":    "name = \"Begun\"\ncoordinates = \"local\"\n",
		"heights.csv":  "name,x,y,z\na,1,1,10\nb,4,1,10.2\n",
		"features.csv": "kind,name,x,y\nboundary,plot,0,0\nboundary,plot,9,0\nboundary,plot,9,9\nmark,post,2,3\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	_, err := plotfolder.Read(dir, plotfolder.Options{})
	require.Error(t, err, "two heights make no ground")

	p, err := plotfolder.ReadSoFar(dir)
	require.NoError(t, err)
	assert.Equal(t, "Begun", p.Name)
	assert.Len(t, p.Spots, 2)
	assert.Len(t, p.Boundary, 1)
	assert.Len(t, p.Fixtures, 1)
}

func TestReadSoFarOfNothing(t *testing.T) {
	p, err := plotfolder.ReadSoFar(t.TempDir())
	require.NoError(t, err)
	assert.Empty(t, p.Spots)
	_, err = plotfolder.ReadSoFar(filepath.Join(t.TempDir(), "none"))
	require.Error(t, err)
}

// Before there are heights a plot lies where it is drawn.
func TestReadSoFarOfDegreesAlone(t *testing.T) {
	dir := folder(t, files{"features.csv": "kind,name,lon,lat\nmark,a,-3.5,50.7\nmark,b,-3.4998,50.7\n"})
	p, err := plotfolder.ReadSoFar(dir)
	require.NoError(t, err)
	require.Len(t, p.Fixtures, 2)
	assert.True(t, p.Frame.Geographic)
	require.NoError(t, plotfolder.EditFeatures(dir, fingerprint(t, dir), []plotfolder.FeatureEdit{{Kind: geodata.MarkKind, Name: "c", Put: &geodata.Fixture{Shape: p.Fixtures[0].Shape}}}))
	assert.Equal(t, "kind,name,lon,lat\nmark,a,-3.5,50.7\nmark,b,-3.4998,50.7\nmark,c,-3.5,50.7\n", content(t, filepath.Join(dir, "features.csv")))
}
