package plotfolder_test

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExamplePlotsAreSound(t *testing.T) {
	for _, name := range []string{"hillside", "hillside-pinned"} {
		p, err := plotfolder.Read(filepath.Join("..", "..", "testdata", name), plotfolder.Options{})
		require.NoError(t, err, name)
		assert.Empty(t, codes(p.Notes, geodata.Warning), name)
		assert.NotNil(t, p.Site.Beds.Count, name)
		assert.Len(t, p.Site.Services, 7, name)
		assert.Len(t, p.Rain.Monthly, 12, name)
		assert.True(t, p.BoundaryDrawn, name)
	}
	p, err := plotfolder.Read(filepath.Join("..", "..", "testdata", "davis"), plotfolder.Options{})
	require.NoError(t, err)
	assert.Len(t, p.Spots, 52)
}

func TestSiteIsRead(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "site.toml": "\xef\xbb\xbfname = \"Plot 9\"\r\nunits = \"m\"\r\n[place]\r\nlatitude = 51\r\n" +
		"[beds]\ncount = 3\nlength_m = 3.6\n[boards]\nlengths_m = [3.6, 4]\n[services]\ngas = \"none, known by the deeds\"\ndrain = \"drawn\"\noil = \"unknown\"\nwater = \"located by a trial hole\"\n" +
		"[[acknowledged]]\ncaution = \"tree-roots\"\nby = \"the grower\"\ndate = \"2026-03-01\"\n"})
	assert.Equal(t, "Plot 9", p.Name)
	assert.Equal(t, 51.0, *p.Site.Place.Latitude)
	assert.Equal(t, 3, *p.Site.Beds.Count)
	assert.Nil(t, p.Site.Beds.Width, "not said")
	assert.Equal(t, []float64{3.6, 4}, p.Site.Boards.Lengths)
	assert.Equal(t, "drawn", p.Site.Services[geodata.Drain])
	assert.Equal(t, []geodata.Acknowledgement{{Caution: "tree-roots", By: "the grower", Date: "2026-03-01"}}, p.Site.Acknowledged)
}

func TestSiteFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		advice     []string // in the order of the faults
	}{
		{
			"unknown keys", "nmae = \"x\"\n[beds]\nlenght_m = 3\n  depth_cm = 15\n[place]\n\"élé\" = 3\n[bedz]\ncount = 3\n",
			[]string{
				"site-key-unknown at site.toml:1:1: nmae = \"x\"", "site-key-unknown at site.toml:3:1: lenght_m = 3",
				"site-key-unknown at site.toml:4:3: depth_cm = 15", "site-key-unknown at site.toml:6:1: \"élé\" = 3",
			},
			[]string{"write name", "write length_m", "write depth_mm"},
		},
		{"in the wrong table", "[place]\ndepth_mm = 150\n", []string{"site-key-unknown at site.toml:2:1: depth_mm = 150"}, []string{"write it as depth_mm under [beds]"}},
		{"types", "name = 3\n[beds]\ncount = 4.5\nlength_m = \"3.6\"\nwidth_m = 1,2\n", []string{"site-not-toml at site.toml:5:12: width_m = 1,2"}, []string{"write key = value"}},
		{
			"more types", "name = 3\n[beds]\ncount = 4.5\nlength_m = \"3.6\"\nwidth_m = true\n[boards]\nlengths_m = 3.6\n[[acknowledged]]\ncaution = \"a\"\nby = \"b\"\ndate = 2026-03-01\n",
			[]string{
				"site-wrong-type at site.toml:1:1: name = 3", "site-wrong-type at site.toml:3:1: count = 4.5",
				"site-wrong-type at site.toml:4:1: length_m = \"3.6\"", "site-wrong-type at site.toml:5:1: width_m = true",
				"site-wrong-type at site.toml:7:1: lengths_m = 3.6", "site-wrong-type at site.toml:11:1: date = 2026-03-01",
			},
			[]string{"write text in quotes", "write a whole number", "write a number, without quotes", "write a number", "write a list of numbers", "write text in quotes"},
		},
		{"in an inline table", "beds = {count = 4, length_m = \"3\"}\n", []string{"site-wrong-type at site.toml:1:20: beds = {count = 4, length_m = \"3\"}"}, []string{"write a number"}},
		{"unknown, wrong type and range at once", "[beds]\ncuont = 2\ncount = \"four\"\nwidth_m = 12\n",
			[]string{"site-key-unknown at site.toml:2:1: cuont = 2", "site-wrong-type at site.toml:3:1: count = \"four\"", "site-out-of-range at site.toml:4:1: width_m = 12"},
			[]string{"write count", "write a whole number", "write a number from 0.3 to 3"}},
		{"key twice", "[beds]\ncount = 4\ncount = 5\n", []string{"site-key-twice at site.toml:3:1: count = 5"}, []string{"keep one of the two"}},
		{"table twice", "[beds]\ncount = 4\n[beds]\nwidth_m = 1\n", []string{"site-not-toml at site.toml:3:2: [beds]"}, []string{"correct this line"}},
		{"no value", "[place]\nlatitude =\n", []string{"site-not-toml at site.toml:2:11: latitude ="}, []string{"write key = value"}},
		{"open text", "name = \"Plot\n[place]\n", []string{"site-not-toml at site.toml:1:13: name = \"Plot"}, []string{"write key = value"}},
		{"word", "coordinates = \"metres\"\nunits = \"feet\"\n[place]\nnorth = \"magnetc\"\n[ground]\ncover = \"turff\"\n",
			[]string{"site-word-unknown at site.toml:1:1: coordinates = \"metres\"", "site-word-unknown at site.toml:2:1: units = \"feet\"", "site-word-unknown at site.toml:4:1: north = \"magnetc\"", "site-word-unknown at site.toml:6:1: cover = \"turff\""},
			[]string{`write one of "local", "lonlat"`, `write one of "m", "ft"`, `write "magnetic"`, `write "turf"`}},
		{"bearing from no north", "[place]\ny_axis_bearing_degrees = 12\n", []string{"site-north-not-said at site.toml:2:1: y_axis_bearing_degrees = 12"}, []string{`north = "true"`}},
		{"services", "[services]\ngas = \"none\"\nelectrcity = \"drawn\"\nwater = \"located by \"\n",
			[]string{"site-service-words at site.toml:2:1: gas = \"none\"", "site-service-unknown at site.toml:3:1: electrcity = \"drawn\"", "site-service-words at site.toml:4:1: water = \"located by \""},
			[]string{`"none, known by ..."`, "write electricity", `"located by ..."`}},
		{"acknowledged", "[[acknowledged]]\ncaution = \"a\"\nby = \"b\"\ndate = \"2026-03-01\"\n[[acknowledged]]\ncaution = \"c\"\nby = \" \"\ndate = \"1 March\"\n[[acknowledged]]\ndate = \"2026-02-30\"\n",
			[]string{
				"site-acknowledged at site.toml:7:1: by = \" \"", "site-date at site.toml:8:1: date = \"1 March\"",
				"site-acknowledged at site.toml:10:1: date = \"2026-02-30\"", "site-acknowledged at site.toml:10:1: date = \"2026-02-30\"", "site-date at site.toml:10:1: date = \"2026-02-30\"",
			},
			[]string{"write by =", `"2026-03-01"`, "", "", `"2026-03-01"`}},
		{"not a number", "[beds]\nlength_m = nan\nwidth_m = inf\n", []string{"site-out-of-range at site.toml:2:1: length_m = nan", "site-out-of-range at site.toml:3:1: width_m = inf"}, []string{"from 0.3 to 30", "from 0.3 to 3"}},
		{"no lengths", "[boards]\nlengths_m = []\n", []string{"site-out-of-range at site.toml:2:1: lengths_m = []"}, []string{"at least one"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": sound, "site.toml": c.text})
			got := short(fs)
			require.GreaterOrEqual(t, len(got), len(c.want), "%v", got)
			assert.Equal(t, c.want, got[:len(c.want)])
			if c.name != "unknown keys" { // whose last two lines are faults of their own
				assert.Len(t, got, len(c.want))
			}
			for i, advice := range c.advice {
				assert.Contains(t, fs[i].Want, advice)
			}
		})
	}
}

// Both ends of every range are let pass, and nothing beyond them.
func TestEveryRangeOfSite(t *testing.T) {
	for _, r := range []struct {
		table, key string
		low, high  float64
		list       bool
	}{
		{"place", "latitude", -90, 90, false}, {"place", "longitude", -180, 180, false},
		{"ground", "reading_precision_mm", 1, 1000, false}, {"ground", "wet_cohesion_kpa", 0, 100, false},
		{"ground", "roughness_mm", 0, 100, false}, {"ground", "uphill_length_m", 0, 2000, false},
		{"beds", "count", 0, 200, false}, {"beds", "length_m", 0.3, 30, false}, {"beds", "width_m", 0.3, 3, false},
		{"beds", "depth_mm", 20, 600, false}, {"beds", "path_m", 0.2, 5, false},
		{"boards", "lengths_m", 0.3, 12, true}, {"boards", "heights_mm", 50, 600, true}, {"boards", "thicknesses_mm", 12, 75, true},
		{"boards", "durability_class", 1, 5, false}, {"boards", "life_years", 1, 50, false}, {"boards", "price_per_m", 0, 1e6, false}, {"boards", "kerf_mm", 0, 10, false},
		{"ground", "strength_kpa", 2, 200, false}, {"pegs", "spacing_m", 0.3, 1.8, false},
		{"pegs", "size_mm", 15, 150, false}, {"pegs", "price_each", 0, 1e6, false}, {"compost", "price_per_m3", 0, 1e6, false},
		{"carrying", "load_litres", 1, 1000, false}, {"carrying", "barrow_kg", 0, 200, false},
		{"carrying", "barrow_width_m", 0.3, 2, false}, {"carrying", "steepest_percent", 2, 30, false},
		{"rain", "winter_half_mm", 1, 10000, false}, {"rain", "m5_60_mm", 1, 200, false}, {"rain", "ratio_r", 0.05, 0.95, false},
	} {
		text := func(v float64) string {
			if r.list {
				return fmt.Sprintf("[%s]\n%s = [%g, %.0f]\n", r.table, r.key, v, r.high)
			}
			return fmt.Sprintf("[%s]\n%s = %s\n", r.table, r.key, strings.TrimSuffix(fmt.Sprintf("%.2f", v), ".00"))
		}
		for _, v := range []float64{r.low, r.high} {
			_, err := plotfolder.Read(folder(t, files{"heights.csv": sound, "site.toml": text(v)}), plotfolder.Options{})
			assert.NoError(t, err, text(v))
		}
		for _, v := range []float64{r.low - 1, r.high + 1} {
			fs := faults(t, files{"heights.csv": sound, "site.toml": text(v)})
			assert.Equal(t, []string{"site-out-of-range at site.toml:2:1: " + strings.TrimSpace(strings.SplitN(text(v), "\n", 2)[1])}, short(fs))
			want, _, _ := strings.Cut(fs[0].Want, ":") // a reason may follow
			assert.Equal(t, "write a number from "+plain(r.low)+" to "+plain(r.high), want)
		}
	}
}

func TestAnUnreadableSiteDoesNotMisleadTheOthers(t *testing.T) {
	fs := faults(t, files{
		"heights.csv": "name,x,y,z\na,0,0,29\nb,x,0,29\n", "plot.geojson": collection(feature(point(280, 95), `{"kind":"mrk"}`)),
		"site.toml": inMetres + "[beds\ncount = 3\n",
	})
	assert.Equal(t, []string{"not-a-number", "kind-unknown", "site-not-toml"}, codes(fs, geodata.Problem))
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// A range that is more than a guard against slips says why it is one.
func TestRangesSayWhy(t *testing.T) {
	for text, why := range map[string]string{
		"[boards]\nthicknesses_mm = [10, 25]\n": "rot through",
		"[boards]\nprice_per_m = -4\n":          "a price is nothing or more",
		"[beds]\nwidth_m = 3.2\n":               "reaches the middle",
	} {
		fs := faults(t, files{"heights.csv": sound, "site.toml": text})
		require.Len(t, fs, 1)
		assert.Contains(t, fs[0].Want, why)
	}
}
