package report_test

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// example is a plot of testdata, assessed.
func example(t testing.TB, name string) *siting.Assessment {
	t.Helper()
	p, err := plotfolder.Read(filepath.Join("..", "..", "..", "..", "testdata", name), plotfolder.Options{})
	require.NoError(t, err)
	a, err := siting.Assess(t.Context(), p, siting.Options{})
	require.NoError(t, err)
	return a
}

// pagesOf are the lines of each page of a PDF as another program reads it.
func pagesOf(t *testing.T, doc []byte) [][]string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not here")
	}
	c := exec.Command(tool, "-layout", "-", "-")
	c.Stdin = bytes.NewReader(doc)
	out, err := c.Output()
	require.NoError(t, err)
	var pages [][]string
	for _, page := range strings.Split(string(out), "\f") {
		var lines []string
		for _, l := range strings.Split(page, "\n") {
			if l = strings.TrimSpace(l); l != "" {
				lines = append(lines, l)
			}
		}
		pages = append(pages, lines)
	}
	return pages
}

// Each bed has a page, and one only, on either paper and in either units, so that it
// can be taken along by itself: the page after it begins the next bed, or the chapter
// after the beds.
func TestEachBedKeepsToOnePage(t *testing.T) {
	if testing.Short() {
		t.Skip("long; other tests write reports too")
	}
	for _, name := range []string{"hillside", "hillside-pinned", "claybank", "davis"} {
		a := example(t, name)
		require.NotEmpty(t, a.Beds)
		for _, page := range []string{"A4", "Letter"} {
			for _, units := range []geodata.Units{geodata.Metric, geodata.FeetAndInch} {
				t.Run(name+" "+page+" "+string(units), func(t *testing.T) {
					pages := pagesOf(t, pdf(t, a, report.Options{Units: units, Page: page}))
					first := slices.IndexFunc(pages, func(lines []string) bool { return len(lines) > 0 && lines[0] == a.Beds[0].Name })
					require.GreaterOrEqual(t, first, 0)
					require.Greater(t, len(pages), first+len(a.Beds))
					for i, b := range a.Beds {
						assert.Equal(t, b.Name, pages[first+i][0], "page %d", first+i+1)
					}
					assert.Contains(t, []string{"Where the beds lie", "Water"}, pages[first+len(a.Beds)][0])
				})
			}
		}
	}
}
