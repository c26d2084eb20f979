package csvtable_test

import (
	"errors"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCommasInNumbers(t *testing.T) {
	for _, c := range []struct {
		name, text string
		meaning    csvtable.CommaMeaning
		first      float64 // the first cell of the first row
	}{
		{"none", "x;y;z\n1.5;2;3\n", csvtable.CommaNone, 1.5},
		{"decimal", "x;y;z\n1,5;2,25;3\n", csvtable.CommaDecimal, 1.5},
		{"decimal to the millimetre", "x;y;z\n1,500;2,250;3,000\n", csvtable.CommaDecimal, 1.5},
		{"decimal in quotes", "x,y,z\n\"1,5\",\"2,25\",3\n", csvtable.CommaDecimal, 1.5},
		{"decimal between blanks", "a b c\n1,5 2,25 3,125\n4,5 6,25 7,5\n", csvtable.CommaDecimal, 1.5},
		{"points part thousands", "x;y;z\n1.234,5;2,25;3\n", csvtable.CommaDecimal, 1234.5},
		{"thousands", "x;y;z\n1,234.5;2,250;3.5\n", csvtable.CommaThousands, 1234.5},
		{"millions", "x;y;z\n1,234,567;2;3\n", csvtable.CommaThousands, 1234567},
		{"in quotes", "x,y,z\n\"1,234.5\",2,3\n", csvtable.CommaThousands, 1234.5},
		{"text with commas", "x;y;z;note\n1.5;2;3;oak, 3 m, old\n", csvtable.CommaNone, 1.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := read(t, c.text)
			require.Equal(t, c.meaning, table.Commas)
			v, err := table.Number(table.Rows[0].Cell(0))
			require.NoError(t, err)
			assert.Equal(t, c.first, v)
			assert.Equal(t, c.meaning == csvtable.CommaDecimal, len(table.Notes) == 1 && table.Notes[0].Code == "decimal-comma")
		})
	}
}

func TestUnclearCommasAreRefused(t *testing.T) {
	for name, text := range map[string]string{
		"points and commas":    "x;y;z\n1,5;2.5;3\n",
		"quoted, three digits": "x,y,z\n\"1,234\",2,3\n",
	} {
		table := read(t, text)
		require.Equal(t, csvtable.CommaUnclear, table.Commas, name)
		for _, err := range []error{number(table), length(table)} {
			var e *csvtable.NumberError
			require.True(t, errors.As(err, &e), name)
			assert.Equal(t, "has a comma that may part thousands or decimals", e.Problem)
			assert.Contains(t, e.Want, "a point for decimals")
			assert.Equal(t, e.Problem+"; "+e.Want, e.Error())
		}
	}
}

func number(t *csvtable.Table) error {
	_, err := t.Number(t.Rows[0].Cell(0))
	return err
}

func length(t *csvtable.Table) error {
	_, _, err := t.Length(t.Rows[0].Cell(0), geodata.Metre)
	return err
}

func TestNumberAndLengthOfOneCell(t *testing.T) {
	const refused = -12345 // stands for an error
	table := read(t, "x;y;z\n")
	for _, c := range []struct {
		text           string
		number, length float64 // a bare number in feet
	}{
		{"1.5", 1.5, 1.5 * 0.3048},
		{"-2", -2, -2 * 0.3048},
		{"\u22122", -2, -2 * 0.3048}, // Unicode minus
		{"\u20132", -2, -2 * 0.3048}, // en dash
		{"1\u00a0250.5", 1250.5, 1250.5 * 0.3048},
		{"1\u2009250.5", 1250.5, 1250.5 * 0.3048},
		{"1\u202f250.5", 1250.5, 1250.5 * 0.3048},
		{"1e2", 100, 100 * 0.3048},
		{"1.25m", refused, 1.25},
		{"180 mm", refused, 0.18},
		{`4'6"`, refused, 1.3716},
		{"1 250", refused, refused}, // a common blank may part two numbers
		{"inf", refused, refused},
		{"-Infinity", refused, refused},
		{"NaN", refused, refused},
		{"nan", refused, refused},
		{"0x1F", refused, refused},
		{"1_000", refused, refused},
		{"1e999", refused, refused},
		{"ten", refused, refused},
		{"2-Jan", refused, refused},
		{"", refused, refused},
	} {
		cell := csvtable.Cell{Text: c.text}
		v, err := table.Number(cell)
		if c.number == refused {
			assert.Error(t, err, "number %q", c.text)
		} else {
			assert.NoError(t, err, "number %q", c.text)
			assert.Equal(t, c.number, v, "number %q", c.text)
		}
		m, _, err := table.Length(cell, geodata.Foot)
		if c.length == refused {
			assert.Error(t, err, "length %q", c.text)
		} else {
			assert.NoError(t, err, "length %q", c.text)
			assert.InDelta(t, c.length, m, 1e-12, "length %q", c.text)
		}
	}
}

func TestLengthTellsOfManyInches(t *testing.T) {
	table := read(t, "x;y;z\n")
	m, note, err := table.Length(csvtable.Cell{Text: `2'14"`}, geodata.Metre)
	require.NoError(t, err)
	assert.InDelta(t, 0.9652, m, 1e-12)
	assert.Contains(t, note, "14 inches")
}

// FuzzRead looks for texts on which reading panics or loses its place.
func FuzzRead(f *testing.F) {
	for _, s := range []string{"name,x,y\na,1,2\n", "x;y\n1,5;\"2\"\n", "\xff\xfea\x00,\x00", ",,,\n", "a b\n\"\" 1\n", "\"\"x,1\r2,\xa0"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, faults := csvtable.Read("t.csv", data)
		if table == nil {
			require.Positive(t, faults.Problems())
			return
		}
		lines := 1 + strings.Count(string(data), "\n") + strings.Count(string(data), "\r")
		for _, r := range table.Rows {
			require.True(t, r.Line >= 1 && r.Line <= lines)
			for i, c := range r.Cells {
				require.Positive(t, c.Col)
				require.True(t, i == 0 || c.Col > r.Cells[i-1].Col)
				_, _ = table.Number(c)
				_, _, _ = table.Length(c, geodata.Metre)
			}
		}
	})
}
