package plotfolder_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"
)

// BenchmarkFingerprint is what an open page asks for every second.
func BenchmarkFingerprint(b *testing.B) {
	for _, size := range []struct {
		name     string
		hillside int
	}{{"plot", 0}, {"hillside=8MiB", 8 << 20}, {"hillside=9MiB", 9 << 20}} {
		b.Run(size.name, func(b *testing.B) {
			dir := folder(b, files{"heights.csv": sound, "site.toml": "units = \"m\"\n", "features.csv": "kind,name,x,y\n"})
			if size.hillside > 0 {
				require.NoError(b, os.WriteFile(filepath.Join(dir, "hillside.tif"), bytes.Repeat([]byte("x"), size.hillside), 0o600))
			}
			for b.Loop() {
				_, err := plotfolder.Fingerprint(dir)
				require.NoError(b, err)
			}
		})
	}
}

// BenchmarkBookHeight is one reading more, behind so many that were booked before;
// it waits for the disk three times.
func BenchmarkBookHeight(b *testing.B) {
	for _, before := range []int{0, 1000, 10000} {
		b.Run(fmt.Sprintf("readings=%d", before), func(b *testing.B) {
			dir := b.TempDir()
			book := func(id string) {
				_, err := plotfolder.BookHeight(dir, id, geodata.Site{}, plotfolder.NewReading{Name: id, X: 1, Y: 2, Z: 29})
				require.NoError(b, err)
			}
			book("first")
			s := state{journalOf(b, dir), content(b, filepath.Join(dir, "heights.csv"))}
			var journal, table bytes.Buffer
			for i := range before {
				fmt.Fprintf(&journal, "{\"id\":\"b-%[1]d\",\"file\":\"heights.csv\",\"offset\":%[2]d,\"row\":\"b-%[1]d,1,2,29,\"}\n{\"id\":\"b-%[1]d\",\"done\":true}\n", i, len(s.table)+table.Len())
				fmt.Fprintf(&table, "b-%d,1,2,29,\n", i)
			}
			state{s.journal + journal.String(), s.table + table.String()}.put(b, dir, "heights.csv")
			i := 0
			for b.Loop() {
				book(fmt.Sprint(i))
				i++
			}
		})
	}
}

// BenchmarkEdit is one change with the reading of what comes of it.
func BenchmarkEdit(b *testing.B) {
	for _, what := range []string{"site", "features=200"} {
		b.Run(what, func(b *testing.B) {
			table := "kind,name,x,y,height_m\n"
			for i := range 200 {
				table += fmt.Sprintf("tree,t%d,%d,%d,\n", i, i%20, i/20)
			}
			dir := folder(b, files{"heights.csv": sound, "features.csv": table, "site.toml": "[beds]\ncount = 1\n"})
			i := 0
			for b.Loop() {
				i++
				seen, err := plotfolder.Fingerprint(dir)
				require.NoError(b, err)
				if what == "site" {
					require.NoError(b, plotfolder.EditSite(dir, seen, []plotfolder.Setting{{Key: "beds.count", Value: 1 + i%100}}))
					continue
				}
				f := geodata.Fixture{Shape: orb.Point{float64(i % 20), 1}, TopHeight: 1 + float64(i%50)}
				require.NoError(b, plotfolder.EditFeatures(dir, seen, []plotfolder.FeatureEdit{{Kind: geodata.TreeKind, Name: "t7", Put: &f}}))
			}
		})
	}
}
