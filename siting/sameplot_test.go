package siting_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata/plotfolder"
	"crossfall/siting"
)

// rewritten reads a plot folder of testdata with its heights put through change,
// which is given the rows below the header.
func rewritten(t *testing.T, name string, change func(header []string, rows [][]string)) *siting.Assessment {
	t.Helper()
	from, to := filepath.Join("..", "testdata", name), filepath.Join(t.TempDir(), name)
	require.NoError(t, os.CopyFS(to, os.DirFS(from)))
	f, err := os.ReadFile(filepath.Join(from, "heights.csv"))
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(f)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	change(rows[0], rows[1:])
	var text strings.Builder
	require.NoError(t, csv.NewWriter(&text).WriteAll(rows))
	require.NoError(t, os.WriteFile(filepath.Join(to, "heights.csv"), []byte(text.String()), 0o644))
	p, err := plotfolder.Read(to, plotfolder.Options{})
	require.NoError(t, err)
	return assess(t, p)
}

// The order of the rows of heights.csv is nothing: the same bytes come out.
func TestPermutedRowsGiveTheSameBytes(t *testing.T) {
	bytes := func(seed uint64) string {
		a := rewritten(t, "hillside-pinned", func(_ []string, rows [][]string) {
			if seed > 0 {
				rand.New(rand.NewPCG(seed, 5)).Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
			}
		})
		text, err := json.Marshal(a)
		require.NoError(t, err)
		return string(text)
	}
	first := bytes(0)
	for seed := range uint64(3) {
		assert.True(t, first == bytes(seed+1), "another answer with seed %d", seed+1)
	}
}

// Heights in millimetres, or in feet to ten digits, are the same plot.
func TestUnitsOfTheHeightsChangeNothing(t *testing.T) {
	in := func(unit string, metres float64) *siting.Assessment {
		return rewritten(t, "hillside-pinned", func(header []string, rows [][]string) {
			for i, name := range header {
				if strings.Trim(name, "xyz") != "" {
					continue
				}
				header[i] = fmt.Sprintf("%s (%s)", name, unit)
				for _, row := range rows {
					v, err := strconv.ParseFloat(row[i], 64)
					require.NoError(t, err)
					row[i] = strconv.FormatFloat(v/metres, 'f', 10, 64)
				}
			}
		})
	}
	still := func(p orb.Point) orb.Point { return p }
	m := in("m", 1)
	for unit, metres := range map[string]float64{"mm": 0.001, "ft": 0.3048} {
		other := in(unit, metres)
		other.Findings = m.Findings // they tell the unit that was read
		assert.Empty(t, differences(m, other, still, 0), unit)
	}
}
