package plotfolder_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// bare are the heights without the places in the file.
func bare(spots []geodata.SpotHeight) []geodata.SpotHeight {
	out := make([]geodata.SpotHeight, len(spots))
	for i, s := range spots {
		s.Source = geodata.Pos{}
		for _, v := range []*float64{&s.At[0], &s.At[1], &s.Height, &s.Sigma} {
			*v = math.Round(*v*1e9) / 1e9
		}
		out[i] = s
	}
	return out
}

func spot(name string, x, y, z float64) geodata.SpotHeight {
	return geodata.SpotHeight{Name: name, At: orb.Point{x, y}, Height: z, Readings: 1}
}

func encoded(t *testing.T, text string, little bool) string {
	e := unicode.BigEndian
	if little {
		e = unicode.LittleEndian
	}
	out, err := unicode.UTF16(e, unicode.UseBOM).NewEncoder().String(text)
	require.NoError(t, err)
	return out
}

// The same three heights in every dress that people give them.
func TestHeightsCSV(t *testing.T) {
	windows, err := charmap.Windows1252.NewEncoder().String("name;x;y;z\n# gräßlich\na;0;0;1,25\nb;1500;0;1,5\nc;0;12,5;-0,5\n")
	require.NoError(t, err)
	want := []geodata.SpotHeight{spot("a", 0, 0, 1.25), spot("c", 0, 12.5, -0.5), spot("b", 1500, 0, 1.5)}
	for name, text := range map[string]string{
		"comma":                "name,x,y,z\na,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,-0.5\n",
		"semicolon":            "name;x;y;z\na;0;0;1.25\nb;1500;0;1.5\nc;0;12.5;-0.5\n",
		"tab":                  "name\tx\ty\tz\na\t0\t0\t1.25\nb\t1500\t0\t1.5\nc\t0\t12.5\t-0.5\n",
		"pipe":                 "name|x|y|z\na|0|0|1.25\nb|1500|0|1.5\nc|0|12.5|-0.5\n",
		"blanks":               "name  x    y    z\na     0    0    1.25\nb     1500 0    1.5\nc     0    12.5 -0.5\n",
		"decimal comma":        "name;x;y;z\na;0;0;1,25\nb;1500;0;1,5\nc;0;12,5;-0,5\n",
		"decimal comma quoted": "name,x,y,z\na,0,0,\"1,25\"\nb,1500,0,\"1,5\"\nc,0,\"12,5\",\"-0,5\"\n",
		"decimal comma blanks": "name x y z\na 0 0 1,25\nb 1500 0 1,5\nc 0 12,5 -0,5\n",
		"thousands":            "name;x;y;z\na;0;0;1.25\nb;1,500.0;0;1.5\nc;0;12.5;-0.5\n",
		"thousands by NBSP":    "name,x,y,z\na,0,0,1.25\nb,1\u00a0500,0,1.5\nc,0,12.5,-0.5\n",
		"Unicode minus":        "name,x,y,z\na,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,\u22120.5\n",
		"CRLF":                 "name,x,y,z\r\na,0,0,1.25\r\nb,1500,0,1.5\r\nc,0,12.5,-0.5\r\n",
		"CR":                   "name,x,y,z\ra,0,0,1.25\rb,1500,0,1.5\rc,0,12.5,-0.5\r",
		"no last line end":     "name,x,y,z\na,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,-0.5",
		"comments and blanks":  "# heights\n\nname,x,y,z\n#wet\na,0,0,1.25\n\nb,1500,0,1.5\nc,0,12.5,-0.5\n\n",
		"trailing delimiters":  "name,x,y,z,,\na,0,0,1.25,,,\nb,1500,0,1.5,,\nc,0,12.5,-0.5\n",
		"UTF-8 mark":           "\xef\xbb\xbfname,x,y,z\na,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,-0.5\n",
		"UTF-16 little":        encoded(t, "name,x,y,z\r\na,0,0,1.25\r\nb,1500,0,1.5\r\nc,0,12.5,-0.5\r\n", true),
		"UTF-16 big":           encoded(t, "name,x,y,z\na,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,-0.5\n", false),
		"Windows-1252":         windows,
		"synonyms":             "Point;Easting;Northing;Reduced Level\na;0;0;1.25\nb;1500;0;1.5\nc;0;12.5;-0.5\n",
		"northing before":      "pt,N,E,Elev\na,0,0,1.25\nb,0,1500,1.5\nc,12.5,0,-0.5\n",
		"millimetres":          "name,x (m),y_m,height (mm)\na,0,0,1250\nb,1500,0,1500\nc,0,12.5,-500\n",
		"units at the numbers": "name,x,y,z\na,0 m,0,125 cm\nb,1500m,0,1500mm\nc,0,12.5 m,-0.5m\n",
		"no header":            "a,0,0,1.25\nb,1500,0,1.5\nc,0,12.5,-0.5\n",
		"columns turned":       "z,note,y,name,x\n1.25,,0,a,0\n1.5,,0,b,1500\n-0.5,,12.5,c,0\n",
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, want, bare(plot(t, files{"heights.csv": text}).Spots))
		})
	}
}

func TestHeightsInFeet(t *testing.T) {
	want := []geodata.SpotHeight{spot("a", 0, 0, 1.3716), spot("c", 0, 6.096, 0.9144), spot("b", 3.048, 0, 1.3843)}
	for name, fs := range map[string]files{
		"header":     {"heights.csv": "name,x (ft),y (ft),z (feet)\na,0,0,4.5\nb,10,0,4'6 1/2\"\nc,0,20,3\n"},
		"cells":      {"heights.csv": "name,x,y,z\na,0,0,4'6\"\nb,10 ft,0,4 ft 6 1/2 in\nc,0,20',3'\n"},
		"site.toml":  {"heights.csv": "name,x,y,z\na,0,0,4.5\nb,10,0,4'6½\"\nc,0,20,3\n", "site.toml": "units = \"ft\"\n"},
		"curly":      {"heights.csv": "name,x,y,z\na,0,0,4’6”\nb,10′,0,4′6½″\nc,0,20’,3’\n"},
		"mixed":      {"heights.csv": "name,x (ft),y (m),z (in)\na,0,0,54\nb,10,0,54.5\nc,0,6.096,36\n"},
		"other unit": {"heights.csv": "name,x,y,z\na,0,0,4.5\nb,10,0,4'6½\"\nc,0,20,0.9144 m\n", "site.toml": "units = \"ft\"\n"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, want, bare(plot(t, fs).Spots))
		})
	}
	p := plot(t, files{"heights.csv": "name,x,y,z,sigma\na,0,0,4.5,0.05\nb,10,0,4,\nc,0,20,3,\n", "site.toml": "units = \"ft\"\n"})
	assert.Equal(t, "x, y, z, sigma: taken as feet, as site.toml says", find(t, p.Notes, "unit-assumed").Message)
	assert.InDelta(t, 0.01524, p.Spots[0].Sigma, 1e-12)
}

func TestHeightsWithoutHeader(t *testing.T) {
	for _, c := range []struct {
		name, text, taken string
		first             geodata.SpotHeight
	}{
		{"three columns", "0,1,2\n5,0,3\n0,5,4\n", "x, y, z", spot("row 1", 0, 1, 2)},
		{"four columns", "7,0,1,2\n8,5,0,3\n9,0,5,4\n", "name, x, y, z", spot("7", 0, 1, 2)},
		{"a note behind three", "0,1,2,gate\n5,0,3\n0,5,4,oak\n", "x, y, z, note", geodata.SpotHeight{Name: "row 1", At: orb.Point{0, 1}, Height: 2, Note: "gate", Readings: 1}},
		{"five columns", "a,0,1,2,gate\nb,5,0,3,\nc,0,5,4,oak\n", "name, x, y, z, note", geodata.SpotHeight{Name: "a", At: orb.Point{0, 1}, Height: 2, Note: "gate", Readings: 1}},
		{"a note further down", "a,0,1,2\nb,5,0,3\nc,0,5,4,oak\n", "name, x, y, z, note", spot("a", 0, 1, 2)},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plot(t, files{"heights.csv": c.text})
			assert.Equal(t, c.first, bare(p.Spots)[0])
			assert.Equal(t, "there is no header row: the columns were taken as "+c.taken, find(t, p.Notes, "columns-assumed").Message)
		})
	}
	path := filepath.Join(folder(t, files{"survey.txt": "1,5.5,0.5,30,gate\n2,0,10,31,\n3,8,8,32,\n"}), "survey.txt")
	p, err := plotfolder.Read(path, plotfolder.Options{Columns: []string{"point", "north", "east", "height", "note"}})
	require.NoError(t, err)
	assert.Equal(t, orb.Point{0.5, 5.5}, p.Spots[0].At, "point, northing, easting, height, description")
	assert.Contains(t, find(t, p.Notes, "columns-named").Message, "point, north, east, height, note")
	p, err = plotfolder.Read(path, plotfolder.Options{Columns: []string{"-", "north (ft)", "east (ft)", "height (m)"}})
	require.Error(t, err, "five cells, four names")
	assert.Nil(t, p)
	_, err = plotfolder.Read(path, plotfolder.Options{Columns: []string{"point", "nord", "east", "height", "note"}})
	assert.ErrorContains(t, err, "nord")
	headed := plot(t, files{"heights.csv": "point,north,east,height,note\n1,5.5,0.5,30,gate\n2,0,10,31,\n3,8,8,32,\n"})
	assert.Equal(t, orb.Point{0.5, 5.5}, headed.Spots[0].At, "or by a header")
}

func TestHeightsInDegrees(t *testing.T) {
	p := plot(t, files{"heights.csv": "id,longitude,latitude,alt\na,-3.5,50.7,30\nb,-3.499,50.7°,31\nc,-3.5,50.701,32\n"})
	assert.True(t, p.Frame.Geographic)
	assert.Equal(t, "true north", p.Frame.North)
	assert.InDelta(t, -3.4995, p.Frame.Origin[0], 1e-9)
	assert.InDelta(t, 50.7005, p.Frame.Origin[1], 1e-9)
	at := map[string]orb.Point{}
	for _, s := range p.Spots {
		at[s.Name] = s.At
	}
	assert.InDelta(t, 70.649, at["b"][0]-at["a"][0], 1e-3, "PROJ: 70649.388 m to the degree of longitude at 50.7 N")
	assert.InDelta(t, 111.2425, at["c"][1]-at["a"][1], 1e-3, "PROJ: 111242.526 m to the degree of latitude")
	assert.Contains(t, find(t, p.Notes, "projected").Message, "true north")
}

func TestFaultsOfHeights(t *testing.T) {
	const head = "name,x,y,z\n"
	for _, c := range []struct {
		name, text string
		want       []string
		advice     string // of the first
	}{
		{"text for a number", head + "a,0,0,1\nb,ten,0,2\nc,0,5,3\n", []string{"not-a-number at heights.csv:3:3: ten"}, "write a number, such as 1.25, or a length with its unit, such as 4'6\""},
		{"range", head + "a,0,0,1\nb,4-6,0,2\nc,0,5,3\n", []string{"not-a-number at heights.csv:3:3: 4-6"}, "such as 4'6\""},
		{"date for a number", head + "a,0,0,1\nb,1,0,2\nc,0,02-Jan,3\n", []string{"not-a-number at heights.csv:4:5: 02-Jan"}, "write a number"},
		{"no number", head + "a,0,0,1\nb,,0,2\nc,0,5,3\n", []string{"number-missing at heights.csv:3:3: "}, "write a number"},
		{"infinite", head + "a,0,0,1\nb,5,0,inf\nc,0,5,3\n", []string{"not-a-number at heights.csv:3:7: inf"}, "write a number"},
		{"not a number", head + "a,0,0,NaN\nb,5,0,2\nc,0,5,3\n", []string{"not-a-number at heights.csv:2:7: NaN"}, "write a number"},
		{"short row", head + "a,0,0,1\nb,5\nc,0,5,3\n", []string{"short-row at heights.csv:3: b,5"}, "write all 4 cells, or leave the row out"},
		{"long row", head + "a,0,0,1\nb,5,0,2,9\nc,0,5,3\n", []string{"long-row at heights.csv:3:9: b,5,0,2,9"}, "take out the delimiter (comma)"},
		{"fill value", head + "a,0,0,1\nb,5,0,-9999\nc,0,5,3\n", []string{"height-out-of-range at heights.csv:3:7: -9999"}, "-500 to 9000"},
		{"empty", "", []string{"empty-file at heights.csv: "}, "write a header row"},
		{"delimiters only", ",,,\n,,\n", []string{"empty-file at heights.csv: "}, "write a header row"},
		{"header only", head, []string{"too-few-heights at heights.csv: "}, "at least three heights"},
		{"two heights", head + "a,0,0,1\nb,5,0,2\n", []string{"too-few-heights at heights.csv: "}, "at least three heights"},
		{"two places", head + "a,0,0,1\nb,5,0,2\nc,5,0,2\n", []string{"too-few-heights at heights.csv: "}, "at least three heights"},
		{"one line", head + "a,0,0,1\nb,5,5,2\nc,10,10,3\nd,20,20.01,3\n", []string{"heights-in-line at heights.csv: "}, "to the side of the line"},
		{"one place", head + "a,0,0,1\nb,0.02,0,2\nc,0,0.02,3\n", []string{"heights-at-one-place at heights.csv: "}, "name the columns longitude and latitude"},
		{"no column of heights", "name,x,y\na,0,0\n", []string{"column-missing at heights.csv:1: name,x,y"}, "write the header name,x,y,z"},
		{"misspelt column", "name,x,y,hieght\na,0,0,1\n", []string{"column-missing at heights.csv:1: name,x,y,hieght"}, `if "hieght" is meant, write height`},
		{"column twice", "name,x,y,z,elevation\na,0,0,1,1\n", []string{"column-twice at heights.csv:1:12: elevation"}, "keep one of the two"},
		{"unknown unit", "name,x,y,z (fathoms)\na,0,0,1\n", []string{"unit-unknown at heights.csv:1:10: z (fathoms)"}, "write m, cm, mm, ft or in"},
		{"mixed coordinates", "name,lon,y,z\na,0,0,1\n", []string{"mixed-coordinates at heights.csv:1:10: y"}, "longitude and latitude"},
		{"metres as degrees", "lon,lat,z\n250,100,1\n", []string{"not-degrees at heights.csv:2:1: 250,100,1"}, "for metres name the columns x and y"},
		{"two columns", "1,2\n3,4\n", []string{"no-header at heights.csv:1: 1,2"}, "write the header name,x,y,z"},
		{"precision without its unit", "name,x,y,z,precision\na,0,0,1,12\nb,5,0,1,\nc,0,5,1,\n", []string{"precision-out-of-range at heights.csv:2:9: 12"}, "precision (mm)"},
		{"side", "name,x,y,z,side\na,0,0,1,topp\nb,5,0,1,\nc,0,5,1,\n", []string{"side-unknown at heights.csv:2:9: topp"}, "write top or toe"},
		{"unclear commas", "x;y;z\n1,5;2.5;3\n0;5;1\n7;7;7\n", []string{"not-a-number at heights.csv:2:1: 1,5"}, "a point for decimals"},
		{"open quote", head + "\"a,0,0,1\n", []string{`quote-not-closed at heights.csv:2:1: "a,0,0,1`}, "close the quote"},
		{"too wide", head + "a,0,0,1\nb,5000,0,2\nc,0,5,3\n", []string{"plot-too-wide at heights.csv:3: 5000.00, 0.00"}, "check the figure and its unit"},
		{
			"many at once", head + "a,zero,0,1\nb,5\nc,0,inf,x\nd,1,1,1\n",
			[]string{
				"not-a-number at heights.csv:2:3: zero", "short-row at heights.csv:3: b,5",
				"not-a-number at heights.csv:4:5: inf", "not-a-number at heights.csv:4:9: x",
			}, "",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			fs := faults(t, files{"heights.csv": c.text})
			assert.Equal(t, c.want, short(fs))
			assert.Contains(t, fs[0].Want, c.advice)
			assert.NotEmpty(t, fs[0].Want)
		})
	}
}

func TestFaultsAreCappedAndCounted(t *testing.T) {
	fs := faults(t, files{"heights.csv": "name,x,y,z\n" + strings.Repeat("a,b,0,0\n", 250)})
	require.Len(t, fs, 201)
	last := fs[200]
	assert.Equal(t, "more-faults", last.Code)
	assert.Equal(t, "50 more faults are not listed", last.Message)
	assert.Equal(t, geodata.Pos{File: "heights.csv", Line: 201, Col: 3}, fs[199].Pos)
}

func TestWhatWasTakenForGrantedIsTold(t *testing.T) {
	p := plot(t, files{"heights.csv": "name,x,y,z (m),note,weather\na,0,0,29,toe of bank,rain\nb,20,0,29,,\nc,20,20,30,,\n"})
	assert.Equal(t, "columns that were not read: weather", find(t, p.Notes, "columns-not-read").Message)
	assert.Equal(t, "x, y: taken as metres", find(t, p.Notes, "unit-assumed").Message)
	assert.Contains(t, find(t, p.Notes, "side-from-note").Message, "because their note begins so: 1")
	fs := faults(t, files{"heights.csv": "lon,lat,z\n3 W,50.7,29\n-3.5,50.7 m,29\n"})
	assert.Equal(t, []string{"not-a-number at heights.csv:2:1: 3 W", "not-a-number at heights.csv:3:6: 50.7 m"}, short(fs))
}

func TestHullStandsForABoundary(t *testing.T) {
	p := plot(t, files{"heights.csv": sound + "e,10,10,29.5\n"})
	assert.False(t, p.BoundaryDrawn)
	assert.Equal(t, orb.Polygon{{{0, 0}, {20, 0}, {20, 20}, {0, 20}, {0, 0}}}, p.Boundary)
	assert.Equal(t, []string{"boundary-assumed"}, codes(p.Notes, geodata.Note))
	assert.False(t, p.Frame.Geographic)
	assert.Equal(t, "the +y axis", p.Frame.North)
}

func BenchmarkReadHeights2000(b *testing.B) {
	var text strings.Builder
	text.WriteString("name,x,y,z\n")
	for i := range 2000 {
		fmt.Fprintf(&text, "h%d,%d,%d,%.3f\n", i, i%50, i/50, 30+float64(i%7)/10)
	}
	path := filepath.Join(b.TempDir(), "heights.csv")
	require.NoError(b, os.WriteFile(path, []byte(text.String()), 0o600))
	for b.Loop() {
		if _, err := plotfolder.Read(path, plotfolder.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
