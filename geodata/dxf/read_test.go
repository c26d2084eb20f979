package dxf_test

import (
	"fmt"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/dxf"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func codes(fs geodata.Faults) (out []string) {
	for _, f := range fs {
		out = append(out, fmt.Sprintf("%s %s", f.Severity, f.Code))
	}
	return out
}

func told(ps geodata.RawPoints) (out []string) {
	for _, p := range ps.Points {
		height := "none"
		if p.HasHeight {
			height = fmt.Sprintf("%.6g", p.Height)
		}
		out = append(out, fmt.Sprintf("%s %.6g %.6g %s", p.Kind, p.X, p.Y, height))
	}
	return out
}

// groups writes "code value" words as a DXF file has them, a line each. A
// value may not hold blanks.
func groups(words string) string {
	return strings.Join(strings.Fields(words), "\n") + "\n"
}

const (
	metres = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 9 $INSUNITS 70 6 0 ENDSEC "
	begin  = "0 SECTION 2 ENTITIES "
	end    = "0 ENDSEC 0 EOF"
)

func read(entities string, opt dxf.Options) (geodata.RawPoints, geodata.Faults) {
	return dxf.Read([]byte(groups(metres+begin+entities+end)), "d.dxf", opt)
}

func TestEntities(t *testing.T) {
	for _, c := range []struct {
		name, entities string
		want           []string
	}{
		{"point", "0 POINT 8 GROUND 10 1.5 20 2.5 30 27.9 ", []string{"point 1.5 2.5 27.9"}},
		{"line", "0 LINE 8 A 10 1 20 2 30 3 11 4 21 5 31 6 ", []string{"line 1 2 3", "line 4 5 6"}},
		{"light polyline at its elevation", "0 LWPOLYLINE 8 A 90 2 70 0 38 12.5 10 1 20 2 10 3 20 4 ", []string{"polyline 1 2 12.5", "polyline 3 4 12.5"}},
		{"elevation behind", "0 LWPOLYLINE 8 A 90 1 10 1 20 2 38 12.5 ", []string{"polyline 1 2 12.5"}},
		{"flat polyline at its elevation", "0 POLYLINE 8 A 66 1 10 0 20 0 30 12.5 0 VERTEX 8 A 10 1 20 2 30 0 0 VERTEX 8 A 10 3 20 4 0 SEQEND ", []string{"polyline 1 2 12.5", "polyline 3 4 12.5"}},
		{"spatial polyline", "0 POLYLINE 8 A 66 1 70 8 10 0 20 0 30 0 0 VERTEX 10 1 20 2 30 3 70 32 0 VERTEX 10 4 20 5 30 6 70 32 0 SEQEND ", []string{"polyline 1 2 3", "polyline 4 5 6"}},
		{"curve's frame is not on the line", "0 POLYLINE 8 A 70 8 0 VERTEX 10 1 20 2 30 3 70 48 0 VERTEX 10 4 20 5 30 6 70 32 0 SEQEND ", []string{"polyline 4 5 6"}},
		{"mesh lists its faces as vertices", "0 POLYLINE 8 A 70 64 0 VERTEX 10 1 20 2 30 3 70 192 0 VERTEX 10 0 20 0 30 0 70 128 71 1 72 1 0 SEQEND ", []string{"polyline 1 2 3"}},
		{"face of three corners", "0 3DFACE 8 A 10 0 20 0 30 1 11 1 21 0 31 2 12 0 22 1 32 3 13 0 23 1 33 3 ", []string{"face 0 0 1", "face 1 0 2", "face 0 1 3"}},
		{"height left out is 0", "0 POINT 8 A 10 1 20 2 0 POINT 8 A 10 3 20 4 30 5 ", []string{"point 1 2 0", "point 3 4 5"}},
		{"stray vertex", "0 VERTEX 10 1 20 2 30 3 0 POINT 8 A 10 3 20 4 30 5 ", []string{"point 3 4 5"}},
		{"drawn again", "0 POINT 8 A 10 1 20 2 30 3 0 LINE 8 B 10 1 20 2 30 3 11 4 21 5 31 6 ", []string{"point 1 2 3", "line 4 5 6"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := read(c.entities, dxf.Options{})
			require.NoError(t, fs.Err())
			assert.Equal(t, c.want, told(got))
		})
	}
}

func TestPlaceInTheFile(t *testing.T) {
	got, _ := read("0 POINT 8 A 10 1 20 2 30 3 ", dxf.Options{})
	require.Len(t, got.Points, 1)
	// 9 groups of two lines stand before it (header 7, section 2), then its own.
	assert.Equal(t, geodata.Pos{File: "d.dxf", Line: 2*(7+2) + 2}, got.Points[0].Source)
	assert.Zero(t, got.EPSG)
	assert.False(t, got.Geographic)
}

// A flat drawing is no level ground.
func TestFlatDrawingIsRefused(t *testing.T) {
	got, fs := read("0 POINT 8 A 10 1 20 2 30 0 0 LINE 8 B 10 1 20 2 11 4 21 5 ", dxf.Options{})
	assert.Empty(t, got.Points)
	require.Equal(t, 1, fs.Problems())
	assert.Equal(t, "dxf-flat", fs[0].Code)
	assert.Contains(t, fs[0].Want, "?")
}

func TestLayers(t *testing.T) {
	const mixed = "0 LINE 8 HOUSE 10 1 20 2 11 4 21 5 0 POINT 8 GROUND 10 1 20 2 30 27.9 0 POINT 8 GROUND 10 5 20 5 30 0 "
	got, fs := read(mixed, dxf.Options{})
	require.NoError(t, fs.Err())
	assert.Equal(t, []string{"line 1 2 none", "line 4 5 none", "point 1 2 27.9", "point 5 5 0"}, told(got))
	assert.Subset(t, codes(fs), []string{"warning dxf-layer-flat", "warning dxf-zero-among-heights", "note dxf-layers"})

	got, fs = read(mixed, dxf.Options{Layers: []string{"ground"}})
	require.NoError(t, fs.Err())
	assert.Equal(t, []string{"point 1 2 27.9", "point 5 5 0"}, told(got))
	assert.Contains(t, codes(fs), "note dxf-other-layers")

	_, fs = read(mixed, dxf.Options{Layers: []string{"moon"}})
	assert.Equal(t, []string{"problem no-points", "note dxf-other-layers", "note dxf-unit"}, codes(fs))
}

func TestUnits(t *testing.T) {
	const point = "0 POINT 8 A 10 1000 20 2000 30 100 "
	for _, c := range []struct {
		name, header string
		opt          dxf.Options
		want         string
		codes        []string
	}{
		{"metres", "9 $INSUNITS 70 6 ", dxf.Options{}, "point 1000 2000 100", nil},
		{"millimetres", "9 $INSUNITS 70 4 ", dxf.Options{}, "point 1 2 0.1", nil},
		{"centimetres", "9 $INSUNITS 70 5 ", dxf.Options{}, "point 10 20 1", nil},
		{"inches", "9 $INSUNITS 70 1 ", dxf.Options{}, "point 25.4 50.8 2.54", nil},
		{"feet", "9 $INSUNITS 70 2 ", dxf.Options{}, "point 304.8 609.6 30.48", nil},
		{"overruled", "9 $INSUNITS 70 4 ", dxf.Options{Unit: geodata.Metre}, "point 1000 2000 100", []string{"warning dxf-unit-overruled"}},
		{"not said", "9 $INSUNITS 70 0 ", dxf.Options{}, "", []string{"problem units-not-said"}},
		{"no word of it", "9 $ACADVER 1 AC1009 ", dxf.Options{}, "", []string{"problem units-not-said"}},
		{"asked for", "", dxf.Options{Unit: geodata.Foot}, "point 304.8 609.6 30.48", nil},
		{"angstroms", "9 $INSUNITS 70 11 ", dxf.Options{}, "", []string{"problem unit-unknown"}},
		{"no number", "9 $INSUNITS 70 m ", dxf.Options{}, "", []string{"problem not-a-number"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := dxf.Read([]byte(groups("0 SECTION 2 HEADER "+c.header+"0 ENDSEC "+begin+point+end)), "d.dxf", c.opt)
			var graver []string
			for _, f := range fs {
				if f.Severity < geodata.Note {
					graver = append(graver, fmt.Sprintf("%s %s", f.Severity, f.Code))
				}
			}
			assert.Equal(t, c.codes, graver)
			if c.want != "" {
				assert.Equal(t, []string{c.want}, told(got))
			}
		})
	}
}

func TestWhatIsNotRead(t *testing.T) {
	got, fs := read("0 INSERT 2 TREE 8 A 10 1 20 2 30 3 0 CIRCLE 8 A 10 1 20 2 30 3 40 1 0 LWPOLYLINE 8 A 38 5 10 1 20 2 210 0 220 0 230 -1 0 POINT 8 A 10 7 20 8 30 9 ", dxf.Options{})
	require.NoError(t, fs.Err())
	assert.Equal(t, []string{"point 7 8 9"}, told(got))
	assert.Subset(t, codes(fs), []string{"warning dxf-blocks", "warning dxf-turned", "note dxf-entities-not-read"})

	// Points within a block are no points of the drawing.
	blocks := "0 SECTION 2 BLOCKS 0 BLOCK 2 TREE 0 POINT 8 A 10 1 20 1 30 1 0 INSERT 2 TREE 0 ENDBLK 0 ENDSEC "
	got, fs = dxf.Read([]byte(groups(metres+blocks+begin+"0 POINT 8 A 10 7 20 8 30 9 "+end)), "d.dxf", dxf.Options{})
	require.NoError(t, fs.Err())
	assert.Equal(t, []string{"point 7 8 9"}, told(got))
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, data, code string
		line             int
	}{
		{"binary", "AutoCAD Binary DXF\r\n\x1a\x00\x00", "dxf-binary", 0},
		{"DWG", "AC1027\x00\x00\x00", "dwg", 0},
		{"zero bytes", "0\nSECTION\n\x00", "not-text", 0},
		{"empty", "", "empty-file", 0},
		{"CSV", "x,y,z\n1,2,3\n", "not-dxf", 1},
		{"no section", groups("0 LINE 8 A"), "not-dxf", 2},
		{"out of step", groups(metres + begin + "0 POINT 8 A 10 1 20 2 x 3 30 4 " + end), "not-dxf", 27},
		{"cut in a pair", groups(metres+begin) + "0\nPOINT\n10\n", "file-cut-short", 21},
		{"cut in the entities", groups(metres + begin + "0 POINT 8 A 10 1 20 2 30 3"), "file-cut-short", 28},
		{"no y", groups(metres + begin + "0 POINT 8 A 10 1 " + end), "number-missing", 20},
		{"decimal comma", groups(metres + begin + "0 POINT 8 A 10 1,5 20 2 30 3 " + end), "not-a-number", 24},
		{"polyline without y", groups(metres + begin + "0 LWPOLYLINE 8 A 38 1 10 1 10 2 20 3 " + end), "number-missing", 20},
		{"nothing", groups(metres + begin + end), "no-points", 0},
		{"two faults", groups(metres + begin + "0 POINT 8 A 10 a 20 b 30 3 0 POINT 8 A 10 1 20 2 30 c " + end), "not-a-number", 24},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, fs := dxf.Read([]byte(c.data), "d.dxf", dxf.Options{})
			require.Positive(t, fs.Problems())
			assert.Empty(t, got.Points)
			assert.Equal(t, c.code, fs[0].Code)
			assert.Equal(t, geodata.Pos{File: "d.dxf", Line: c.line}, fs[0].Pos)
			if c.name == "two faults" {
				assert.Equal(t, 3, fs.Problems())
			}
		})
	}
}

func TestMissingEndMarkIsTold(t *testing.T) {
	got, fs := dxf.Read([]byte(groups(metres+begin+"0 POINT 8 A 10 1 20 2 30 3 0 ENDSEC")), "d.dxf", dxf.Options{})
	assert.Len(t, got.Points, 1)
	assert.Contains(t, codes(fs), "warning file-cut-short")
}

// Lines may end as any system ends them, codes are padded with blanks, and
// comments may stand anywhere.
func TestFormsOfLines(t *testing.T) {
	for _, ending := range []string{"\r\n", "\n", "\r"} {
		data := "999\nmade by hand\n" + groups(metres+begin+"0 POINT 8 A 10 1 20 2 999 word 30 3 "+end)
		data = "  " + strings.ReplaceAll(data, "\n", ending)
		assert.True(t, dxf.Sniff([]byte(data)))
		got, fs := dxf.Read([]byte(data), "d.dxf", dxf.Options{})
		require.NoError(t, fs.Err())
		assert.Equal(t, []string{"point 1 2 3"}, told(got))
	}
}

func TestCodePage(t *testing.T) {
	page := "0 SECTION 2 HEADER 9 $DWGCODEPAGE 3 ANSI_1251 9 $INSUNITS 70 6 0 ENDSEC "
	_, fs := dxf.Read([]byte(groups(page+begin+"0 POINT 8 \xe4 10 1 20 2 30 3 "+end)), "d.dxf", dxf.Options{})
	require.NoError(t, fs.Err())
	assert.Contains(t, fs.Error(), "д")
}

func TestSniff(t *testing.T) {
	assert.True(t, dxf.Sniff([]byte("AC1015\x00")))
	assert.True(t, dxf.Sniff([]byte("AutoCAD Binary DXF\r\n")))
	for _, no := range []string{"", "0\n1\n", "x,y,z\n1,2,3", "<gpx/>", "ACORN,1,2"} {
		assert.False(t, dxf.Sniff([]byte(no)), no)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(groups(metres + begin + "0 POINT 8 A 10 1 20 2 30 3 0 POLYLINE 70 8 0 VERTEX 10 1 20 2 30 4 0 SEQEND " + end)))
	f.Add([]byte(groups(begin + "0 LWPOLYLINE 38 1 10 1 20 2 0 3DFACE 10 1 20 2 30 3 " + end)))
	f.Add([]byte("AC1027"))
	f.Add([]byte("0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		dxf.Sniff(data)
		got, fs := dxf.Read(data, "f.dxf", dxf.Options{Unit: geodata.Metre})
		if len(got.Points) == 0 == (fs.Problems() == 0) {
			t.Fatalf("%d points and %d problems", len(got.Points), fs.Problems())
		}
	})
}

func ExampleRead() {
	drawing := "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n" +
		"0\nSECTION\n2\nENTITIES\n0\nPOINT\n8\nGROUND\n10\n9440\n20\n20940\n30\n27930\n0\nENDSEC\n0\nEOF\n"
	points, faults := dxf.Read([]byte(drawing), "plot.dxf", dxf.Options{})
	if err := faults.Err(); err != nil {
		fmt.Println(err)
		return
	}
	p := points.Points[0]
	fmt.Printf("%.2f m east, %.2f m north, %.3f m high\n", p.X, p.Y, p.Height)
	// Output:
	// 9.44 m east, 20.94 m north, 27.930 m high
}

func BenchmarkRead10000Faces(b *testing.B) {
	var s strings.Builder
	s.WriteString(metres + begin)
	for i := range 10_000 {
		fmt.Fprintf(&s, "0 3DFACE 8 A 10 %d 20 0 30 1 11 %d 21 1 31 2 12 %d 22 2 32 3 ", i, i, i)
	}
	data := []byte(groups(s.String() + end))
	for b.Loop() {
		got, _ := dxf.Read(data, "d.dxf", dxf.Options{})
		if len(got.Points) != 30_000 {
			b.Fatal(len(got.Points))
		}
	}
}
