package wkt_test

import (
	"encoding/hex"
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/internal/faulttest"
	"crossfall/geodata/wkt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func told(ps geodata.RawPoints) (out []string) {
	for _, p := range ps.Points {
		height := "none"
		if p.HasHeight {
			height = fmt.Sprint(p.Height)
		}
		out = append(out, fmt.Sprintf("%s %g %g %s", p.Kind, p.X, p.Y, height))
	}
	return out
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		notes      []string
	}{
		{"Z with a blank", "POINT Z (9.44 20.94 27.93)", []string{"point 9.44 20.94 27.93"}, nil},
		{"Z without", "POINTZ(9.44 20.94 27.93)", []string{"point 9.44 20.94 27.93"}, nil},
		{"no Z at all", "POINT (9.44 20.94 27.93)", []string{"point 9.44 20.94 27.93"}, nil},
		{"small letters", "point z (1 2 3)", []string{"point 1 2 3"}, nil},
		{"two numbers", "POINT (1 2)", []string{"point 1 2 none"}, nil},
		{"height 0 is real", "POINT Z (1 2 0)", []string{"point 1 2 0"}, nil},
		{"measure is no height", "POINT M (1 2 3)", []string{"point 1 2 none"}, []string{"note wkt-measures"}},
		{"height and measure", "POINT ZM (1 2 3 4)", []string{"point 1 2 3"}, []string{"note wkt-measures"}},
		{"line", "LINESTRING Z (1 2 3, 4 5 6)", []string{"line 1 2 3", "line 4 5 6"}, nil},
		{"ring comes back", "POLYGON Z ((0 0 1, 1 0 2, 0 1 3, 0 0 1))", []string{"ring 0 0 1", "ring 1 0 2", "ring 0 1 3"}, nil},
		{"many points", "MULTIPOINT Z ((1 2 3), (4 5 6))", []string{"point 1 2 3", "point 4 5 6"}, nil},
		{"many points, bare", "MULTIPOINT Z (1 2 3, 4 5 6)", []string{"point 1 2 3", "point 4 5 6"}, nil},
		{"collection", "GEOMETRYCOLLECTION Z (POINT Z (1 2 3), LINESTRING Z (4 5 6, 7 8 9))", []string{"point 1 2 3", "line 4 5 6", "line 7 8 9"}, nil},
		{"many lines", "MULTILINESTRING ((1 2, 3 4), (5 6, 7 8))", []string{"line 1 2 none", "line 3 4 none", "line 5 6 none", "line 7 8 none"}, nil},
		{"many areas", "MULTIPOLYGON (((0 0, 1 0, 0 1, 0 0)))", []string{"ring 0 0 none", "ring 1 0 none", "ring 0 1 none"}, nil},
		{"a list", "POINT Z (1 2 3);\nPOINT Z (4 5 6)\n\nPOINT EMPTY\n", []string{"point 1 2 3", "point 4 5 6"}, []string{"note wkt-empty"}},
		{"over several lines", "LINESTRING Z (1 2 3,\r\n\t4 5 6)", []string{"line 1 2 3", "line 4 5 6"}, nil},
		{"mark", "\xef\xbb\xbfPOINT Z (1 2 3e1)", []string{"point 1 2 30"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.True(t, wkt.Sniff([]byte(c.text)))
			got, fs := wkt.Read([]byte(c.text), "p.wkt")
			assert.Equal(t, c.notes, faulttest.Codes(fs))
			assert.Equal(t, c.want, told(got))
		})
	}
}

func TestPlaces(t *testing.T) {
	got, fs := wkt.Read([]byte("POINT Z (1 2 3)\n LINESTRING Z (4 5 6,\n 7 8 9)\nPOLYGON ((0 0, 1 0, 0 1, 0 0))\nPOINT (5 5)"), "p.wkt")
	require.NoError(t, fs.Err())
	var at []string
	for _, p := range got.Points {
		at = append(at, p.Source.String())
	}
	assert.Equal(t, []string{"p.wkt:1:10", "p.wkt:2:16", "p.wkt:3:2", "p.wkt:4:11", "p.wkt:4:16", "p.wkt:4:21", "p.wkt:5:8"}, at)
}

func TestSystems(t *testing.T) {
	got, fs := wkt.Read([]byte("SRID=4326;POINT Z (-3.5 50.7 27.9)\nsrid = 4326 ; POINT (-3.5 50.8)"), "p.wkt")
	require.NoError(t, fs.Err())
	assert.True(t, got.Geographic)
	assert.Equal(t, 4326, got.EPSG)

	got, _ = wkt.Read([]byte("SRID=27700;POINT Z (294163.9 90002.1 27.9)"), "p.wkt")
	assert.False(t, got.Geographic)
	assert.Equal(t, 27700, got.EPSG)

	for text, want := range map[string]string{
		"SRID=4326;POINT (50 -3.5)\nSRID=27700;POINT (1 2)": "problem systems-differ:2:12",
		"POINT (1 2)\nSRID=27700;POINT (1 2)":               "problem systems-differ:2:12",
		"SRID=4326;POINT (294163.9 90002.1)":                "problem not-degrees:1:18",
		"SRID=x;POINT (1 2)":                                "problem srid-unclear:1:1",
		"SRID=4326 POINT (1 2)":                             "problem srid-unclear:1:1",
	} {
		got, fs := wkt.Read([]byte(text), "p.wkt")
		assert.Equal(t, []string{want}, faulttest.Codes(fs), text)
		assert.Empty(t, got.Points)
	}
}

func TestTextFaults(t *testing.T) {
	for _, c := range []struct{ name, text, code string }{
		{"empty", " \n", "problem empty-file"},
		{"other text", "x,y,z\n1,2,3", "problem geometry-unknown:1:1"},
		{"cut", "LINESTRING (1 2, 3", "problem file-cut-short:1:19"},
		{"decimal comma", "POINT (1,5 2,5)", "problem point-numbers:1:9"},
		{"one number", "POINT (1)", "problem point-numbers:1:9"},
		{"five numbers", "POINT (1 2 3 4 5)", "problem point-numbers:1:17"},
		{"number", "POINT (1 2-3)", "problem not-a-number:1:10"},
		{"infinite", "POINT (1 1e999)", "problem not-a-number:1:10"},
		{"mixed", "LINESTRING (1 2 3, 4 5)", "problem dimensions-mixed:1:23"},
		{"keyword says otherwise", "POINT Z (1 2)", "problem dimensions-mixed:1:13"},
		{"open ring", "POLYGON ((0 0, 1 0, 0 1, 1 1))", "problem ring-open:1:29"},
		{"short ring", "POLYGON ((0 0, 1 0, 0 0))", "problem ring-too-short:1:24"},
		{"short line", "LINESTRING (0 0)", "problem line-too-short:1:16"},
		{"curve", "CIRCULARSTRING (0 0, 1 1, 2 0)", "problem geometry-unknown:1:1"},
		{"sign", "POINT [1 2]", "problem not-wkt:1:7"},
		{"letter", "POINT (é 2)", "problem not-wkt:1:8"},
		{"deep", strings.Repeat("GEOMETRYCOLLECTION(", 60) + "POINT (1 2)" + strings.Repeat(")", 60), "problem nested-too-deeply:1:969"},
		{"very deep", strings.Repeat("(", 1_000_000), "problem not-wkt:1:1"},
		{"only empty ones", "POINT EMPTY", "problem no-points"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := wkt.Read([]byte(c.text), "p.wkt")
			require.Positive(t, fs.Problems())
			assert.Equal(t, c.code, faulttest.Codes(fs)[0])
			assert.Empty(t, got.Points)
		})
	}
}

// One broken geometry hides neither the next one nor its faults.
func TestAllFaultsAtOnce(t *testing.T) {
	_, fs := wkt.Read([]byte("POINT (1)\nLINESTRING (1 2,\n # 3 4,\n 5 6)\nPOINT (1 2)\nBOX (1 2)\nPOINT (x 2)"), "p.wkt")
	assert.Equal(t, []string{
		"problem point-numbers:1:9", "problem not-wkt:3:2", "problem geometry-unknown:6:1", "problem not-a-number:7:8",
	}, faulttest.Codes(fs))
}

// The forms of a point at 1, 2, 3 in binary: ISO 13249-3, the extended form
// with and without a coordinate system, the old form, and both byte orders.
func TestBinary(t *testing.T) {
	const (
		one, two, three = "000000000000f03f", "0000000000000040", "0000000000000840" // little-endian
		bigOne          = "3ff0000000000000"
		bigTwo          = "4000000000000000"
		bigThree        = "4008000000000000"
		nan             = "000000000000f87f"
	)
	for _, c := range []struct {
		name, hex string
		want      []string
		epsg      int
	}{
		{"flat", "0101000000" + one + two, []string{"point 1 2 none"}, 0},
		{"ISO Z", "01e9030000" + one + two + three, []string{"point 1 2 3"}, 0},
		{"ISO M", "01d1070000" + one + two + three, []string{"point 1 2 none"}, 0},
		{"ISO ZM", "01b90b0000" + one + two + three + one, []string{"point 1 2 3"}, 0},
		{"extended Z", "0101000080" + one + two + three, []string{"point 1 2 3"}, 0},
		{"extended Z with a system", "01010000a0" + "e6100000" + one + two + three, []string{"point 1 2 3"}, 4326},
		{"old Z", "0101800000" + one + two + three, []string{"point 1 2 3"}, 0},
		{"big-endian ISO Z", "00000003e9" + bigOne + bigTwo + bigThree, []string{"point 1 2 3"}, 0},
		{"big-endian extended Z", "0080000001" + bigOne + bigTwo + bigThree, []string{"point 1 2 3"}, 0},
		{"big-endian old Z", "0000008001" + bigOne + bigTwo + bigThree, []string{"point 1 2 3"}, 0},
		{"line", "01ea03000002000000" + one + two + three + three + two + one, []string{"line 1 2 3", "line 3 2 1"}, 0},
		{"ring", "01030000000100000004000000" + one + one + two + one + one + two + one + one, []string{"ring 1 1 none", "ring 2 1 none", "ring 1 2 none"}, 0},
		{"points of mixed byte orders", "01ec03000002000000" + "01e9030000" + one + two + three + "00000003e9" + bigThree + bigTwo + bigOne, []string{"point 1 2 3", "point 3 2 1"}, 0},
		{"collection", "010700000001000000" + "0101000000" + one + two, []string{"point 1 2 none"}, 0},
		{"empty among others", "010400000002000000" + "0101000000" + nan + nan + "0101000000" + one + two, []string{"point 1 2 none"}, 0},
		{"two after one another", "0101000000" + one + two + "0101000000" + two + one, []string{"point 1 2 none", "point 2 1 none"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, err := hex.DecodeString(c.hex)
			require.NoError(t, err)
			for _, form := range [][]byte{data, []byte(c.hex), []byte("\n" + strings.ToUpper(c.hex) + "\r\n")} {
				assert.True(t, wkt.Sniff(form))
				got, fs := wkt.Read(form, "p.wkb")
				require.NoError(t, fs.Err())
				assert.Equal(t, c.want, told(got))
				assert.Equal(t, c.epsg, got.EPSG)
			}
		})
	}
}

func TestBinaryFaults(t *testing.T) {
	for name, text := range map[string]string{
		"cut":                       "0101000000000000000000f03f00000000",
		"counts 4 thousand million": "0102000000ffffffff000000000000f03f",
		"rings":                     "0103000000ffffffff000000000000f03f",
		"points":                    "0104000000ffffffff000000000000f03f",
		"parts of another kind":     "010400000001000000" + "010200000000000000",
		"infinite":                  "0101000000000000000000f07f000000000000f03f",
		"trailing":                  "0101000000000000000000f03f000000000000f03fff",
		"deep":                      strings.Repeat("010700000001000000", 100),
	} {
		data, err := hex.DecodeString(text)
		require.NoError(t, err)
		got, fs := wkt.Read(data, "p.wkb")
		assert.Positive(t, fs.Problems(), name)
		assert.Empty(t, got.Points)
	}
	_, fs := wkt.Read([]byte("0101000000000000000000f03f0000000000000040\n01zz\n"), "p.wkb")
	assert.Equal(t, []string{"problem not-hex:2"}, faulttest.Codes(fs))
	_, fs = wkt.Read([]byte("\x00\x01\x02"), "p.wkb")
	assert.Equal(t, []string{"problem not-wkt"}, faulttest.Codes(fs))
}

func TestTooManyPoints(t *testing.T) {
	const n = 1_000_001
	line := append([]byte{1, 2, 0, 0, 0}, byte(n&0xff), byte(n>>8&0xff), byte(n>>16), 0)
	got, fs := wkt.Read(append(line, make([]byte, 16*n)...), "p.wkb")
	assert.Equal(t, []string{"problem too-many-points"}, faulttest.Codes(fs))
	assert.Empty(t, got.Points)
}

func TestSniffRefuses(t *testing.T) {
	for _, no := range []string{"", "POINT", "x,y,z", "name;POINT (1 2)", "0101", "<kml/>", "POINTS (1 2)", "SRID", "\x01\x01\x00"} {
		assert.False(t, wkt.Sniff([]byte(no)), "%q", no)
	}
}

func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"SRID=4326;POINT Z (1 2 3)", "GEOMETRYCOLLECTION M (POINT EMPTY, POINT M (1 2 3))", "GEOMETRYCOLLECTION Z (POINT EMPTY)",
		"MULTIPOINT (EMPTY, 1 2)", "POLYGON ZM ((0 0 0 0, 1 0 0 0, 0 1 0 0, 0 0 0 0))", "0101000000000000000000f03f0000000000000040",
		"\x01\x01\x00\x00\xa0\xe6\x10\x00\x00", "\x01\x07\x00\x00\x00\x01\x00\x00\x00\x01\x01\x00\x00\x00\x00\x00\x00\x00\x00\x00\xf0\x3f\x00\x00\x00\x00\x00\x00\xf0\x3f",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		wkt.Sniff(data)
		got, fs := wkt.Read(data, "f.wkt")
		if len(got.Points) == 0 == (fs.Problems() == 0) {
			t.Fatalf("%d points and %d problems", len(got.Points), fs.Problems())
		}
	})
}

func ExampleRead() {
	points, faults := wkt.Read([]byte("SRID=27700;MULTIPOINT Z ((294163.9 90002.1 27.93), (294168.9 90002.1 28.12))"), "spots.wkt")
	if err := faults.Err(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("EPSG", points.EPSG)
	for _, p := range points.Points {
		fmt.Println(p.X, p.Y, p.Height)
	}
	// Output:
	// EPSG 27700
	// 294163.9 90002.1 27.93
	// 294168.9 90002.1 28.12
}
