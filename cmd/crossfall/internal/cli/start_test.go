package cli_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting/soil"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readSite reads site.toml, refusing keys that geodata.Site does not know.
func readSite(t *testing.T, text string) geodata.Site {
	t.Helper()
	var site geodata.Site
	d := toml.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	require.NoError(t, d.Decode(&site), text)
	return site
}

func textOf(t *testing.T, path ...string) string {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(path...))
	require.NoError(t, err)
	return string(content)
}

func TestStartWithDefaultsSaysNothingThatWasNotSaid(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "garden")
	r := run(t, "", "start", "--defaults", dir)
	require.Equal(t, 0, r.code, r.err)
	assert.Equal(t, []string{"features.csv", "heights.csv", "site.toml"}, names(t, dir))
	want := geodata.Site{Name: "garden", Coordinates: "local", Units: "m", Services: map[geodata.Carrier]string{}}
	for _, c := range geodata.Carriers() {
		want.Services[c] = "unknown"
	}
	assert.Equal(t, want, readSite(t, textOf(t, dir, "site.toml")))
	assert.Contains(t, r.out, "crossfall assess "+dir)
}

// Enter to every question is the same as --defaults.
func TestStartAnsweredByEnterAlone(t *testing.T) {
	parent := t.TempDir()
	asked, unasked := filepath.Join(parent, "asked", "plot"), filepath.Join(parent, "unasked", "plot")
	require.NoError(t, os.Mkdir(filepath.Dir(asked), 0o700))
	require.NoError(t, os.Mkdir(filepath.Dir(unasked), 0o700))
	r := run(t, strings.Repeat("\n", 60), "start", asked)
	require.Equal(t, 0, r.code, r.err)
	require.Equal(t, 0, run(t, "", "start", "--defaults", unasked).code)
	for _, name := range names(t, unasked) {
		assert.Equal(t, textOf(t, unasked, name), textOf(t, asked, name), name)
	}
}

// answers in metres, one line for each question, with wrong ones among them.
var answers = []string{
	`Upper "field"`,
	"3", "1", // no such units; metres
	"north", "95", "41.25 S",
	"magnetic", "a bit east", "12",
	"mud", "3",
	"2",
	"many", "0", "4",
	"3.6 kg", "3600 mm", "1,2", "4'", "1", "150", "0.55",
	"3.6, 4.8", "150 175", "150, 175, 200", "25; 38", "NZD", "-1", "4.2", "62", "45",
	"1", "the supplier's plan and a locator",
	"2", "", "the supplier's record of 2024",
	"there, drawn", "",
	"none", "no line to the plot",
	"perhaps", "3", "", "don't know",
}

func TestStartKeepsWhatWasSaid(t *testing.T) {
	dir := t.TempDir() // an empty folder will do
	r := run(t, strings.Join(answers, "\n"), "start", dir)
	require.Equal(t, 0, r.code, r.err)
	site := readSite(t, textOf(t, dir, "site.toml"))

	f := func(v float64) *float64 { return &v }
	count := 4
	assert.Equal(t, geodata.Site{
		Name: `Upper "field"`, Coordinates: "local", Units: "m",
		Place:    geodata.Place{Latitude: f(-41.25), North: "magnetic", AxisBearing: f(12)},
		Ground:   geodata.GroundWords{Thumb: "firm turf or clay subsoil", Cover: "rough grass"},
		Beds:     geodata.BedWish{Count: &count, Length: f(3.6), Width: f(1.2192), Depth: f(150), Path: f(.55)},
		Boards:   geodata.BoardOffer{Lengths: []float64{3.6, 4.8}, Heights: []float64{150, 175, 200}, Thicknesses: []float64{25, 38}, PricePerM: f(4.2)},
		Compost:  geodata.CompostOffer{PricePerM3: f(62), Currency: "NZD"},
		Carrying: geodata.Carrying{Load: f(45)},
		Services: map[geodata.Carrier]string{
			geodata.Electricity: "located by the supplier's plan and a locator",
			geodata.Gas:         "none, known by the supplier's record of 2024",
			geodata.WaterPipe:   "drawn",
			geodata.Telecoms:    "none, known by no line to the plot",
			geodata.Drain:       "unknown", geodata.Oil: "unknown", geodata.OtherCarrier: "unknown",
		},
	}, site)
	for _, told := range []string{
		`"3" will not do: answer with a number from 1 to 2`,
		`"95" will not do: write degrees from -90 to 90`,
		`"mud" will not do: answer with a number from 1 to 5`,
		`"0" will not do: write a whole number from 1 to`,
		`"3.6 kg" will not do: write a length such as 1.25 m, 30 cm or 4'6", from 0.3 to 30 m`,
		`"1,2" will not do: write a length such as`,
		`"1" will not do: write a length such as 1.25 m, 30 cm or 4'6", from 20 to 600 mm`,
		`"150 175" will not do: write a length such as 1.25 m, 30 cm or 4'6", from 50 to 600 mm, with commas between several`,
		`"-1" will not do`,
		"this needs an answer",
		`"perhaps" will not do: answer 1 (there, drawn), 2 (none) or 3 (don't know)`,
	} {
		assert.Contains(t, r.err, told)
	}
	assert.NotContains(t, r.out, "will not do", "questions do not go to standard output")
}

func TestStartInFeetAndInches(t *testing.T) {
	lines := make([]string, 60)
	// From the first: name, units, latitude, north, ground, cover, count.
	for i, answer := range map[int]string{
		1: "ft", 7: "12", 8: "4", 9: "6", 10: "1'12\"", // a bed and the path
		11: "12, 16", 12: "6, 8", 13: "1", 14: "USD", 15: "1.50", 16: "35", 17: "2",
	} {
		lines[i] = answer
	}
	dir := filepath.Join(t.TempDir(), "plot")
	r := run(t, strings.Join(lines, "\n"), "start", dir)
	require.Equal(t, 0, r.code, r.err)
	site := readSite(t, textOf(t, dir, "site.toml"))
	assert.Equal(t, "ft", site.Units)
	// The international foot is 0.3048 m and the inch 25.4 mm exactly (1959).
	assert.InDelta(t, 3.6576, *site.Beds.Length, 1e-5)
	assert.InDelta(t, 1.2192, *site.Beds.Width, 1e-5)
	assert.InDelta(t, 152.4, *site.Beds.Depth, 1e-3)
	assert.InDelta(t, 0.6096, *site.Beds.Path, 1e-5)
	assert.InDeltaSlice(t, []float64{3.6576, 4.8768}, site.Boards.Lengths, 1e-5)
	assert.InDeltaSlice(t, []float64{152.4, 203.2}, site.Boards.Heights, 1e-3)
	assert.InDelta(t, 1.50/0.3048, *site.Boards.PricePerM, 1e-4)
	assert.InDelta(t, 35/0.764554857984, *site.Compost.PricePerM3, 1e-3) // a cubic yard in m3
	assert.InDelta(t, 2*28.316846592, *site.Carrying.Load, 1e-3)         // a cubic foot in litres
	assert.Contains(t, textOf(t, dir, "heights.csv"), "\nname,x (ft),y (ft),z (ft),note\n")
}

// The smallest and the greatest answers that are taken are answers that the
// reader of the folder takes.
func TestStartTakesWhatTheReaderTakes(t *testing.T) {
	for name, extremes := range map[string][]string{
		"least":    {"1", "0.3", "0.3", "20", "0.2", "0.3", "50", "12", "GBP", "0", "0", "1"},
		"greatest": {"100", "30", "3", "600", "5", "12", "600", "75", "GBP", "1e6", "1e6", "1000"},
	} {
		lines := append([]string{"plot", "m", "90", "2", "359.9", "1", "1"}, extremes...)
		for range geodata.Carriers() {
			lines = append(lines, "1", "")
		}
		dir := filepath.Join(t.TempDir(), "plot")
		r := run(t, strings.Join(lines, "\n")+"\n", "start", dir)
		require.Equal(t, 0, r.code, r.err)
		require.NotContains(t, r.err, "will not do", name)
		addRows(t, dir, "heights.csv", "a,0,0,1", "b,9,0,1.2", "c,0,9,1.3")
		p, err := plotfolder.Read(dir, plotfolder.Options{})
		require.NoError(t, err, name)
		assert.Equal(t, "grid", p.Site.Place.North)
		assert.NotNil(t, p.Site.Carrying.Load, "the last figure was asked for")
	}
}

// The examples of the empty files are rows that the reader takes, in either
// unit.
func TestExampleRowsCanBeRead(t *testing.T) {
	example := regexp.MustCompile(`(?m)^# ([^,\n]+,[^,\n]*,[0-9.]+,.*)$`)
	for _, unit := range []string{"m", "ft"} {
		dir := filepath.Join(t.TempDir(), "plot")
		require.Equal(t, 0, run(t, "\n"+unit+strings.Repeat("\n", 60), "start", dir).code)
		for _, name := range []string{"heights.csv", "features.csv"} {
			var rows []string
			for _, m := range example.FindAllStringSubmatch(textOf(t, dir, name), -1) {
				rows = append(rows, m[1])
			}
			addRows(t, dir, name, rows...)
		}
		addRows(t, dir, "heights.csv", "a2,11,1,10.4,", "a3,2,17,9.1,")
		p, err := plotfolder.Read(dir, plotfolder.Options{})
		require.NoError(t, err, unit)
		assert.Len(t, p.Spots, 3)
		assert.Equal(t, "by the gate post", p.Spots[0].Note)
		for kind, n := range map[geodata.Kind]int{geodata.ObstacleKind: 1, geodata.TreeKind: 1, geodata.ServiceKind: 1, geodata.MarkKind: 1} {
			assert.Len(t, p.OfKind(kind), n, kind)
		}
		assert.True(t, p.BoundaryDrawn)
		side := p.Boundary.Bound().Max[0]
		assert.InDelta(t, map[string]float64{"m": 12, "ft": 12 * 0.3048}[unit], side, 1e-9)
	}
}

// addRows writes rows below what a file of a folder holds.
func addRows(t *testing.T, dir, name string, rows ...string) {
	t.Helper()
	text := textOf(t, dir, name) + strings.Join(rows, "\n") + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
}

// Every example behind a # is a setting that may be used, and every key of a
// site is there.
func TestEveryKeyStandsInSiteToml(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	require.Equal(t, 0, run(t, "", "start", "--defaults", dir).code)
	text := textOf(t, dir, "site.toml")
	setting := regexp.MustCompile(`(?m)^# (\w+ = |\[\[)`)
	site := readSite(t, setting.ReplaceAllString(text, "$1"))
	noZero(t, "site", reflect.ValueOf(site))
	assert.Len(t, site.Acknowledged, 1)
}

// noZero fails for each field that holds nothing.
func noZero(t *testing.T, name string, v reflect.Value) {
	t.Helper()
	if v.Kind() != reflect.Struct {
		assert.False(t, v.IsZero(), name)
		return
	}
	for i := range v.NumField() {
		if v.Type().Field(i).Tag.Get("toml") == "-" { // set by the reader, not written
			continue
		}
		noZero(t, name+"."+v.Type().Field(i).Name, v.Field(i))
	}
}

func TestStartWritesNothingWhenAnswersEnd(t *testing.T) {
	parent := t.TempDir()
	for n := range len(answers) - 1 {
		r := run(t, strings.Join(answers[:n], "\n"), "start", filepath.Join(parent, "plot"))
		require.Equal(t, 1, r.code, "after %d answers", n)
		require.Empty(t, r.out)
		require.Contains(t, r.err, "the answers ended before the last question; nothing was written")
		require.Empty(t, names(t, parent), "after %d answers", n)
	}
}

// An interrupt ends the questions although the terminal never answers.
func TestStartInterrupted(t *testing.T) {
	parent := t.TempDir()
	in, keyboard := io.Pipe()
	defer keyboard.Close()
	ctx, interrupt := context.WithCancel(t.Context())
	go func() {
		for range 3 {
			_, _ = keyboard.Write([]byte("\n"))
		}
		interrupt()
	}()
	r := runContext(t, ctx, in, "start", filepath.Join(parent, "plot"))
	assert.Equal(t, 1, r.code)
	assert.Empty(t, r.out)
	assert.Contains(t, r.err, "crossfall: stopped; nothing was written\n")
	assert.Empty(t, names(t, parent))
}

func TestThumbTestsAreTheGroundWords(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plot")
	require.Equal(t, 0, run(t, "", "start", "--defaults", dir).code)
	text := textOf(t, dir, "site.toml")
	from := 0
	for _, word := range soil.Words() {
		at := strings.Index(text[from:], `#   "`+word+`": `)
		require.GreaterOrEqual(t, at, 0, "%q, in the order of the ground words", word)
		from += at + 1
	}
	assert.Equal(t, len(soil.Words()), strings.Count(text, `#   "`), "no word more")
}
