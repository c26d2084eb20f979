package csvtable_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/csvtable"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

func read(t *testing.T, text string) *csvtable.Table {
	t.Helper()
	table, faults := csvtable.Read("t.csv", []byte(text))
	require.NotNil(t, table, "%v", faults)
	return table
}

// texts are the cells of every row, the header first.
func texts(t *csvtable.Table) (out [][]string) {
	rows := t.Rows
	if t.Header != nil {
		rows = append([]csvtable.Row{*t.Header}, rows...)
	}
	for _, r := range rows {
		var row []string
		for _, c := range r.Cells {
			row = append(row, c.Text)
		}
		out = append(out, row)
	}
	return out
}

func TestDelimiters(t *testing.T) {
	want := [][]string{{"name", "x", "y"}, {"a", "1.5", "2"}, {"b", "3", "4.25"}}
	for _, c := range []struct {
		name, text string
		delimiter  rune
		word       string
	}{
		{"comma", "name,x,y\na,1.5,2\nb,3,4.25\n", ',', "comma"},
		{"semicolon", "name;x;y\na;1.5;2\nb;3;4.25\n", ';', "semicolon"},
		{"tab", "name\tx\ty\na\t1.5\t2\nb\t3\t4.25\n", '\t', "tab"},
		{"pipe", "name|x|y\na|1.5|2\nb|3|4.25\n", '|', "upright stroke"},
		{"blank", "name x y\na 1.5 2\nb 3 4.25\n", ' ', "blank"},
		{"runs of blanks", "  name   x    y\n  a    1.5   2\n  b    3     4.25\n", ' ', "blank"},
		{"comma and blank", "name, x, y\na, 1.5, 2\nb, 3, 4.25\n", ',', "comma"},
		{"trailing", "name,x,y,\na,1.5,2,,\nb,3,4.25,\n", ',', "comma"},
		{"quotes", "\"name\",\"x\",\"y\"\n\"a\",\"1.5\",\"2\"\n\"b\",3,4.25\n", ',', "comma"},
		{"CRLF", "name,x,y\r\na,1.5,2\r\nb,3,4.25\r\n", ',', "comma"},
		{"CR", "name,x,y\ra,1.5,2\rb,3,4.25\r", ',', "comma"},
		{"comments and blank lines", "# taken; in; rain\n\nname,x,y\n  # b | c\na,1.5,2\n \nb,3,4.25", ',', "comma"},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := read(t, c.text)
			assert.Equal(t, string(c.delimiter), string(table.Delimiter))
			assert.Equal(t, c.word, table.DelimiterName())
			assert.Equal(t, want, texts(table))
			assert.NotNil(t, table.Header)
		})
	}
}

func TestHeaderIsARowWithoutANumber(t *testing.T) {
	assert.NotNil(t, read(t, "point,x,y\n1,2,3\n").Header)
	assert.NotNil(t, read(t, "name,,note\n1,2,3\n").Header)
	assert.Nil(t, read(t, "a,2,3\nb,4,5\n").Header)
	assert.Nil(t, read(t, "a,4'6\",3 ft\n").Header)
	assert.Nil(t, read(t, "1.25m,2,3\n").Header)
	assert.Empty(t, read(t, "name,x,y\n").Rows)
}

func TestCellsKnowTheirPlaces(t *testing.T) {
	table := read(t, "# one\r\nname,höhe,z\r\nñandú, \"a, \"\"b\"\"\" ,7\r\nx,\"5\" pipe,9\r\n")
	require.Len(t, table.Rows, 2)
	r := table.Rows[0]
	assert.Equal(t, 3, r.Line)
	assert.Equal(t, csvtable.Cell{Text: `a, "b"`, Col: 8, Quoted: true}, r.Cell(1))
	assert.Equal(t, csvtable.Cell{Text: "7", Col: 20}, r.Cell(2))
	assert.Equal(t, geodata.Pos{File: "t.csv", Line: 3, Col: 20}, table.Pos(r, r.Cell(2)))
	assert.Equal(t, csvtable.Cell{}, r.Cell(3), "behind the end")
	assert.Equal(t, csvtable.Cell{}, r.Cell(-1))
	assert.Equal(t, `"5" pipe`, table.Rows[1].Cell(1).Text, "a word in quotes stays as it stands")
	assert.False(t, r.Empty())
}

func TestEncodings(t *testing.T) {
	const text = "name,x,y\nEiche – groß,1,2\n"
	little, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
	require.NoError(t, err)
	big, err := unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().String(text)
	require.NoError(t, err)
	windows, err := charmap.Windows1252.NewEncoder().String(text)
	require.NoError(t, err)
	for _, c := range []struct {
		name, data string
		notes      []string
	}{
		{"UTF-8", text, nil},
		{"UTF-8 with mark", "\xef\xbb\xbf" + text, nil},
		{"UTF-16 little end first", little, nil},
		{"UTF-16 big end first", big, nil},
		{"Windows-1252", windows, []string{"encoding-assumed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := read(t, c.data)
			assert.Equal(t, [][]string{{"name", "x", "y"}, {"Eiche – groß", "1", "2"}}, texts(table))
			var notes []string
			for _, n := range table.Notes {
				assert.Equal(t, geodata.Note, n.Severity)
				notes = append(notes, n.Code)
			}
			assert.Equal(t, c.notes, notes)
		})
	}
}

func TestFilesThatAreNoTables(t *testing.T) {
	for _, c := range []struct {
		name, data, code string
		line, col        int
	}{
		{"empty", "", "empty-file", 0, 0},
		{"mark only", "\xef\xbb\xbf", "empty-file", 0, 0},
		{"comments only", "# a\n\n  \n#b", "empty-file", 0, 0},
		{"delimiters only", ",,,\n,,\n", "empty-file", 0, 0},
		{"zero byte", "PK\x03\x04\x00\x00name,x", "not-text", 0, 0},
		{"UTF-16 without mark", "n\x00a\x00m\x00e\x00", "not-text", 0, 0},
		{"open quote", "name,x,y\na,1,2\nb,\"3,4\n", "quote-not-closed", 3, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			table, faults := csvtable.Read("t.csv", []byte(c.data))
			assert.Nil(t, table)
			require.Len(t, faults, 1)
			assert.Equal(t, c.code, faults[0].Code)
			assert.Equal(t, geodata.Pos{File: "t.csv", Line: c.line, Col: c.col}, faults[0].Pos)
			assert.NotEmpty(t, faults[0].Want)
		})
	}
}

func TestTitles(t *testing.T) {
	for _, c := range []struct{ text, name, unit string }{
		{"Height (ft)", "height", "ft"},
		{"Height [M]", "height", "m"},
		{"height_m", "height", "m"},
		{"Reduced Level", "reduced level", ""},
		{"reduced-level (mm)", "reduced level", "mm"},
		{"height in feet", "height", "feet"},
		{"rain in mm", "rain", "mm"},
		{"x", "x", ""},
		{"mm", "mm", ""},
		{"lon (°)", "lon", "°"},
		{"lat deg", "lat", "deg"},
		{"z (furlong)", "z", "furlong"},
		{"Point No.", "point no", ""},
		{"( open", "( open", ""},
		{"position_error_m", "position error", "m"},
		{"", "", ""},
	} {
		title := csvtable.TitleOf(csvtable.Cell{Text: c.text})
		assert.Equal(t, c.name, title.Name, c.text)
		assert.Equal(t, c.unit, title.Unit, c.text)
	}
	assert.Nil(t, read(t, "1,2,3\n").Titles())
	assert.Len(t, read(t, "x (ft),y,z\n").Titles(), 3)
}

func BenchmarkRead(b *testing.B) {
	data := []byte("name,x,y,z\n" + strings.Repeat("p1,12.34,56.78,29.975\n", 2000))
	for b.Loop() {
		if table, _ := csvtable.Read("t.csv", data); table == nil {
			b.Fatal("not read")
		}
	}
}

func TestMostRowsAndColumns(t *testing.T) {
	table, faults := csvtable.Read("rain.csv", []byte("d,mm\n"+strings.Repeat("1,2\n", geodata.MostRows-1)))
	require.Empty(t, faults)
	assert.Equal(t, geodata.MostRows-1, len(table.Rows), "below the header")
	table, faults = csvtable.Read("rain.csv", []byte("d,mm\n"+strings.Repeat("1,2\n\n", geodata.MostRows)))
	assert.Nil(t, table)
	require.Len(t, faults, 1)
	assert.Equal(t, `rain.csv:2000000: this row is one more than the 1000000 that a table may have (read "1,2"); give the part that is needed`, faults[0].Error())

	table, faults = csvtable.Read("heights.csv", []byte("x,y\n"+strings.Repeat("1,", geodata.MostColumns-1)+"1\n"))
	require.Empty(t, faults)
	assert.Equal(t, geodata.MostColumns, len(table.Rows[0].Cells))
	table, faults = csvtable.Read("heights.csv", []byte("x,y\n"+strings.Repeat("1,", geodata.MostColumns)+"1\n"))
	assert.Nil(t, table)
	require.Len(t, faults, 1)
	assert.Equal(t, geodata.Pos{File: "heights.csv", Line: 2, Col: 2*geodata.MostColumns + 1}, faults[0].Pos)
	assert.Equal(t, []string{"too-many-columns", "the row has more than 500 cells"}, []string{faults[0].Code, faults[0].Message})
}
