package heightgrid_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

func TestPackingIsRefusedByName(t *testing.T) {
	for packing, name := range map[uint16]string{
		3: "CCITT", 7: "JPEG", 34712: "JPEG 2000", 34887: "LERC", 34925: "LZMA", 50000: "ZSTD", 50001: "WEBP", 4711: "number 4711",
	} {
		s := plain()
		s.tags = append(s.tags, tiffTag{259, []uint16{packing}})
		f := faultOf(t, s.write())
		require.Equal(t, []string{"tiff-compression"}, codes(f))
		assert.Contains(t, f[0].Message, name)
		assert.Contains(t, f[0].Want, "gdal_translate")
	}
}

func TestGeoTIFFRefusals(t *testing.T) {
	tag := func(tag uint16, data any) func(*tiffSpec) {
		return func(s *tiffSpec) { s.tags = append(s.tags, tiffTag{tag, data}) }
	}
	deflated := func(s *tiffSpec) { s.packing, s.predictor = 8, 2 }
	for name, c := range map[string]struct {
		change func(*tiffSpec)
		code   string
	}{
		"turned":                  {tag(34264, []float64{2, .1, 0, 0, .1, -2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1}), "grid-rotated"},
		"mirrored":                {tag(34264, []float64{-2, 0, 0, 0, 0, -2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1}), "grid-mirrored"},
		"cells without size":      {tag(33550, []float64{0, 2, 0}), "tiff-not-placed"},
		"far beyond its cells":    {tag(33922, []float64{0, 0, 0, 1e20, 0, 0}), "tiff-not-placed"},
		"no place":                {func(s *tiffSpec) { s.tags = nil }, "tiff-not-placed"},
		"control points":          {func(s *tiffSpec) { s.tags = []tiffTag{{33922, make([]float64, 24)}} }, "grid-rotated"},
		"web maps' projection":    {func(s *tiffSpec) { s.tags = placed(0, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, 3857) }, "grid-web-mercator"},
		"centre of the earth":     {func(s *tiffSpec) { s.tags = placed(0, 0, 2, 1024, 0, 1, 3) }, "grid-unit"},
		"unknown unit":            {func(s *tiffSpec) { s.tags = placed(0, 0, 2, 1024, 0, 1, 1, 3076, 0, 1, 9099) }, "grid-unit"},
		"unknown unit of heights": {func(s *tiffSpec) { s.tags = placed(0, 0, 2, 1024, 0, 1, 1, 4099, 0, 1, 9099) }, "grid-unit"},
		"angles in radians":       {func(s *tiffSpec) { s.tags = placed(0, 0, 2, 1024, 0, 1, 2, 2054, 0, 1, 9101) }, "grid-unit"},
		"complex numbers":         {tag(339, []uint16{6}), "tiff-sample"},
		"16-bit floating":         {tag(258, []uint16{16}), "tiff-sample"},
		"one bit":                 {tag(258, []uint16{1}), "tiff-sample"},
		"bands of several sizes": {func(s *tiffSpec) {
			s.bands = 2
			s.tags = append(s.tags, tiffTag{258, []uint16{32, 64}})
		}, "tiff-sample"},
		"a palette":                    {tag(262, []uint16{3}), "tiff-picture"},
		"predictor 4":                  {func(s *tiffSpec) { s.packing, s.predictor = 8, 4 }, "tiff-predictor"},
		"floating predictor on wholes": {func(s *tiffSpec) { s.packing, s.predictor, s.class = 8, 3, 2 }, "tiff-predictor"},
		"only a mask":                  {tag(254, []uint32{4}), "tiff-no-picture"},
		"no width":                     {tag(256, []uint32{0}), "tiff-damaged"},
		"too wide":                     {tag(256, []uint32{4_000_000_000}), "tiff-damaged"},
		"more cells than are read":     {func(s *tiffSpec) { hugeSparse(s, 20_000) }, "window-too-large"},
		"rows too long":                {func(s *tiffSpec) { deflated(s); s.tags = append(s.tags, tiffTag{256, []uint32{70_000_000}}) }, "tiff-block-size"},
		"tiles over 256 MiB": {func(s *tiffSpec) {
			deflated(s)
			s.tile = 16
			s.tags = append(s.tags, tiffTag{322, []uint16{16_384}}, tiffTag{323, []uint16{16_384}})
		}, "tiff-block-size"},
		"fewer blocks than it needs":  {tag(278, []uint16{1}), "tiff-damaged"},
		"blocks outside":              {tag(273, []uint32{1 << 30, 1 << 30, 1 << 30}), "tiff-damaged"},
		"lengths outside":             {tag(279, []uint32{1 << 30, 1 << 30, 1 << 30}), "tiff-damaged"},
		"blocks too short":            {tag(279, []uint32{8, 8, 8}), "tiff-block-damaged"},
		"Deflate cut":                 {func(s *tiffSpec) { deflated(s); s.tags = append(s.tags, tiffTag{279, []uint32{12, 12, 12}}) }, "tiff-block-damaged"},
		"not packed as it says":       {tag(259, []uint16{8}), "tiff-block-damaged"},
		"not LZW as it says":          {tag(259, []uint16{5}), "tiff-block-damaged"},
		"no lengths":                  {tag(279, []uint32{}), "tiff-damaged"},
		"fractions for whole numbers": {tag(257, []float64{17}), "tiff-damaged"},
		"a million values for each":   {tag(277, []uint32{1_000_000}), "tiff-damaged"},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			c.change(&s)
			f := faultOf(t, s.write())
			assert.Equal(t, []string{c.code}, codes(f))
			assert.NotEmpty(t, f[0].Want)
		})
	}
}

// hugeSparse makes a grid of one left-out strip.
func hugeSparse(s *tiffSpec, side uint32) {
	s.tags = append(s.tags, tiffTag{256, []uint32{side}}, tiffTag{257, []uint32{side}}, tiffTag{278, []uint32{side}},
		tiffTag{273, []uint32{0}}, tiffTag{279, []uint32{0}})
}

// A block that unpacks to more than it should is read to its size and no
// further: here 64 MiB of zeros stand behind one row.
func TestBlocksThatUnpackTooFarAreCut(t *testing.T) {
	s := plain()
	s.packing, s.rows, s.strip = 8, 1, 1
	bomb := s.pack(make([]byte, 64<<20))
	s.z = func(int, int) float64 { return 0 }
	r := readAll(t, s.assemble([][]byte{bomb}, nil), "hill.tif")
	sameHeights(t, make([]float64, 21), r.Z)
}

func TestDamagedSumIsFound(t *testing.T) {
	s := plain()
	s.packing, s.tile = 8, 16
	packed := s.blocks()
	packed[0][len(packed[0])-1] ^= 1
	assert.Equal(t, []string{"tiff-block-damaged"}, codes(faultOf(t, s.assemble(packed, nil))))
}

func TestDirectoriesThatLoop(t *testing.T) {
	s := plain()
	s.before = []tiffTag{{254, []uint32{1}}}
	file := s.write()
	first := binary.LittleEndian.Uint32(file[4:])
	n := binary.LittleEndian.Uint16(file[first:])
	binary.LittleEndian.PutUint32(file[int(first)+2+12*int(n):], first)
	assert.Equal(t, []string{"tiff-no-picture"}, codes(faultOf(t, file)))
	binary.LittleEndian.PutUint16(file[first:], 5000)
	assert.Equal(t, []string{"tiff-damaged"}, codes(faultOf(t, file)))
}

// Whatever part of a file is lost, there are faults or all heights.
func TestCutFiles(t *testing.T) {
	for _, big := range []bool{false, true} {
		s := plain()
		s.big, s.packing, s.predictor, s.cols, s.rows = big, 8, 3, 9, 5
		file := s.write()
		for n := range len(file) - 1 {
			_, err := open(file[:n], "hill.tif")
			if err == nil { // the last bytes say only that no picture follows
				require.GreaterOrEqual(t, n, len(file)-8)
				continue
			}
			var faults geodata.Faults
			require.ErrorAs(t, err, &faults, "cut at %d", n)
		}
	}
}

func TestOtherFormatsAreRefusedByName(t *testing.T) {
	for start, name := range map[string]string{
		"DSAA\n2 2\n0 1\n0 1\n":             "DSAA",
		"DSBB\x01\x00":                      "DSBB",
		"CDF\x01\x00\x00":                   "netCDF",
		"\x89HDF\r\n\x1a\n":                 "HDF5",
		"north: 10\nsouth: 0\n":             "GRASS",
		"\x1f\x8b\x08":                      "gzip",
		"PK\x03\x04":                        "zip",
		"\x00\x01\x02\x03 1 2 3":            "binary",
		"\xff\xfen\x00c\x00o\x00l\x00s\x00": "UTF-16",
		"\x89PNG\r\n":                       "PNG",
	} {
		f := faultOf(t, []byte(start))
		assert.Equal(t, []string{"format-not-read"}, codes(f), name)
		assert.Contains(t, f[0].Message, name)
		assert.NotEmpty(t, f[0].Want)
	}
	assert.Equal(t, []string{"file-empty"}, codes(faultOf(t, nil)))
	assert.Equal(t, []string{"file-empty"}, codes(faultOf(t, []byte("\n \n"))))
	assert.Equal(t, []string{"xyz-columns"}, codes(faultOf(t, []byte("Dear neighbour,\nthe hedge is yours.\n"))))
}

// failing reads some bytes and then no more.
type failing struct {
	*bytes.Reader
	good int64
}

func (f failing) ReadAt(p []byte, at int64) (int, error) {
	if at+int64(len(p)) > f.good {
		return 0, errors.New("the disk is gone")
	}
	return f.Reader.ReadAt(p, at)
}

func TestFailingReader(t *testing.T) {
	text := textGrid(300, 300)
	for name, file := range map[string][]byte{"text": text, "tiff": plain().write()} {
		_, err := heightgrid.Open(failing{bytes.NewReader(file), 0}, int64(len(file)), name)
		var faults geodata.Faults
		require.ErrorAs(t, err, &faults)
		assert.Equal(t, []string{"file-not-read"}, codes(faults))
		assert.Contains(t, faults[0].Message, "the disk is gone")
	}
	src, err := heightgrid.Open(failing{bytes.NewReader(text), 300_000}, int64(len(text)), "hill.asc")
	require.NoError(t, err)
	_, err = src.All(context.Background())
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, []string{"file-not-read"}, codes(faults))
}

// A window may have as many cells as are read at once, and no more.
func TestMostCells(t *testing.T) {
	square := func(side uint32) (*heightgrid.Raster, error) {
		s := plain()
		hugeSparse(&s, side)
		src, err := open(s.write(), "hill.tif")
		require.NoError(t, err)
		return src.All(context.Background())
	}
	r, err := square(5000)
	require.NoError(t, err)
	assert.Equal(t, geodata.MostCells, len(r.Z))
	_, err = square(5001)
	assert.EqualError(t, err, "hill.tif: the window holds 25010001 cells, more than the 25000000 that are read at once; "+
		"ask for a smaller window, or cut the part around the plot out of the file")
}

func TestMostPointsOfACloud(t *testing.T) {
	one := lasSpec{minor: 2, scale: 0.01, points: []lasPoint{{x: 100, y: 200, z: 100}}}.write()
	head, record := one[:len(one)-20], one[len(one)-20:]
	cloud := func(n int) (*heightgrid.Raster, error) {
		file := append(slices.Clone(head), bytes.Repeat(record, n)...)
		binary.LittleEndian.PutUint32(file[107:], uint32(n))
		src, err := open(file, "hill.las")
		require.NoError(t, err)
		return src.All(context.Background())
	}
	r, err := cloud(geodata.MostCloudPoints)
	require.NoError(t, err)
	assert.Equal(t, geodata.MostCloudPoints, len(r.Points))
	_, err = cloud(geodata.MostCloudPoints + 1)
	assert.EqualError(t, err, "hill.las: the window holds 5000001 points or more, more than the 5000000 that are read at once; "+
		"ask for a smaller window, or cut the part around the plot out of the file")
}
