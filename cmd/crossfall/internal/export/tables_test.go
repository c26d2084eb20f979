package export_test

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/siting"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table reads a CSV as maps from head to cell; heads must not repeat.
func table(t *testing.T, write func(io.Writer) error) (rows []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	all, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, head := range all[0] {
			_, twice := row[head]
			require.False(t, twice, "head %q twice", head)
			row[head] = cells[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// Pieces, what is left and the saw cuts between them make the board.
func TestCutList(t *testing.T) {
	a := assessed(t, "hillside-pinned")
	used, boards := map[string]float64{}, 0
	for _, row := range table(t, func(w io.Writer) error { return export.CutList(w, a.Quantities, geodata.Metric) }) {
		used[row["board"]] += number(t, row["cut to (mm)"])
		require.LessOrEqual(t, used[row["board"]], 1000*number(t, row["board length (m)"])+0.5)
	}
	for _, l := range a.Quantities.Boards {
		boards += l.Count
	}
	require.NotZero(t, boards)
	assert.Len(t, used, boards)
	feet := table(t, func(w io.Writer) error { return export.CutList(w, a.Quantities, geodata.FeetAndInch) })
	length, err := geodata.ParseLength(feet[0]["cut to (in)"]+" in", geodata.Metre)
	require.NoError(t, err)
	assert.InDelta(t, a.Quantities.Boards[0].Cuts[0].Pieces[0].Length/1000, length, 0.0254/16+1e-9)
}

func TestBuying(t *testing.T) {
	a := assessed(t, "hillside")
	metric := table(t, func(w io.Writer) error { return export.Buying(w, a.Quantities, geodata.Metric) })
	feet := table(t, func(w io.Writer) error { return export.Buying(w, a.Quantities, geodata.FeetAndInch) })
	require.Len(t, feet, len(metric))
	sum := 0.0
	for i, row := range metric {
		if row["what"] == "note" {
			assert.NotContains(t, feet[i]["note"], " mm")
			continue
		}
		amount := number(t, row["amount"])
		if row["low"] != "" {
			assert.LessOrEqual(t, number(t, row["low"]), amount)
			assert.GreaterOrEqual(t, number(t, row["high"]), amount)
		}
		switch {
		case row["unit"] == "m3": // a cubic yard is 0.764554857984 m3
			assert.InDelta(t, amount/0.764554857984, number(t, feet[i]["amount"]), 0.014)
		case row["unit"] == "kg": // a pound is 0.45359237 kg
			assert.InDelta(t, amount/0.45359237, number(t, feet[i]["amount"]), 1.7)
		case row["what"] == "cost in all":
			assert.InDelta(t, sum, amount, 0.03)
		case row["unit"] == a.Quantities.Cost.Currency:
			sum += amount
		}
	}
	assert.Positive(t, sum)
}

// The tapes of the sheet run from the marks to the corners of its own places.
func TestSetOut(t *testing.T) {
	for _, plot := range plots {
		a := assessed(t, plot)
		for _, units := range []geodata.Units{geodata.Metric, geodata.FeetAndInch} {
			checkSetOut(t, a, units)
		}
	}
}

func checkSetOut(t *testing.T, a *siting.Assessment, units geodata.Units) {
	t.Helper()
	unit, tape, most := "(m)", "(m)", 0.0015
	if units == geodata.FeetAndInch { // to the quarter inch
		unit, tape, most = "(ft)", "(ft and in)", 0.0254/8+0.0015
	}
	long := func(text string) float64 {
		v, err := geodata.ParseLength(text+map[string]string{"(m)": " m", "(ft)": " ft"}[unit], geodata.Metre)
		require.NoError(t, err, text)
		return v
	}
	at := map[string][2]float64{}
	for _, row := range table(t, func(w io.Writer) error { return export.SetOut(w, a, units) }) {
		here := [2]float64{long(row["x "+unit]), long(row["y "+unit])}
		assert.NotContains(t, row["note"], map[string]string{"(m)": " in", "(ft)": " mm"}[unit])
		if row["kind"] == "mark" || row["kind"] == "mark to be set" {
			at[row["point"]] = here
		}
		for _, nth := range []string{"first", "second"} {
			mark, ok := at[row[nth+" mark"]]
			if !ok {
				continue
			}
			taped, err := geodata.ParseLength(row["tape from "+nth+" mark "+tape], geodata.Metre)
			require.NoError(t, err)
			assert.InDelta(t, math.Hypot(here[0]-mark[0], here[1]-mark[1]), taped, most)
		}
	}
}

// No cell of the table may be taken for a date by a spreadsheet.
func TestFractionsOfAnInch(t *testing.T) {
	a := assessed(t, "hillside")
	for _, row := range table(t, func(w io.Writer) error { return export.SetOut(w, a, geodata.FeetAndInch) }) {
		if row["kind"] == "bed corner" {
			assert.Regexp(t, `^\d+( \d/\d)?$`, row["expected error, one standard deviation (in)"])
		}
	}
}

// What is said of a point is in the units asked for, like its place.
func TestPointsAreSaidInTheUnitsAskedFor(t *testing.T) {
	a := assessed(t, "hillside")
	said := 0
	for i, p := range export.Points(a, geodata.FeetAndInch) {
		assert.NotRegexp(t, `\d m `, p.Note)
		if metric := export.Points(a, geodata.Metric)[i]; metric.Note != p.Note {
			assert.Regexp(t, `^\d+\.\d{3} m from `, metric.Note)
			said++
		}
	}
	assert.Positive(t, said)
}
