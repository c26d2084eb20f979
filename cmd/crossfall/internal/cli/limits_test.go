package cli_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/page"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is said of limits is what is enforced, row by row.
func TestLimitsAreAsWritten(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "geodata", "plotfolder", "README.md"))
	require.NoError(t, err)
	_, table, found := strings.Cut(string(text), "| what | most |\n|---|---|\n")
	require.True(t, found)
	table, _, _ = strings.Cut(table, "\n\n")
	row := regexp.MustCompile(`^\| (.+) \| ([0-9,]+)( MiB| KiB| m|) \|$`)
	var got []string
	for line := range strings.SplitSeq(table, "\n") {
		m := row.FindStringSubmatch(line)
		require.NotNil(t, m, line)
		n, err := strconv.Atoi(strings.ReplaceAll(m[2], ",", ""))
		require.NoError(t, err)
		words := strings.FieldsFunc(m[1], func(r rune) bool { return r == ',' || r == ':' || r == ';' || r == '(' })
		got = append(got, fmt.Sprintf("%s %d%s", strings.TrimSpace(words[0]), n, m[3]))
	}
	assert.Equal(t, []string{
		fmt.Sprintf("one file %d MiB", geodata.MostFileBytes>>20),
		fmt.Sprintf("the hillside %d MiB", geodata.MostHillsideBytes>>20),
		fmt.Sprintf("`site.toml` %d KiB", geodata.MostSiteBytes>>10),
		fmt.Sprintf("rows of a table %d", geodata.MostRows),
		fmt.Sprintf("cells in a row %d", geodata.MostColumns),
		fmt.Sprintf("rows of `levels.csv` or `ties.csv` %d", geodata.MostBookRows),
		fmt.Sprintf("numbers %d", geodata.MostValues),
		fmt.Sprintf("points %d", geodata.MostPoints),
		fmt.Sprintf("cells of a ground model that are read at once %d", geodata.MostCells),
		fmt.Sprintf("points of a cloud %d", geodata.MostCloudPoints),
		fmt.Sprintf("heights of a plot %d", geodata.MostHeights),
		fmt.Sprintf("extent of a plot %g m", geodata.WidestPlot),
		fmt.Sprintf("features drawn %d", geodata.MostFeatures),
		fmt.Sprintf("corners of one feature %d", geodata.MostCorners),
		fmt.Sprintf("corners of all features %d", geodata.MostAllCorners),
		fmt.Sprintf("beds drawn %d", geodata.MostBeds),
		fmt.Sprintf("settings in `site.toml` %d", geodata.MostSettings),
		fmt.Sprintf("entries of a list in it %d", geodata.MostListed),
		fmt.Sprintf("acknowledgements %d", geodata.MostAcknowledged),
		fmt.Sprintf("letters of a name or a note %d", geodata.MostLetters),
		fmt.Sprintf("cells of a storm %d", siting.DefaultStormCells),
		fmt.Sprintf("cells of a storm along a side %d", siting.LongestStormRow),
		fmt.Sprintf("one request to the page %d KiB", page.MostBody>>10),
	}, got)
	years := float64(geodata.MostRows) / (365.25 * 144)
	assert.Contains(t, table, fmt.Sprintf("%.0f years of ten minutes", years))
}
