package plotfolder_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// edited is site.toml after a change of some settings.
func edited(t *testing.T, before string, set ...plotfolder.Setting) string {
	t.Helper()
	dir := folder(t, files{"site.toml": before})
	require.NoError(t, plotfolder.EditSite(dir, fingerprint(t, dir), set))
	return content(t, filepath.Join(dir, "site.toml"))
}

func TestEditSiteTouchesOneValueOnly(t *testing.T) {
	count := plotfolder.Setting{Key: "beds.count", Value: int64(5)}
	for _, c := range []struct {
		name, before string
		set          plotfolder.Setting
		after        string
	}{
		{"a value", "# wishes\n[beds]\ncount = 4 # four\nwidth_m = 1.20\n", count, "# wishes\n[beds]\ncount = 5 # four\nwidth_m = 1.20\n"},
		{"an example", "[beds]\n# count = 4   # of all\nwidth_m = 1.2\n", count, "[beds]\ncount = 5   # of all\nwidth_m = 1.2\n"},
		{"no blank behind the #", "[beds]\n#count = 4\n", count, "[beds]\ncount = 5\n"},
		{"words are no example", "[beds]\n# the count = 4 was too few\nwidth_m = 1\n", count, "[beds]\n# the count = 4 was too few\nwidth_m = 1\ncount = 5\n"},
		{"another table's example", "[beds]\n# [old]\n# count = 4\n", count, "[beds]\ncount = 5\n# [old]\n# count = 4\n"},
		{"behind the others", "[beds]\nwidth_m = 1.2 # wide\n\n[pegs]\nsize_mm = 50\n", count, "[beds]\nwidth_m = 1.2 # wide\ncount = 5\n\n[pegs]\nsize_mm = 50\n"},
		{"under the header", "[beds] # wishes\n", count, "[beds] # wishes\ncount = 5\n"},
		{"a last line without its end", "[beds]\nwidth_m = 1.2", count, "[beds]\nwidth_m = 1.2\ncount = 5\n"},
		{"a new table", "name = \"a\"\n", count, "name = \"a\"\n\n[beds]\ncount = 5\n"},
		{"an empty file", "", count, "[beds]\ncount = 5\n"},
		{"Windows line ends", "[beds]\r\nwidth_m = 1\r\n", count, "[beds]\r\nwidth_m = 1\r\ncount = 5\r\n"},
		{"a mark at the beginning", "\xef\xbb\xbf[beds]\ncount = 4\n", count, "\xef\xbb\xbf[beds]\ncount = 5\n"},
		{"dotted keys", "beds.width_m = 1.2\nname = \"a\"\n", count, "beds.width_m = 1.2\nbeds.count = 5\nname = \"a\"\n"},
		{"a dotted key", "beds . \"count\" = 4\n", count, "beds . \"count\" = 5\n"},
		{"an inline table", "beds = { width_m = 1.2 } # b\n", count, "beds = { width_m = 1.2, count = 5 } # b\n"},
		{"an empty inline table", "beds = {}\n", count, "beds = { count = 5 }\n"},
		{"a member of an inline table", "beds = { count=4, width_m = 1.2 }\n", count, "beds = { count=5, width_m = 1.2 }\n"},
		{"quoted header and key", "[\"beds\"]\n'count' = 4\n", count, "[\"beds\"]\n'count' = 5\n"},
		{"at the top", "# about\n\n[pegs]\nsize_mm = 50\n", plotfolder.Setting{Key: "name", Value: "x"}, "# about\nname = \"x\"\n\n[pegs]\nsize_mm = 50\n"},
		{"a text", "name = 'a'\n", plotfolder.Setting{Key: "name", Value: "the \"old\" \\ field\n"}, "name = \"the \\\"old\\\" \\\\ field\\u000A\"\n"},
		{"a list", "[boards]\nlengths_m = [\n  3.6,\n  4.8,\n] # on sale\nkerf_mm = 3\n", plotfolder.Setting{Key: "boards.lengths_m", Value: []float64{2.4, 3}}, "[boards]\nlengths_m = [2.4, 3] # on sale\nkerf_mm = 3\n"},
		{"the spelling of the same value", "[boards]\nprice_per_m = 4.20\nlengths_m = [ 3.60,\n4.8 ]\n", plotfolder.Setting{Key: "boards.lengths_m", Value: []float64{3.6, 4.8}}, "[boards]\nprice_per_m = 4.20\nlengths_m = [ 3.60,\n4.8 ]\n"},
		{"a service", "[services]\ngas = \"unknown\"\n", plotfolder.Setting{Key: "services.oil", Value: "drawn"}, "[services]\ngas = \"unknown\"\noil = \"drawn\"\n"},
		{"a table in a table", "[ground]\ncover = \"turf\"\ntest_pit.length_m = 0.3\ntest_pit.width_m = 0.3\ntest_pit.from_m = 0.4\ntest_pit.to_m = 0.1\ntest_pit.minutes = 9\n",
			plotfolder.Setting{Key: "ground.test_pit.minutes", Value: 7.5}, "[ground]\ncover = \"turf\"\ntest_pit.length_m = 0.3\ntest_pit.width_m = 0.3\ntest_pit.from_m = 0.4\ntest_pit.to_m = 0.1\ntest_pit.minutes = 7.5\n"},
		{"taken out", "[beds]\n  count = 4 # four\nwidth_m = 1.2\n", plotfolder.Setting{Key: "beds.count"}, "[beds]\n#   count = 4 # four\nwidth_m = 1.2\n"},
		{"a list taken out", "[boards]\nlengths_m = [\n  3.6, # short\n]\nkerf_mm = 3", plotfolder.Setting{Key: "boards.lengths_m"}, "[boards]\n# lengths_m = [\n#   3.6, # short\n# ]\nkerf_mm = 3"},
		{"a member taken out", "beds = { count = 4, width_m = 1.2 }\n", plotfolder.Setting{Key: "beds.count"}, "beds = { width_m = 1.2 }\n"},
		{"the last member taken out", "beds = { count = 4, width_m = 1.2 }\n", plotfolder.Setting{Key: "beds.width_m"}, "beds = { count = 4 }\n"},
		{"the only member taken out", "beds = {count = 4}\n", plotfolder.Setting{Key: "beds.count"}, "beds = {}\n"},
		{"what is not there", "name = \"a\"\n", plotfolder.Setting{Key: "beds.count"}, "name = \"a\"\n"},
		{"an inline table taken out", "[ground]\ntest_pit = { length_m = 1, width_m = 1, from_m = 0.4, to_m = 0.1, minutes = 9 }\n", plotfolder.Setting{Key: "ground.test_pit"}, "[ground]\n# test_pit = { length_m = 1, width_m = 1, from_m = 0.4, to_m = 0.1, minutes = 9 }\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.after, edited(t, c.before, c.set))
		})
	}
}

func TestEditSiteMakesTheFileAndKeepsTheOneBefore(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	require.NoError(t, plotfolder.EditSite(dir, fingerprint(t, dir), []plotfolder.Setting{
		{Key: "name", Value: "Top"}, {Key: "place.latitude", Value: -41.25}, {Key: "beds.count", Value: 3}, {Key: "beds.width_m", Value: 1.2}}))
	first := content(t, filepath.Join(dir, "site.toml"))
	assert.Equal(t, "name = \"Top\"\n\n[place]\nlatitude = -41.25\n\n[beds]\ncount = 3\nwidth_m = 1.2\n", first)
	assert.Equal(t, []string{"heights.csv", "site.toml"}, names(t, dir))
	require.NoError(t, plotfolder.EditSite(dir, fingerprint(t, dir), []plotfolder.Setting{{Key: "name", Value: "Bottom"}}))
	assert.Equal(t, first, content(t, filepath.Join(dir, "site.toml.before")))
	require.NoError(t, plotfolder.EditSite(dir, fingerprint(t, dir), []plotfolder.Setting{{Key: "name", Value: "Bottom"}}))
	assert.Equal(t, first, content(t, filepath.Join(dir, "site.toml.before")), "nothing changed: nothing was written")
}

func TestEditSiteRefusesAndWritesNothing(t *testing.T) {
	for name, c := range map[string]struct {
		before string
		set    plotfolder.Setting
		said   string
	}{
		"out of range":       {"[beds]\ncount = 4\n", plotfolder.Setting{Key: "beds.width_m", Value: 12.0}, "site.toml:3:1: beds.width_m is 12"},
		"a wrong type":       {"[beds]\ncount = 4\n", plotfolder.Setting{Key: "beds.count", Value: "four"}, "holds a value of another sort"},
		"not whole":          {"[beds]\ncount = 4\n", plotfolder.Setting{Key: "beds.count", Value: 4.5}, "holds a value of another sort"},
		"no such word":       {"", plotfolder.Setting{Key: "units", Value: "yards"}, `units is "yards"`},
		"no such key":        {"", plotfolder.Setting{Key: "beds.depth", Value: 1.0}, "the settings here are count, length_m, width_m, depth_mm, path_m"},
		"another fault":      {"[beds]\ncount = 400\n", plotfolder.Setting{Key: "name", Value: "x"}, "beds.count is 400"},
		"not TOML":           {"[beds\n", plotfolder.Setting{Key: "name", Value: "x"}, "cannot be read from here on"},
		"not UTF-8":          {"# caf\xe9\n", plotfolder.Setting{Key: "name", Value: "x"}, "save it as UTF-8 first"},
		"remarks in a list":  {"[boards]\nlengths_m = [\n3.6, # short\n]\n", plotfolder.Setting{Key: "boards.lengths_m", Value: []float64{2}}, "would be lost"},
		"remarks in a table": {"beds = {\ncount = 4, # four\nwidth_m = 1.2 }\n", plotfolder.Setting{Key: "beds.count"}, "would be lost"},
		"a whole table":      {"[ground.test_pit]\nlength_m = 1\nwidth_m = 1\nfrom_m = 0.4\nto_m = 0.1\nminutes = 9\n", plotfolder.Setting{Key: "ground.test_pit"}, "without touching the rest"},
		"a table's value":    {"", plotfolder.Setting{Key: "beds", Value: "x"}, "write a table, [beds]"},
		"a list of tables":   {"", plotfolder.Setting{Key: "acknowledged.by", Value: "x"}, "added to, and not changed"},
		"no number":          {"", plotfolder.Setting{Key: "beds.width_m", Value: math.NaN()}, "does not hold this"},
		"no value":           {"", plotfolder.Setting{Key: "beds.width_m", Value: struct{}{}}, "does not hold this"},
		"a half":             {"", plotfolder.Setting{Key: "ground.test_pit.length_m", Value: 1.0}, "a figure of the test pit is missing"},
	} {
		dir := folder(t, files{"site.toml": c.before})
		err := plotfolder.EditSite(dir, fingerprint(t, dir), []plotfolder.Setting{{Key: "compost.currency", Value: "GBP"}, c.set})
		var told geodata.Faults
		require.True(t, errors.As(err, &told), "%s: %v", name, err)
		assert.ErrorContains(t, err, c.said, name)
		assert.Equal(t, c.before, content(t, filepath.Join(dir, "site.toml")), name)
		assert.Equal(t, []string{"site.toml"}, names(t, dir), name)
	}
}

func TestEditSiteRefusesWhatWasNotSeen(t *testing.T) {
	dir := folder(t, files{"site.toml": "name = \"a\"\n", "heights.csv": sound})
	seen := fingerprint(t, dir)
	require.NoError(t, plotfolder.AppendRow(filepath.Join(dir, "heights.csv"), ',', []string{"e", "1", "1", "29"}))
	set := []plotfolder.Setting{{Key: "name", Value: "b"}}
	assert.ErrorIs(t, plotfolder.EditSite(dir, seen, set), plotfolder.ErrChanged)
	assert.ErrorIs(t, plotfolder.EditSite(dir, "", set), plotfolder.ErrChanged)
	assert.ErrorIs(t, plotfolder.Acknowledge(dir, seen, geodata.Acknowledgement{}), plotfolder.ErrChanged)
	assert.Equal(t, "name = \"a\"\n", content(t, filepath.Join(dir, "site.toml")))
	assert.ErrorContains(t, plotfolder.EditSite(filepath.Join(dir, "heights.csv"), seen, set), "no plot folder")
}

// Of two who have seen the same files one changes them and the other is told.
func TestTwoWritersOfOneSite(t *testing.T) {
	for range 20 {
		dir := folder(t, files{"site.toml": "[beds]\ncount = 1\n"})
		seen := fingerprint(t, dir)
		var all sync.WaitGroup
		errs := make([]error, 4)
		for i := range errs {
			all.Go(func() {
				errs[i] = plotfolder.EditSite(dir, seen, []plotfolder.Setting{{Key: "beds.count", Value: 2 + i}})
			})
		}
		all.Wait()
		written := 0
		for i, err := range errs {
			if err == nil {
				written++
				site, err := plotfolder.ReadSite(dir)
				require.NoError(t, err)
				assert.Equal(t, 2+i, *site.Beds.Count)
				continue
			}
			assert.ErrorIs(t, err, plotfolder.ErrChanged)
		}
		assert.Equal(t, 1, written)
	}
}

func TestAcknowledgeAppends(t *testing.T) {
	dir := folder(t, files{"site.toml": "name = \"a\" # kept"})
	one := geodata.Acknowledgement{Caution: "service-near", By: `Ann "the spade"`, Date: "2026-03-01"}
	two := geodata.Acknowledgement{Caution: "wet", By: "Ben", Date: "2026-03-02"}
	for _, a := range []geodata.Acknowledgement{one, two} {
		require.NoError(t, plotfolder.Acknowledge(dir, fingerprint(t, dir), a))
	}
	site, err := plotfolder.ReadSite(dir)
	require.NoError(t, err)
	assert.Equal(t, []geodata.Acknowledgement{one, two}, site.Acknowledged)
	text := content(t, filepath.Join(dir, "site.toml"))
	assert.True(t, strings.HasPrefix(text, "name = \"a\" # kept\n\n[[acknowledged]]\ncaution = \"service-near\"\n"), text)
	err = plotfolder.Acknowledge(dir, fingerprint(t, dir), geodata.Acknowledgement{Caution: "wet", By: "Ben", Date: "March"})
	assert.ErrorContains(t, err, "the date of acknowledgement 3 cannot be read")
	assert.Equal(t, text, content(t, filepath.Join(dir, "site.toml")))
	listed := folder(t, files{"site.toml": "acknowledged = [ { caution = \"a\", by = \"b\", date = \"2026-03-01\" } ]\n"})
	assert.ErrorContains(t, plotfolder.Acknowledge(listed, fingerprint(t, listed), two), "write each as [[acknowledged]]")
}

// fieldOf is the field of a Site that a key stands for, found by the tags of its
// own types.
func fieldOf(v reflect.Value, key string) reflect.Value {
	head, rest, more := strings.Cut(key, ".")
	for i := range v.NumField() {
		if v.Type().Field(i).Tag.Get("toml") != head {
			continue
		}
		if more {
			return fieldOf(v.Field(i), rest)
		}
		return v.Field(i)
	}
	panic("no field " + key)
}

// setField sets a field as a setting should.
func setField(site *geodata.Site, s plotfolder.Setting) {
	if carrier, ok := strings.CutPrefix(s.Key, "services."); ok {
		delete(site.Services, geodata.Carrier(carrier))
		if s.Value != nil {
			site.Services[geodata.Carrier(carrier)] = s.Value.(string)
		}
		return
	}
	f := fieldOf(reflect.ValueOf(site).Elem(), s.Key)
	switch v := s.Value.(type) {
	case nil:
		f.SetZero()
	case int:
		f.Set(reflect.ValueOf(&v))
	case float64:
		f.Set(reflect.ValueOf(&v))
	default:
		f.Set(reflect.ValueOf(v))
	}
}

// settingsDrawn are settings within their ranges, of every kind of value.
func settingsDrawn() *rapid.Generator[plotfolder.Setting] {
	one := func(key string, value *rapid.Generator[any]) *rapid.Generator[plotfolder.Setting] {
		return rapid.Custom(func(t *rapid.T) plotfolder.Setting {
			if rapid.IntRange(0, 3).Draw(t, "out") == 0 {
				return plotfolder.Setting{Key: key}
			}
			return plotfolder.Setting{Key: key, Value: value.Draw(t, "value")}
		})
	}
	number := func(low, high float64) *rapid.Generator[any] { return rapid.Float64Range(low, high).AsAny() }
	return rapid.OneOf(
		one("name", rapid.StringN(1, 12, 40).AsAny()),
		one("units", rapid.SampledFrom([]string{"m", "ft"}).AsAny()),
		one("place.latitude", number(-90, 90)),
		one("ground.cover", rapid.SampledFrom([]string{"turf", "bare"}).AsAny()),
		one("beds.count", rapid.IntRange(0, 200).AsAny()),
		one("beds.width_m", number(0.3, 3)),
		one("boards.lengths_m", rapid.SliceOfN(rapid.Float64Range(0.3, 12), 1, 4).AsAny()),
		one("compost.currency", rapid.SampledFrom([]string{"GBP", "NZD"}).AsAny()),
		one("services.gas", rapid.SampledFrom([]string{"unknown", "drawn", "none, known by = # \"the deeds\""}).AsAny()),
	)
}

// tableDrawn is one table of some settings, written in one of the ways of TOML.
func tableDrawn(t *rapid.T, table string, settings ...string) (above, below string) {
	kept := rapid.SliceOfNDistinct(rapid.SampledFrom(settings), 0, len(settings), rapid.ID[string]).Draw(t, table)
	remark := func() string {
		return rapid.SampledFrom([]string{"\n", " # kept = 1\n", "   # a remark\n\n# and a line\n", "\n\n"}).Draw(t, "remark")
	}
	if len(kept) == 0 && rapid.Bool().Draw(t, "none") {
		return "", ""
	}
	switch rapid.IntRange(0, 2).Draw(t, "way") {
	case 0:
		below = "[" + table + "]" + remark()
		for _, s := range settings {
			switch {
			case slices.Contains(kept, s):
				below += s + remark()
			case rapid.Bool().Draw(t, "example"):
				below += "# " + s + remark()
			}
		}
	case 1:
		for _, s := range kept {
			above += table + "." + s + remark()
		}
	default:
		above = table + " = { " + strings.Join(kept, ", ") + " }" + remark()
	}
	return above, below
}

// After a change ReadSite gives what was set, and of all else what it gave before;
// every remark is still there.
func TestEditSiteSetsThatAndNothingElse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom([]string{"", "# about\n", "name = \"n\"\n", "# about\nname = 'n' # of it\nunits = \"m\"\n\n"}).Draw(rt, "top")
		var below string
		for _, table := range [][]string{
			{"place", "latitude = 50", "north = \"true\""}, {"ground", "cover = \"turf\""},
			{"beds", "count = 4", "width_m = 1.20"}, {"boards", "lengths_m = [3.6, 4.8]", "kerf_mm = 3"},
			{"compost", "currency = 'GBP'"}, {"services", "gas = \"unknown\"", "oil = \"drawn\""},
		} {
			a, b := tableDrawn(rt, table[0], table[1:]...)
			text, below = text+a, below+b
		}
		text += below
		dir, err := os.MkdirTemp(t.TempDir(), "plot")
		require.NoError(rt, err)
		path := filepath.Join(dir, "site.toml")
		require.NoError(rt, os.WriteFile(path, []byte(text), 0o600))
		want, err := plotfolder.ReadSite(dir)
		require.NoError(rt, err, text)
		if want.Services == nil {
			want.Services = map[geodata.Carrier]string{}
		}
		set := rapid.SliceOfN(settingsDrawn(), 1, 5).Draw(rt, "set")
		for _, s := range set {
			setField(&want, s)
		}
		seen, err := plotfolder.Fingerprint(dir)
		require.NoError(rt, err)
		require.NoError(rt, plotfolder.EditSite(dir, seen, set), text)
		got, err := plotfolder.ReadSite(dir)
		require.NoError(rt, err)
		if got.Services == nil {
			got.Services = map[geodata.Carrier]string{}
		}
		after, err := os.ReadFile(path)
		require.NoError(rt, err)
		require.Equal(rt, want, got, "from\n%s\nto\n%s", text, after)
		for _, remark := range []string{"# kept = 1", "# a remark", "# and a line", "# about", "# of it"} {
			require.Equal(rt, strings.Count(text, remark), strings.Count(string(after), remark), "%q of\n%s\nin\n%s", remark, text, after)
		}
	})
}
