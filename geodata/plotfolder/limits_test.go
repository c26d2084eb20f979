package plotfolder_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// refused reads a folder with one fault and checks it word for word.
func refused(t *testing.T, fs files, code, at, message, want string) {
	t.Helper()
	got := problems(faults(t, fs))
	require.Len(t, got, 1)
	assert.Equal(t, []string{code, at, message, want}, []string{got[0].Code, got[0].Pos.String(), got[0].Message, got[0].Want})
}

func problems(fs geodata.Faults) (out geodata.Faults) {
	for _, f := range fs {
		if f.Severity == geodata.Problem {
			out.Add(f)
		}
	}
	return out
}

// gradual is a table of heights on a slope, n of them, a hundred in a row.
func gradual(n int) string {
	var b strings.Builder
	b.WriteString("name,x,y,z\n")
	for i := range n {
		fmt.Fprintf(&b, "p%d,%d.5,%d.5,%.2f\n", i, i%100, i/100, 20+float64(i%100)/10)
	}
	return b.String()
}

func TestMostHeights(t *testing.T) {
	assert.Equal(t, geodata.MostHeights, len(plot(t, files{"heights.csv": gradual(geodata.MostHeights)}).Spots))
	const want = "thin them out, or give x, y and z alone as heights.xyz, of which as many are taken as are read"
	refused(t, files{"heights.csv": gradual(geodata.MostHeights + 1)}, "too-many-heights", "heights.csv:10002", "there are 10001 heights, over 10000", want)

	points := func(n int) string {
		var b strings.Builder
		b.WriteString(`{"type":"MultiPoint","coordinates":[`)
		for i := range n {
			fmt.Fprintf(&b, "%s[%d,%d,%d.5]", map[bool]string{true: ",\n"}[i > 0], i%100, i/100, i%7)
		}
		return b.String() + "]}"
	}
	local := `coordinates = "local"`
	assert.Equal(t, geodata.MostHeights, len(plot(t, files{"heights.geojson": points(geodata.MostHeights), "site.toml": local}).Spots))
	refused(t, files{"heights.geojson": points(geodata.MostHeights + 1), "site.toml": local}, "too-many-heights", "heights.geojson:1:1", "there are 10001 heights, over 10000", want)

	wkt := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "POINT Z (%d %d %d.5)\n", i%100, i/100, i%7)
		}
		return b.String()
	}
	assert.Equal(t, geodata.MostHeights, len(plot(t, files{"heights.wkt": wkt(geodata.MostHeights)}).Spots))
	refused(t, files{"heights.wkt": wkt(geodata.MostHeights + 1)}, "too-many-heights", "heights.wkt:10001:10", "there are 10001 heights, over 10000", want)

	// What the advice says holds: of a list of as many x, y, z some are taken.
	var xyz strings.Builder
	for i := range geodata.MostHeights + 1 {
		fmt.Fprintf(&xyz, "%.2f %.2f %.2f\n", float64(i)/50, float64(i*7919%10007)/50, float64(i%13)/10)
	}
	p := plot(t, files{"heights.xyz": xyz.String()})
	assert.Equal(t, (geodata.MostHeights+2)/2, len(p.Spots))
	assert.Contains(t, codes(p.Notes, geodata.Note), "grid-thinned")
}

// No reading is put where it would keep the others from being read.
func TestNoReadingBeyondMostHeights(t *testing.T) {
	for n, full := range map[int]bool{geodata.MostHeights - 1: false, geodata.MostHeights: true} {
		dir := folder(t, files{"heights.csv": gradual(n)})
		path := filepath.Join(dir, "heights.csv")
		r := plotfolder.NewReading{Name: "new", X: 50.2, Y: 50.2, Z: 25}
		errAppend := plotfolder.CheckAppend(path, geodata.Site{})
		_, errBook := plotfolder.BookHeight(dir, "id", geodata.Site{}, r)
		if !full {
			require.NoError(t, errAppend)
			require.NoError(t, errBook)
			p, err := plotfolder.Read(dir, plotfolder.Options{})
			require.NoError(t, err)
			assert.Equal(t, geodata.MostHeights, len(p.Spots))
			continue
		}
		const told = "heights.csv: the file has 10000 heights, as many as are read; thin them out before more are added"
		assert.EqualError(t, errAppend, told)
		assert.EqualError(t, errBook, told)
		assert.EqualError(t, plotfolder.AppendHeight(path, geodata.Site{}, r), told)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, gradual(n), string(text))
	}
}

func TestNoRowBeyondMostLetters(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	r := plotfolder.NewReading{Name: strings.Repeat("é", geodata.MostLetters), X: 1.5, Y: 1.5, Z: 29.9}
	path := filepath.Join(dir, "heights.csv")
	const told = "heights.csv: the row has 1013 letters"
	_, err := plotfolder.BookHeight(dir, "id", geodata.Site{}, r)
	assert.ErrorContains(t, err, told)
	assert.ErrorContains(t, plotfolder.AppendHeight(path, geodata.Site{}, r), told)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, sound, string(text))
	r.Name = strings.Repeat("é", 900)
	_, err = plotfolder.BookHeight(dir, "id", geodata.Site{}, r)
	require.NoError(t, err)
	_, err = plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
}

// fixtures are features of one kind in features.csv.
func fixtures(n int, row func(i int) string) files {
	var b strings.Builder
	b.WriteString("kind,name,x,y\n")
	for i := range n {
		b.WriteString(row(i))
	}
	return files{"heights.csv": sound, "features.csv": b.String()}
}

func TestMostFeatures(t *testing.T) {
	mark := func(i int) string { return fmt.Sprintf("mark,m%d,%g,%g\n", i, float64(i%10)/10, float64(i/10)/100) }
	assert.Equal(t, geodata.MostFeatures, len(plot(t, fixtures(geodata.MostFeatures, mark)).Fixtures))
	refused(t, fixtures(geodata.MostFeatures+1, mark), "too-many-features", "features.csv:1002",
		"there are 1001 features drawn, over 1000", "leave out those that lie away from the beds")
}

func TestMostBedsDrawn(t *testing.T) {
	bed := func(i int) string {
		x, y := float64(i%20)*0.4, float64(i/20)*0.5
		return fmt.Sprintf("bed,b%[1]d,%[2]g,%[4]g\nbed,b%[1]d,%[3]g,%[4]g\nbed,b%[1]d,%[3]g,%[5]g\nbed,b%[1]d,%[2]g,%[5]g\n", i, x, x+0.3, y, y+0.4)
	}
	assert.Equal(t, geodata.MostBeds, len(plot(t, fixtures(geodata.MostBeds, bed)).Fixtures))
	refused(t, fixtures(geodata.MostBeds+1, bed), "too-many-beds", "features.csv:802", "there are more than 200 beds drawn", "split the plot into two plot folders")
}

func TestMostCornersOfALine(t *testing.T) {
	hedge := func(i int) string {
		return fmt.Sprintf("break-line,b%d,%g,%g\n", 0, float64(i)/200, 3+float64(i%2)/10)
	}
	assert.Len(t, plot(t, fixtures(geodata.MostCorners, hedge)).Fixtures, 1)
	refused(t, fixtures(geodata.MostCorners+1, hedge), "break-line-too-many-corners", "features.csv:1002",
		`the break-line "b0" has 1001 corners`, "leave out corners that lie along straight sides, down to 1000")
}

func TestMostCornersOfAll(t *testing.T) {
	line := func(i int) string {
		return fmt.Sprintf("break-line,b%d,%g,%g\n", i/100, float64(i%100)/10, 3+float64(i%2)/10)
	}
	assert.Equal(t, geodata.MostAllCorners/100, len(plot(t, fixtures(geodata.MostAllCorners, line)).Fixtures))
	refused(t, fixtures(geodata.MostAllCorners+1, line), "too-many-corners", "features.csv:10002",
		"from here on the features have over 10000 corners in all", "leave out corners that lie along straight sides")
	both := fixtures(geodata.MostAllCorners, line)
	both["plot.geojson"] = `{"type":"Feature","properties":{"kind":"mark","name":"m"},"geometry":{"type":"Point","coordinates":[1,1]}}`
	both["site.toml"] = `coordinates = "local"`
	refused(t, both, "too-many-corners", "features.csv:9902", "from here on the features have over 10000 corners in all", "leave out corners that lie along straight sides")
}

func TestMostValuesOfJSON(t *testing.T) {
	// A list within an object is two values more.
	text := func(values int) string { return `{"x":[` + strings.Repeat("1,", values-3) + "1]}" }
	got := problems(faults(t, files{"heights.csv": sound, "plot.geojson": text(geodata.MostValues)}))
	assert.Equal(t, "not-geojson", got[0].Code, "it was read whole")
	refused(t, files{"heights.csv": sound, "plot.geojson": text(geodata.MostValues + 1)}, "too-many-values", "plot.geojson:1:2000002",
		"the file holds more than 1000000 values", "give the part around the plot")
}

func TestMostNamesThatAreNotKnown(t *testing.T) {
	named := func(n int) files {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `"%dth": 1,`+"\n", i)
		}
		return files{"heights.csv": sound, "site.toml": `coordinates = "local"`, "plot.geojson": `{"type":"Feature","properties":{` + b.String() +
			`"kind":"mark","name":"m"},"geometry":{"type":"Point","coordinates":[1,1]}}`}
	}
	var told []string
	for _, n := range plot(t, named(geodata.MostColumns)).Notes {
		if n.Code == "property-not-read" {
			told = append(told, n.Message)
		}
	}
	assert.Equal(t, 201, len(told))
	assert.Equal(t, "this property is not known: it was not read (and 299 more like it, which are not listed)", told[200])
	refused(t, named(geodata.MostColumns+1), "too-many-names", "plot.geojson:501:1", "more than 500 names are not known", "keep what is needed")
}

func TestMostLetters(t *testing.T) {
	named := func(n int) files {
		return files{"heights.csv": "name,x,y,z\n" + strings.Repeat("é", n) + ",0,0,1\nb,5,0,1.1\nc,0,5,1.3\n"}
	}
	assert.Equal(t, 3, len(plot(t, named(geodata.MostLetters)).Spots))
	refused(t, named(geodata.MostLetters+1), "text-too-long", "heights.csv:2", "the name has 1001 letters", "keep it to 1000")
	long := strings.Repeat("n", geodata.MostLetters+1)
	refused(t, fixtures(1, func(int) string { return "mark," + long + ",0,0\n" }), "text-too-long", "features.csv:2", "the name has 1001 letters", "keep it to 1000")
	refused(t, files{"heights.csv": sound, "site.toml": "name = '" + long + "'"}, "text-too-long", "site.toml", "the name has 1001 letters", "keep it to 1000")
}

func TestMostInAListOfWishes(t *testing.T) {
	lengths := func(n int) files {
		return files{"heights.csv": sound, "site.toml": "[boards]\nlengths_m = [" + strings.Repeat("3.6, ", n) + "]\n"}
	}
	assert.Equal(t, geodata.MostListed, len(plot(t, lengths(geodata.MostListed)).Site.Boards.Lengths))
	refused(t, lengths(geodata.MostListed+1), "site-list-too-long", "site.toml:2:1", "boards.lengths_m has 101 entries, over 100", "keep those that are needed")
	signed := func(n int) files {
		return files{"heights.csv": sound, "site.toml": strings.Repeat("[[acknowledged]]\ncaution = 'a'\nby = 'b'\ndate = '2026-01-01'\n", n)}
	}
	assert.Equal(t, geodata.MostAcknowledged, len(plot(t, signed(geodata.MostAcknowledged)).Site.Acknowledged))
	refused(t, signed(geodata.MostAcknowledged+1), "site-list-too-long", "site.toml:4002:1", "acknowledged has 1001 entries, over 1000", "keep those that are needed")
	refused(t, files{"heights.csv": sound, "site.toml": strings.Repeat("[[weeds]]\nname = 'dock'\nbeds = ['b1']\n", geodata.MostListed+1)},
		"site-list-too-long", "site.toml:302:1", "weeds has 101 entries, over 100", "keep those that are needed")
	refused(t, files{"heights.csv": sound, "site.toml": strings.Repeat("[[to_come]]\nwhat = 'tree'\nheight_m = 4\n", geodata.MostListed+1)},
		"site-list-too-long", "site.toml:302:1", "to_come has 101 entries, over 100", "keep those that are needed")
}

func TestMostSettings(t *testing.T) {
	settings := func(n int) files {
		return files{"heights.csv": sound, "site.toml": strings.Repeat("[[acknowledged]]\ncaution = 'a'\nby = 'b'\ndate = '2026-01-01'\n", n/3) + strings.Repeat("units = 'm'\n", n%3)}
	}
	got := faults(t, settings(geodata.MostSettings))
	assert.NotContains(t, codes(got, geodata.Problem), "site-too-many-settings", "it was read on")
	refused(t, settings(geodata.MostSettings+1), "site-too-many-settings", "site.toml:6668:1", "the file has 5001 settings, over 5000", "see the example that crossfall start writes")
}

func TestMostBedsWished(t *testing.T) {
	wish := func(n int) files {
		return files{"heights.csv": sound, "site.toml": fmt.Sprintf("[beds]\ncount = %d\n", n)}
	}
	assert.Equal(t, geodata.MostBeds, *plot(t, wish(geodata.MostBeds)).Site.Beds.Count)
	refused(t, wish(geodata.MostBeds+1), "site-out-of-range", "site.toml:2:1", "beds.count is 201", "write a number from 0 to 200")
}

func TestWidestPlot(t *testing.T) {
	wide := func(x float64) files {
		return files{"heights.csv": fmt.Sprintf("name,x,y,z\na,0,0,1\nb,0,900,2\nc,%g,0,1\n", x)}
	}
	assert.Equal(t, 3, len(plot(t, wide(geodata.WidestPlot)).Spots))
	refused(t, wide(geodata.WidestPlot+0.5), "plot-too-wide", "heights.csv:4", "the plot would be 2000 m wide, over 2000 m; this place lies furthest out",
		"check the figure and its unit; heights and features must be in one frame")
}

// The size of a file is told before it is read: these hold nothing on the disk.
func TestMostBytes(t *testing.T) {
	for _, f := range []struct {
		name    string
		most    int64
		message string
		want    string
	}{
		{"heights.csv", geodata.MostFileBytes, "the file is larger than 64 MiB", "give the part around the plot, or thin the heights out"},
		{"plot.geojson", geodata.MostFileBytes, "the file is larger than 64 MiB", "give the part around the plot, or thin the heights out"},
		{"rain.csv", geodata.MostFileBytes, "the file is larger than 64 MiB", "give the latest years, or the days in place of shorter times"},
		{"site.toml", geodata.MostSiteBytes, "the file is larger than 256 KiB", "it holds wishes, one line each: see the example that crossfall start writes"},
		{"hillside.asc", geodata.MostHillsideBytes, "the file is larger than 2048 MiB", "cut out the part around the plot, 150 m each way, or give cells of 2 m"},
	} {
		dir := folder(t, files{"heights.csv": sound})
		path := filepath.Join(dir, f.name)
		file, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY, 0o600)
		require.NoError(t, err)
		require.NoError(t, file.Truncate(f.most+1))
		require.NoError(t, file.Close())
		var got geodata.Faults
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err = plotfolder.Read(dir, plotfolder.Options{})
		runtime.ReadMemStats(&after)
		require.ErrorAs(t, err, &got)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(1<<20), f.name)
		got = problems(got)
		require.Len(t, got, 1, f.name)
		assert.Equal(t, []string{"file-too-large", f.name, f.message, f.want}, []string{got[0].Code, got[0].Pos.String(), got[0].Message, got[0].Want})
	}
	comment := strings.Repeat("# a word\n", geodata.MostSiteBytes/9+1)[:geodata.MostSiteBytes-1] + "\n"
	assert.Equal(t, len(plot(t, files{"heights.csv": sound}).Spots), len(plot(t, files{"heights.csv": sound, "site.toml": comment}).Spots))
}

// Folders that bear the name of a file are told, not passed over.
func TestFoldersNamedAsFiles(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	for _, name := range []string{"hillside.asc", "plot.geojson", "site.toml"} {
		require.NoError(t, os.Mkdir(filepath.Join(dir, name), 0o700))
	}
	_, err := plotfolder.Read(dir, plotfolder.Options{})
	var got geodata.Faults
	require.ErrorAs(t, err, &got)
	assert.Equal(t, []string{"is-a-folder at hillside.asc: ", "is-a-folder at plot.geojson: ", "is-a-folder at site.toml: "}, short(got))
	dir = t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "heights.csv"), 0o700))
	_, err = plotfolder.Read(dir, plotfolder.Options{})
	require.ErrorAs(t, err, &got)
	assert.Equal(t, []string{"is-a-folder at heights.csv: "}, short(got))
}

// However many warnings of one kind there are, the others are heard.
func TestManyNotesAreCounted(t *testing.T) {
	var b strings.Builder
	b.WriteString("name,x,y,z\n")
	for i := range 450 { // pairs at one place
		fmt.Fprintf(&b, "p%d,%d,%d,%d.10\n", i, i/2%20, i/40, i/2%20)
	}
	p := plot(t, files{"heights.csv": b.String()})
	averaged := 0
	for _, n := range p.Notes {
		if n.Code == "reading-averaged" {
			averaged++
			if strings.Contains(n.Message, "more like it") {
				assert.True(t, strings.HasSuffix(n.Message, "(and 24 more like it, which are not listed)"), n.Message)
			}
		}
	}
	assert.Equal(t, 201, averaged)
	assert.Contains(t, codes(p.Notes, geodata.Note), "boundary-assumed")
}
