package heightgrid_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

// plain is a small grid that tests change; its north-west corner is at 1000,
// 2000 and its cells are 2 m.
func plain() tiffSpec {
	return tiffSpec{class: 3, bits: 32, cols: 21, rows: 17, strip: 7, z: sampleHeight, tags: placed(1000, 2000, 2, britishGrid...)}
}

func TestEveryEncodingGivesTheSameHeights(t *testing.T) {
	types := [][2]int{{1, 8}, {2, 8}, {1, 16}, {2, 16}, {1, 32}, {2, 32}, {1, 64}, {2, 64}, {3, 32}, {3, 64}}
	for _, packing := range []int{0, 5, 8, 32946, 32773} {
		for predictor := 1; predictor <= 3; predictor++ {
			if packing == 0 && predictor > 1 {
				continue
			}
			t.Run(fmt.Sprintf("packing %d predictor %d", packing, predictor), func(t *testing.T) {
				for _, kind := range types {
					if predictor == 3 && kind[0] != 3 {
						continue
					}
					s := plain()
					s.packing, s.predictor, s.class, s.bits = packing, predictor, kind[0], kind[1]
					checkLayouts(t, s)
				}
			})
		}
	}
}

// checkLayouts reads a grid in strips and tiles, both byte orders, both sizes
// of file, one band, bands side by side and bands apart.
func checkLayouts(t *testing.T, s tiffSpec) {
	t.Helper()
	z := s.z
	if s.class != 1 {
		z = func(c, r int) float64 { return sampleHeight(c, r) - 60 }
	}
	if s.class == 3 {
		whole := z
		z = func(c, r int) float64 { return whole(c, r) + .25*float64(c%4) }
	}
	s.z = z
	want := sampled(s.cols, s.rows, z)
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for _, big := range []bool{false, true} {
			for _, block := range [][2]int{{0, 0}, {7, 0}, {1, 0}, {0, 16}} {
				for _, bands := range []int{1, 3, -3} {
					if bands != 1 && big != (order == binary.BigEndian) {
						continue
					}
					v := s
					v.order, v.big, v.strip, v.tile = order, big, block[0], block[1]
					v.bands, v.planar = max(bands, -bands), bands < 0
					r := readAll(t, v.write(), "hill.tif")
					sameHeights(t, want, north(r), "%v big %v strip %d tile %d bands %d type %d %d", order, big, block[0], block[1], bands, s.class, s.bits)
				}
			}
		}
	}
}

func TestGridIsPlaced(t *testing.T) {
	turn := func(m ...float64) []tiffTag { return []tiffTag{{34264, m}, {34735, []uint16{1, 1, 0, 0}}} }
	asPoint := append([]uint16{}, britishGrid...)
	asPoint[7] = 2
	for name, c := range map[string]struct {
		tags   []tiffTag
		origin orb.Point // centre of the south-western cell of 21 by 17
	}{
		"corner":                {placed(1000, 2000, 2, britishGrid...), orb.Point{1001, 1967}},
		"centre (PixelIsPoint)": {placed(1000, 2000, 2, asPoint...), orb.Point{1000, 1968}},
		"tie point inside": {[]tiffTag{{33550, []float64{2, 2, 0}}, {33922, []float64{10, 5, 0, 1020, 1990, 0}}},
			orb.Point{1001, 1967}},
		"negative cell height": {[]tiffTag{{33550, []float64{2, -2, 0}}, {33922, []float64{0, 0, 0, 1000, 2000, 0}}},
			orb.Point{1001, 1967}},
		"matrix":                      {turn(2, 0, 0, 1000, 0, -2, 0, 2000, 0, 0, 0, 0, 0, 0, 0, 1), orb.Point{1001, 1967}},
		"matrix, rows from the south": {turn(2, 0, 0, 1000, 0, 2, 0, 1966, 0, 0, 0, 0, 0, 0, 0, 1), orb.Point{1001, 1967}},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			s.tags = c.tags
			r := readAll(t, s.write(), "hill.tif")
			assert.Equal(t, c.origin, r.Origin)
			assert.Equal(t, []any{2.0, 2.0, 21, 17}, []any{r.CellX, r.CellY, r.Cols, r.Rows})
			south := 16
			if name == "matrix, rows from the south" {
				south = 0
			}
			assert.Equal(t, sampleHeight(3, south), r.Z[3])
		})
	}
}

func TestUnitsOfTheKeys(t *testing.T) {
	for name, c := range map[string]struct {
		keys   []uint16
		want   heightgrid.Reference
		cell   float64
		height float64 // of what stands as 10
		note   string
	}{
		"metres": {britishGrid, heightgrid.Reference{EPSG: 27700, Unit: geodata.Metre}, 2, 10, "height-unit-not-said"},
		"metres by the code alone": {[]uint16{1024, 0, 1, 1, 3072, 0, 1, 32630},
			heightgrid.Reference{EPSG: 32630, Unit: geodata.Metre}, 2, 10, "height-unit-not-said"},
		"unit not said": {[]uint16{1024, 0, 1, 1, 3072, 0, 1, 2263}, heightgrid.Reference{EPSG: 2263}, 2, 10, "grid-unit-not-said"},
		"feet in the plan, heights not said": {[]uint16{1024, 0, 1, 1, 3072, 0, 1, 2263, 3076, 0, 1, 9003},
			heightgrid.Reference{EPSG: 2263, Unit: geodata.SurveyFoot}, 2 * 1200.0 / 3937, 10, "height-unit-not-said"},
		"feet in both": {[]uint16{1024, 0, 1, 1, 3072, 0, 1, 2263, 3076, 0, 1, 9003, 4096, 0, 1, 6360, 4099, 0, 1, 9003},
			heightgrid.Reference{EPSG: 2263, VerticalEPSG: 6360, Unit: geodata.SurveyFoot, HeightUnit: geodata.SurveyFoot}, 2 * 1200.0 / 3937, 10 * 1200.0 / 3937, "height-unit-turned"},
		"heights in feet by their system": {append([]uint16{4096, 0, 1, 8228}, britishGrid...),
			heightgrid.Reference{EPSG: 27700, VerticalEPSG: 8228, Unit: geodata.Metre, HeightUnit: geodata.Foot}, 2, 3.048, "height-unit-turned"},
		"unit of height in the place of its system": {append([]uint16{4096, 0, 1, 9002}, britishGrid...),
			heightgrid.Reference{EPSG: 27700, Unit: geodata.Metre, HeightUnit: geodata.Foot}, 2, 3.048, "height-unit-turned"},
		"degrees": {[]uint16{1024, 0, 1, 2, 2048, 0, 1, 4326, 2054, 0, 1, 9102},
			heightgrid.Reference{EPSG: 4326, Geographic: true}, 2, 10, "grid-in-degrees"},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			s.tags = placed(0, 0, 2, c.keys...)
			r := readAll(t, s.write(), "hill.tif")
			assert.Equal(t, c.want, r.Reference)
			assert.InDelta(t, c.cell, r.CellX, 1e-12)
			assert.InDelta(t, c.height, north(r)[0], 1e-12)
			assert.Contains(t, codes(r.Notes), c.note)
			assert.Equal(t, c.want.Geographic, r.Notes[0].Code == "grid-in-degrees" && r.Notes[0].Severity == geodata.Warning)
		})
	}
}

func TestScaleAndOffset(t *testing.T) {
	s := plain()
	s.class, s.bits = 2, 16
	s.tags = append(s.tags,
		tiffTag{42112, `<GDALMetadata><Item name="OTHER">7</Item><Item name="OFFSET" sample="0" role="offset">100</Item>` +
			`<Item name="SCALE" sample="0" role="scale">0.01</Item><Item name="SCALE" sample="1" role="scale">5</Item></GDALMetadata>`},
		tiffTag{42113, "10"})
	r := readAll(t, s.write(), "hill.tif")
	z := north(r)
	assert.True(t, math.IsNaN(z[0]), "the mark is compared before the scale")
	assert.InDelta(t, 100.13, z[1], 1e-12)
	s.tags = append(s.tags, tiffTag{42112, `<GDALMetadata><Item name="UNITTYPE" sample="0" role="unittype">ft</Item></GDALMetadata>`})
	assert.InDelta(t, 13*.3048, north(readAll(t, s.write(), "hill.tif"))[1], 1e-12)
	s.tags = append(s.tags, tiffTag{42112, `<GDALMetadata><Item name="SCALE" sample="0" role="scale">0.0`})
	assert.Equal(t, []string{"tiff-metadata"}, codes(faultOf(t, s.write())))
	s.tags = append(s.tags, tiffTag{42112, `<GDALMetadata><Item name="SCALE" sample="0" role="scale">ten</Item></GDALMetadata>`})
	assert.Equal(t, []string{"tiff-metadata"}, codes(faultOf(t, s.write())))
}

// A mark for missing heights is text, often with more or fewer digits than the
// type holds: the text below and the number are the same float32.
func TestMissingHeights(t *testing.T) {
	at := func(marks ...float64) func(c, r int) float64 {
		return func(c, r int) float64 {
			if r == 0 && c < len(marks) {
				return marks[c]
			}
			return sampleHeight(c, r)
		}
	}
	for name, c := range map[string]struct {
		class, bits int
		mark        string
		z           []float64
		missing     int
		warned      bool
	}{
		"rounded text":          {3, 32, "-3.39999999999999996e+38", []float64{-3.4e38}, 1, false},
		"another huge number":   {3, 32, "-9999", []float64{-9999, -3.4028234663852886e38, 1e31}, 3, false},
		"decimal text":          {3, 32, "-9999.9", []float64{float64(float32(-9999.9))}, 1, false},
		"not a number":          {3, 64, "nan", []float64{math.NaN()}, 1, false},
		"no mark, not a number": {3, 64, "", []float64{math.NaN(), math.Inf(1)}, 2, false},
		"whole":                 {2, 16, "-32768", []float64{-32768}, 1, false},
		"whole with a point":    {2, 16, " -32768.0 ", []float64{-32768}, 1, false},
		"unsigned":              {1, 8, "0", []float64{0, 0}, 2, false},
		"mark of another type":  {1, 8, "-9999", []float64{5}, 0, false},
		"no mark, out of range": {2, 16, "", []float64{-501, -500, 9000, 9001}, 2, true},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			s.class, s.bits, s.z = c.class, c.bits, at(c.z...)
			if c.mark != "" {
				s.tags = append(s.tags, tiffTag{42113, c.mark})
			}
			r := readAll(t, s.write(), "hill.tif")
			assert.Equal(t, c.missing, r.Missing)
			assert.Equal(t, c.warned, hasCode(r.Notes, "height-out-of-range"))
			nan := 0
			for _, z := range r.Z {
				if math.IsNaN(z) {
					nan++
				}
			}
			assert.Equal(t, c.missing, nan)
		})
	}
	s := plain()
	s.tags = append(s.tags, tiffTag{42113, "none"})
	assert.Contains(t, codes(readAll(t, s.write(), "hill.tif").Notes), "tiff-missing-mark")
}

func hasCode(fs geodata.Faults, code string) bool {
	for _, f := range fs {
		if f.Code == code {
			return true
		}
	}
	return false
}

func TestBlocksLeftOutAreMissing(t *testing.T) {
	s := plain()
	s.tile, s.packing, s.leaveOut = 16, 8, func(block int) bool { return block == 1 }
	r := readAll(t, s.write(), "hill.tif")
	assert.Equal(t, 5*16, r.Missing)
	assert.Contains(t, codes(r.Notes), "tiff-blocks-left-out")
	z := north(r)
	assert.True(t, math.IsNaN(z[16]) && math.IsNaN(z[15*21+20]))
	assert.Equal(t, sampleHeight(15, 0), z[15])
	assert.Equal(t, sampleHeight(20, 16), z[16*21+20])
}

func TestFirstWholePictureIsTaken(t *testing.T) {
	for name, before := range map[string][]tiffTag{
		"reduced":               {{254, []uint32{1}}, {256, []uint32{1}}},
		"mask":                  {{254, []uint32{4}}, {256, []uint32{1}}},
		"reduced mask, old tag": {{255, []uint16{2}}, {256, []uint32{1}}},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			s.before = before
			sameHeights(t, sampled(21, 17, sampleHeight), north(readAll(t, s.write(), "hill.tif")))
		})
	}
}

func TestBitsTurnedAbout(t *testing.T) {
	for _, packing := range []int{0, 5, 8, 32773} {
		s := plain()
		s.backwards, s.packing, s.class, s.bits = true, packing, 1, 8
		sameHeights(t, sampled(21, 17, sampleHeight), north(readAll(t, s.write(), "hill.tif")))
	}
}

func TestPlanesTheWrongWayRound(t *testing.T) {
	for _, bits := range []int{32, 64} {
		s := plain()
		s.order, s.packing, s.predictor, s.bits, s.lowPlane = binary.BigEndian, 8, 3, bits, true
		r := readAll(t, s.write(), "hill.tif")
		sameHeights(t, sampled(21, 17, sampleHeight), north(r))
		assert.Contains(t, codes(r.Notes), "tiff-bytes-turned")
		s.lowPlane = false
		r = readAll(t, s.write(), "hill.tif")
		sameHeights(t, sampled(21, 17, sampleHeight), north(r))
		assert.NotContains(t, codes(r.Notes), "tiff-bytes-turned")
	}
}

func TestWindowIsAPartOfTheWhole(t *testing.T) {
	for _, tile := range []int{0, 16} {
		for _, packing := range []int{0, 5, 8} {
			s := plain()
			s.tile, s.packing, s.cols, s.rows = tile, packing, 45, 38
			src, err := open(s.write(), "hill.tif")
			require.NoError(t, err)
			checkWindows(t, src)
		}
	}
}

// checkWindows compares windows of many sizes and places with the whole.
func checkWindows(t *testing.T, src *heightgrid.Source) {
	t.Helper()
	all, err := src.All(context.Background())
	require.NoError(t, err)
	for col := 0; col < all.Cols; col += 7 {
		for row := 0; row < all.Rows; row += 5 {
			cols, rows := min(all.Cols-col, 1+row%9), min(all.Rows-row, 1+col%11)
			x0 := all.Origin[0] + (float64(col)-.5)*all.CellX
			y0 := all.Origin[1] + (float64(row)-.5)*all.CellY
			b := box(x0, y0, x0+float64(cols)*all.CellX, y0+float64(rows)*all.CellY)
			r, err := src.Window(context.Background(), b)
			require.NoError(t, err)
			require.Equal(t, []int{cols, rows}, []int{r.Cols, r.Rows}, "window %v", b)
			require.InDelta(t, x0+.5*all.CellX, r.Origin[0], 1e-9)
			require.InDelta(t, y0+.5*all.CellY, r.Origin[1], 1e-9)
			for i := range rows {
				at := (row+i)*all.Cols + col
				sameHeights(t, all.Z[at:at+cols], r.Z[i*cols:(i+1)*cols])
			}
		}
	}
}

func TestWindowBounds(t *testing.T) {
	src, err := open(plain().write(), "hill.tif") // x 1000 to 1042, y 1966 to 2000
	require.NoError(t, err)
	for name, c := range map[string]struct {
		b          orb.Bound
		cols, rows int
	}{
		"a point":             {box(1005, 1971, 1005, 1971), 1, 1},
		"along the edges":     {box(1002, 1968, 1006, 1970), 2, 1},
		"over the edges":      {box(-5000, -5000, 5000, 5000), 21, 17},
		"parts of cells":      {box(1003.9, 1967.9, 1004.1, 1968.1), 2, 2},
		"the far corner":      {box(1041.9, 1999.9, 1050, 2050), 1, 1},
		"without end":         {box(math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)), 21, 17},
		"west of the edge, 0": {box(900, 1966, 1000.5, 1967), 1, 1},
	} {
		r, err := src.Window(context.Background(), c.b)
		if assert.NoError(t, err, name) {
			assert.Equal(t, []int{c.cols, c.rows}, []int{r.Cols, r.Rows}, name)
		}
	}
	for name, b := range map[string]orb.Bound{
		"beside": box(1042, 1966, 1050, 1970), "west": box(0, 1966, 1000, 1970), "upside down": box(1010, 1990, 1005, 1995),
		"not numbers": box(math.NaN(), 1966, 1050, 1970),
	} {
		_, err := src.Window(context.Background(), b)
		var faults geodata.Faults
		if assert.ErrorAs(t, err, &faults, name) {
			assert.Equal(t, []string{"window-empty"}, codes(faults), name)
		}
	}
}

// large is a file of 10 000 by 10 000 cells in tiles of 256, of which four
// stand for all.
func large(t testing.TB) []byte {
	t.Helper()
	s := tiffSpec{class: 3, bits: 32, tile: 256, packing: 8, predictor: 3, cols: 512, rows: 512, z: sampleHeight}
	packed := s.blocks()
	require.Len(t, packed, 4)
	s.cols, s.rows, s.tags = 10_000, 10_000, placed(400_000, 110_000, 1, britishGrid...)
	var which []int
	for row := range 40 {
		for col := range 40 {
			which = append(which, 2*(row%2)+col%2)
		}
	}
	return s.assemble(packed, which)
}

func TestWindowCostsWhatItHolds(t *testing.T) {
	file := large(t)
	in := &counting{Reader: bytes.NewReader(file)}
	src, err := heightgrid.Open(in, int64(len(file)), "large.tif")
	require.NoError(t, err)
	assert.Less(t, in.bytes.Load(), int64(20_000), "opening")
	opened := in.bytes.Load()
	r, err := src.Window(context.Background(), box(404_000, 104_000, 404_500, 104_500))
	require.NoError(t, err)
	assert.Equal(t, []int{500, 500}, []int{r.Cols, r.Rows})
	// The row 5500 from the north lies 124 rows down in its tile of 256.
	assert.Equal(t, sampleHeight(4000%512, 5999%512), r.Z[0])
	perTile := int64(0)
	for _, b := range (tiffSpec{class: 3, bits: 32, tile: 256, packing: 8, predictor: 3, cols: 512, rows: 512, z: sampleHeight}).blocks() {
		perTile = max(perTile, int64(len(b)))
	}
	assert.Less(t, in.bytes.Load()-opened, 9*(perTile+64)+1000, "at most 3 by 3 tiles and their places")
	allocated := testing.AllocsPerRun(1, func() { _, _ = src.Window(context.Background(), box(404_000, 104_000, 404_500, 104_500)) })
	assert.Less(t, allocated, 500.0)
}

func TestEndedContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	src, err := open(large(t), "large.tif")
	require.NoError(t, err)
	_, err = src.Window(ctx, box(404_000, 104_000, 408_000, 108_000))
	assert.ErrorIs(t, err, context.Canceled)
}
