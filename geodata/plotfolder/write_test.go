package plotfolder_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func content(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

// names are the files in a folder.
func names(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestAppendRow(t *testing.T) {
	for _, c := range []struct {
		name, before string
		delimiter    rune
		cells        []string
		after        string
	}{
		{"plain", "a,b\n", ',', []string{"1", "2"}, "a,b\n1,2\n"},
		{"last line without its end", "a,b\n0,1", ',', []string{"1", "2"}, "a,b\n0,1\n1,2\n"},
		{"old line ends", "a,b\r0,1\r", ',', []string{"1", "2"}, "a,b\r0,1\r\n1,2\n"},
		{"empty file", "", ',', []string{"1", "2"}, "1,2\n"},
		{"delimiter and quote within", "a;b\n", ';', []string{"x;y", `5" pipe`}, "a;b\n\"x;y\";\"5\"\" pipe\"\n"},
		{"what would be a comment", "a,b\n", ',', []string{"#1", "#2"}, "a,b\n\"#1\",#2\n"},
		{"two lines in a cell", "a,b\n", ',', []string{"x\r\ny", " z\n"}, "a,b\nx y,z\n"},
		{"nothing between blanks", "a b c\n", ' ', []string{"1", "", "x y"}, "a b c\n1 \"\" \"x y\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(folder(t, files{"heights.csv": c.before}), "heights.csv")
			require.NoError(t, plotfolder.AppendRow(path, c.delimiter, c.cells))
			after := content(t, path)
			assert.Equal(t, c.after, after)
			table, faults := csvtable.Read("heights.csv", []byte(after))
			require.NotNil(t, table, "%v", faults)
			if len(table.Rows) == 0 {
				require.NotNil(t, table.Header)
				table.Rows = []csvtable.Row{*table.Header}
			}
			last := table.Rows[len(table.Rows)-1]
			for i, cell := range c.cells {
				want := strings.TrimSpace(strings.ReplaceAll(strings.ReplaceAll(cell, "\r\n", " "), "\n", " "))
				assert.Equal(t, want, last.Cell(i).Text, "read back")
			}
		})
	}
}

func TestAppendRowRefuses(t *testing.T) {
	dir := folder(t, files{"real.csv": "a,b\n", "wide.csv": "\xff\xfea\x00"})
	require.NoError(t, os.Symlink(filepath.Join(dir, "real.csv"), filepath.Join(dir, "link.csv")))
	assert.ErrorIs(t, plotfolder.AppendRow(filepath.Join(dir, "link.csv"), ',', []string{"1"}), plotfolder.ErrLink)
	assert.ErrorIs(t, plotfolder.AppendRow(filepath.Join(dir, "none.csv"), ',', []string{"1"}), os.ErrNotExist)
	assert.ErrorContains(t, plotfolder.AppendRow(filepath.Join(dir, "wide.csv"), ',', []string{"1"}), "append to wide.csv: it is in UTF-16")
	assert.Error(t, plotfolder.AppendRow(dir, ',', []string{"1"}), "a folder")
	assert.Equal(t, "a,b\n", content(t, filepath.Join(dir, "real.csv")))
	assert.Equal(t, "\xff\xfea\x00", content(t, filepath.Join(dir, "wide.csv")))
	assert.Equal(t, []string{"link.csv", "real.csv", "wide.csv"}, names(t, dir), "none.csv was not made")
}

func TestAppendedReadingsAreRead(t *testing.T) {
	dir := folder(t, files{"heights.csv": strings.TrimSuffix(sound, "\n")})
	path := filepath.Join(dir, "heights.csv")
	require.NoError(t, plotfolder.AppendHeight(path, geodata.Site{}, plotfolder.NewReading{Name: "#5", X: 10, Y: 10, Z: 29.4}))
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	assert.Equal(t, "#5", p.Spots[2].Name)
	assert.Equal(t, 29.4, p.Spots[2].Height)
}
