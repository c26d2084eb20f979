package plotfolder_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// handled reads a folder of three heights with the given [ground].
func handled(t *testing.T, ground string) (*geodata.Plot, error) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"heights.csv": "name,x,y,z\na,0,0,10\nb,9,0,10.2\nc,0,9,10.4\nd,9,9,10.6\n",
		"site.toml":   "[ground]\n" + ground,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	return plotfolder.Read(dir, plotfolder.Options{})
}

func TestHandTestAndTestPitAreRead(t *testing.T) {
	p, err := handled(t, "ribbon = \"25 to 50 mm\"\nfeel = \"gritty\"\ntest_pit = { length_m = 1.0, width_m = 0.75, from_m = 0.75, to_m = 0.25, minutes = 56 }\n")
	require.NoError(t, err)
	assert.Equal(t, "25 to 50 mm", p.Site.Ground.Ribbon)
	assert.Equal(t, "gritty", p.Site.Ground.Feel)
	require.NotNil(t, p.Site.Ground.TestPit)
	assert.Equal(t, 56., *p.Site.Ground.TestPit.Minutes)
	p, err = handled(t, "texture = \"sandy loam\"\n")
	require.NoError(t, err)
	assert.Equal(t, "sandy loam", p.Site.Ground.Texture)
}

func TestHalfAHandTestIsRefused(t *testing.T) {
	for ground, code := range map[string]string{
		"ribbon = \"over 50 mm\"\n":               "site-hand-test-half",
		"feel = \"smooth\"\n":                     "site-hand-test-half",
		"ribbon = \"40 mm\"\nfeel = \"gritty\"\n": "site-word-unknown",
		"texture = \"sandy lome\"\n":              "site-word-unknown",
		"test_pit = { length_m = 1.0 }\n":         "site-test-pit-half",
		"test_pit = { length_m = 1.0, width_m = 0.75, from_m = 0.25, to_m = 0.75, minutes = 56 }\n": "site-test-pit-half",
		"test_pit = { length_m = 100, width_m = 0.75, from_m = 0.75, to_m = 0.25, minutes = 56 }\n": "site-out-of-range",
	} {
		_, err := handled(t, ground)
		var faults geodata.Faults
		require.ErrorAs(t, err, &faults, ground)
		assert.Equal(t, code, faults[0].Code, ground)
		assert.Equal(t, "site.toml", filepath.Base(faults[0].Pos.File))
		assert.NotEmpty(t, faults[0].Want)
	}
}

// What the README shows of the soil is read as it stands.
func TestSoilOfTheReadmeIsSound(t *testing.T) {
	p, err := handled(t, strings.TrimPrefix(block(t, "[ground]"), "[ground]"))
	require.NoError(t, err)
	assert.Equal(t, "smooth", p.Site.Ground.Feel)
	assert.Equal(t, 40., *p.Site.Ground.TestPit.Minutes)
}
