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

// bedsOf reads a plot of five heights with a site.toml.
func bedsOf(t *testing.T, site string) (geodata.BedWish, geodata.Faults) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "heights.csv"), []byte("name,x (m),y (m),z (m)\na,0,0,1\nb,9,0,1\nc,9,9,2\nd,0,9,2\ne,4,5,1.5\n"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "site.toml"), []byte(site), 0o600))
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	if err != nil {
		var faults geodata.Faults
		require.ErrorAs(t, err, &faults)
		return geodata.BedWish{}, faults
	}
	return p.Site.Beds, nil
}

func TestWishesForRows(t *testing.T) {
	b, faults := bedsOf(t, block(t, "[beds]\nmost = true"))
	require.Empty(t, faults)
	assert.True(t, b.Most && b.Columns && b.Pairs)
	assert.Equal(t, 2, *b.RowMin)
	assert.InDelta(t, 0.45, *b.PairPath, 0)
	assert.InDelta(t, 2, *b.Sun, 0)
	assert.InDelta(t, 1, *b.Carrying, 0)
}

func TestWishesForRowsThatContradict(t *testing.T) {
	for site, code := range map[string]string{
		"[beds]\nmost = true\ncount = 4\n":                        "site-beds-counted-twice",
		"[beds]\npair_path_m = 0.4\n":                             "site-pair-path",
		"[beds]\npairs = true\npath_m = 0.5\npair_path_m = 0.6\n": "site-pair-path",
		"[beds]\nrow_min = 0\n":                                   "site-out-of-range",
		"[beds]\nsun_counts = 11\n":                               "site-out-of-range",
		"[beds]\ncarrying_counts = -1\n":                          "site-out-of-range",
		"[beds]\npairs = true\npair_path_m = 0.1\n":               "site-out-of-range",
	} {
		_, faults := bedsOf(t, site)
		require.Len(t, faults, 1, site)
		assert.Equal(t, code, faults[0].Code, site)
		assert.Positive(t, faults[0].Pos.Line, site)
	}
	_, faults := bedsOf(t, "[beds]\nmost = false\ncount = 4\n")
	assert.Empty(t, faults)
}
