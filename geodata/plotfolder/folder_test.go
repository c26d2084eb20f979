package plotfolder_test

import (
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFaultsOfAllFilesAreToldInOrder(t *testing.T) {
	fs := faults(t, files{
		"site.toml":    inMetres + "[beds]\nwidth_m = 12\n",
		"rain.csv":     "month,mm\nJuly,wet\n",
		"plot.geojson": collection(feature(point(1, 1), `{"kind":"tre"}`)),
		"heights.csv":  "name,x,y,z\na,0,0,1\nb,ten,0,\n",
		"features.csv": "kind,name,x,y\nmark,m,1,here\n",
	})
	var places []string
	for _, f := range fs {
		if f.Code != "month-missing" {
			places = append(places, f.Pos.String()+" "+f.Code)
		}
	}
	assert.Equal(t, []string{
		"features.csv:2:10 not-a-number", "heights.csv:3 short-row", "plot.geojson:2:88 kind-unknown", "rain.csv:2:6 not-a-number", "site.toml:3:1 site-out-of-range",
	}, places)
	assert.Len(t, fs, 5+11, "eleven months are missing")
}

func TestFaultsOfTheWishesDoNotHideThoseOfThePlot(t *testing.T) {
	fs := faults(t, files{
		"site.toml":    "[beds]\nwidth_m = 12\n",
		"heights.csv":  sound,
		"features.csv": "kind,name,x,y\nboundary,p,500,500\nboundary,p,520,500\nboundary,p,520,520\n",
	})
	assert.Equal(t, []string{"no-overlap", "site-out-of-range"}, codes(fs, geodata.Problem))
	fs = faults(t, files{"site.toml": "[beds]\nwidth_m = 12\n", "rain.csv": "month,mm\n"})
	assert.Equal(t, []string{"no-heights", "no-rows", "site-out-of-range"}, codes(fs, geodata.Problem), "without heights the rest is still looked at")
}

func TestFilesOfAFolder(t *testing.T) {
	for _, c := range []struct {
		name string
		fs   files
		code string
		pos  string
	}{
		{"nothing", files{}, "no-heights", "heights.csv"},
		{"two files of heights", files{"heights.csv": sound, "Heights.TSV": sound}, "two-heights-files", "heights.csv"},
		{"one file in two cases", files{"heights.csv": sound, "site.toml": "", "Site.toml": ""}, "file-twice", "site.toml"},
		{"a format that is not read", files{"heights.dwg": "AC1027"}, "format-not-read", "heights.dwg"},
		{"not text", files{"heights.csv": "PK\x03\x04\x00\x00"}, "not-text", "heights.csv"},
	} {
		fs := faults(t, c.fs)
		require.Equal(t, []string{c.code}, codes(fs, geodata.Problem), c.name)
		assert.Equal(t, c.pos, fs[0].Pos.String(), c.name)
		assert.NotEmpty(t, fs[0].Want, c.name)
	}
	p := plot(t, files{"Heights.CSV": sound, "SITE.toml": "name = \"x\"\n", "notes.txt": "dig here", "heights.csv.before": "old"})
	assert.Equal(t, "x", p.Name, "names in any case")
	assert.Empty(t, codes(p.Notes, geodata.Warning))
}

func TestSingleFiles(t *testing.T) {
	dir := folder(t, files{"survey.dat": sound, "heights.json": "name,x,y\n", "rain.csv": "month,mm\n", "page.csv": "<html></html>", "site.toml": "name = \"x\"\n"})
	p, err := plotfolder.Read(filepath.Join(dir, "survey.dat"), plotfolder.Options{})
	require.NoError(t, err)
	assert.Len(t, p.Spots, 4)
	assert.Empty(t, p.Name, "site.toml beside it is not read")
	for name, code := range map[string]string{"rain.csv": "not-heights", "page.csv": "format-not-known", "missing.csv": "not-there"} {
		_, err := plotfolder.Read(filepath.Join(dir, name), plotfolder.Options{})
		var fs geodata.Faults
		require.ErrorAs(t, err, &fs, name)
		assert.Equal(t, []string{code}, codes(fs, geodata.Problem), name)
		assert.Equal(t, name, fs[0].Pos.File)
		assert.NotContains(t, err.Error(), dir, "places on this disk are not told")
	}
	_, err = plotfolder.Read(filepath.Join(dir, "survey.dat"), plotfolder.Options{MostBytes: 10})
	assert.ErrorContains(t, err, "the file is larger than")
}

func TestAPipeIsRefusedAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "heights.csv")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skip("no pipes here: ", err)
	}
	_, err := plotfolder.Read(path, plotfolder.Options{})
	assert.ErrorContains(t, err, "it is a pipe or a device, not a file")
}

func ExampleRead() {
	dir, err := os.MkdirTemp("", "plot")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	rows := "name,x (m),y (m),z (m)\npost,0,0,30.00\ngate,12,0,29.40\noak,12,9,28.85\nshed,0,9,29.50\n"
	if err := os.WriteFile(filepath.Join(dir, "heights.csv"), []byte(rows), 0o600); err != nil {
		fmt.Println(err)
		return
	}
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(p.Spots), "heights, the first", p.Spots[0].Name, "at", p.Spots[0].At)
	fmt.Println(p.Notes[0].Message)
	// Output:
	// 4 heights, the first post at [0 0]
	// no boundary is drawn: the hull of the heights was taken
}

// Nothing that never ends, or waits for its other end, stands in for a file that
// the program keeps.
func TestPipesAreNeitherKeptNorWritten(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	path := filepath.Join(dir, "storm.json")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skip("no pipes here: ", err)
	}
	_, err := plotfolder.ReadKept(path)
	assert.ErrorContains(t, err, "it is a pipe or a device, not a file")
	var s plotfolder.Staged
	defer s.Discard()
	assert.ErrorContains(t, s.Add(path, nil), "it is not a plain file")

	require.NoError(t, os.Rename(path, filepath.Join(dir, "hillside.asc")))
	_, err = plotfolder.Read(dir, plotfolder.Options{})
	assert.ErrorContains(t, err, "hillside.asc: the file cannot be read: it is a pipe or a device, not a file")
}
