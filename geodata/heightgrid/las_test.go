package heightgrid_test

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

// lasPoint is a point in steps of the scale.
type lasPoint struct {
	x, y, z  int32
	class    byte
	withheld bool
}

// lasSpec is a LAS file to be written: the layout of the head and the records
// follows the ASPRS LAS specification 1.4 R15, tables 3, 7 and 15.
type lasSpec struct {
	minor     byte
	format    byte
	length    int // of a record; 0: the least of the format
	scale     float64
	noCount   bool
	keys      []uint16
	text      string
	points    []lasPoint
	behind    int // bytes behind the points that a 1.4 head says are no points
	headCount uint32
}

func (s lasSpec) write() []byte {
	le := binary.LittleEndian
	head := map[byte]int{0: 227, 1: 227, 2: 227, 3: 235, 4: 375}[s.minor]
	least := []int{20, 28, 26, 34, 57, 63, 30, 36, 38, 59, 67}
	if s.length == 0 && int(s.format) < len(least) {
		s.length = least[s.format]
	}
	h := make([]byte, head)
	copy(h, "LASF")
	h[24], h[25], h[104] = 1, s.minor, s.format
	le.PutUint16(h[94:], uint16(head))
	var records []byte
	record := func(id uint16, data []byte) {
		r := make([]byte, 54)
		copy(r[2:], "LASF_Projection")
		le.PutUint16(r[18:], id)
		le.PutUint16(r[20:], uint16(len(data)))
		records = append(append(records, r...), data...)
		le.PutUint32(h[100:], le.Uint32(h[100:])+1)
	}
	if s.keys != nil {
		var b []byte
		for _, k := range append([]uint16{1, 1, 0, uint16(len(s.keys) / 4)}, s.keys...) {
			b = le.AppendUint16(b, k)
		}
		record(34735, b)
	}
	if s.text != "" {
		record(2112, []byte(s.text+"\x00"))
	}
	le.PutUint32(h[96:], uint32(head+len(records)))
	le.PutUint16(h[105:], uint16(s.length))
	s.counts(h)
	for i := range 3 {
		le.PutUint64(h[131+8*i:], math.Float64bits(s.scale))
		le.PutUint64(h[155+8*i:], math.Float64bits([3]float64{400_000, 110_000, 50}[i]))
	}
	for i, v := range []float64{400_010, 400_000, 110_010, 110_000, 60, 50} {
		le.PutUint64(h[179+8*i:], math.Float64bits(v))
	}
	file := append(h, records...)
	for _, p := range s.points {
		file = append(file, s.record(p)...)
	}
	if s.minor == 4 && s.behind > 0 {
		le.PutUint64(file[235:], uint64(len(file)))
	}
	return append(file, make([]byte, s.behind)...)
}

// counts writes the number of points: in 1.4 only into the wide field.
func (s lasSpec) counts(h []byte) {
	n := uint32(len(s.points))
	if s.headCount > 0 {
		n = s.headCount
	}
	switch {
	case s.noCount:
	case s.minor == 4:
		binary.LittleEndian.PutUint64(h[247:], uint64(n))
	default:
		binary.LittleEndian.PutUint32(h[107:], n)
	}
}

func (s lasSpec) record(p lasPoint) []byte {
	r := make([]byte, s.length)
	for i, v := range [3]int32{p.x, p.y, p.z} {
		binary.LittleEndian.PutUint32(r[4*i:], uint32(v))
	}
	if s.format >= 6 {
		r[16] = p.class
		if p.withheld {
			r[15] = 4
		}
		return r
	}
	r[15] = p.class
	if p.withheld {
		r[15] |= 128
	}
	return r
}

// lasSample is one point of the ground, one of a bush, one of noise, one
// withheld, and another of the ground.
func lasSample() lasSpec {
	return lasSpec{minor: 2, format: 1, scale: .01, points: []lasPoint{
		{100, 200, 150, 5, false}, {110, 210, 25, 2, false}, {120, 220, -9000, 7, false}, {130, 230, 40, 2, true}, {500, 600, -75, 2, false},
	}}
}

func TestLASVersionsAndFormats(t *testing.T) {
	want := []heightgrid.Point{{At: orb.Point{400_001.1, 110_002.1}, Height: 50.25}, {At: orb.Point{400_005, 110_006}, Height: 49.25}}
	for minor := range byte(5) {
		for format := range byte(11) {
			for _, extra := range []int{0, 7} {
				s := lasSample()
				s.minor, s.format = minor, format
				if extra > 0 {
					s.length = 67 + extra
				}
				r := readAll(t, s.write(), "hill.las")
				require.Len(t, r.Points, 2, "1.%d format %d", minor, format)
				for i, p := range r.Points {
					assert.InDelta(t, want[i].At[0], p.At[0], 1e-9)
					assert.InDelta(t, want[i].At[1], p.At[1], 1e-9)
					assert.InDelta(t, want[i].Height, p.Height, 1e-9)
				}
				assert.Contains(t, codes(r.Notes), "las-ground")
				assert.Contains(t, codes(r.Notes), "las-noise")
			}
		}
	}
}

func TestLASWithoutGround(t *testing.T) {
	s := lasSample()
	for i := range s.points {
		if s.points[i].class == 2 {
			s.points[i].class = 1
		}
	}
	r := readAll(t, s.write(), "hill.las")
	assert.Len(t, r.Points, 3, "without noise and withheld points")
	assert.Contains(t, codes(r.Notes), "las-no-ground")
}

func TestLASCounts(t *testing.T) {
	s := lasSample()
	s.noCount = true
	assert.Len(t, readAll(t, s.write(), "hill.las").Points, 2, "counted by the size of the file")
	s.minor, s.format, s.behind = 4, 6, 300
	assert.Len(t, readAll(t, s.write(), "hill.las").Points, 2, "records behind the points are no points")
}

func TestLASWindowAndInfo(t *testing.T) {
	s, err := open(lasSample().write(), "hill.las")
	require.NoError(t, err)
	info := s.Info()
	assert.Equal(t, box(400_000, 110_000, 400_010, 110_010), info.Bound)
	assert.True(t, info.Scattered)
	assert.EqualValues(t, 5, info.Points)
	r, err := s.Window(t.Context(), box(400_004, 110_000, 400_010, 110_010))
	require.NoError(t, err)
	require.Len(t, r.Points, 1)
	assert.InDelta(t, 49.25, r.Points[0].Height, 1e-9)
}

func TestLASUnits(t *testing.T) {
	s := lasSample()
	s.keys = []uint16{1024, 0, 1, 1, 3072, 0, 1, 2263, 3076, 0, 1, 9003, 4099, 0, 1, 9003}
	r := readAll(t, s.write(), "hill.las")
	const foot = 1200.0 / 3937
	assert.InDelta(t, 400_001.1*foot, r.Points[0].At[0], 1e-6)
	assert.InDelta(t, 50.25*foot, r.Points[0].Height, 1e-9)
	assert.Equal(t, geodata.SurveyFoot, r.Unit)

	src, err := open(s.write(), "hill.las")
	require.NoError(t, err)
	r, err = src.Window(t.Context(), box(400_004*foot, 110_000*foot, 400_010*foot, 110_010*foot))
	require.NoError(t, err)
	assert.Len(t, r.Points, 1, "the window is in metres")

	s.text = `COMPD_CS["a",PROJCS["b",GEOGCS["c",UNIT["degree",0.0174532925199433]],UNIT["foot",0.3048]],VERT_CS["d",UNIT["metre",1]]]`
	r = readAll(t, s.write(), "hill.las")
	assert.Equal(t, heightgrid.Reference{Unit: geodata.Foot, HeightUnit: geodata.Metre}, r.Reference, "text comes first")
}

func TestLASFaults(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*lasSpec)
		code   string
	}{
		"packed":              {func(s *lasSpec) { s.format, s.length = 129, 28 }, "las-compressed"},
		"a later version":     {func(s *lasSpec) { s.minor = 5 }, "las-version"},
		"unknown format":      {func(s *lasSpec) { s.format, s.length = 11, 80 }, "las-damaged"},
		"records too short":   {func(s *lasSpec) { s.length = 27 }, "las-damaged"},
		"no scale":            {func(s *lasSpec) { s.scale = 0 }, "las-damaged"},
		"scale not a number":  {func(s *lasSpec) { s.scale = math.NaN() }, "las-damaged"},
		"no points":           {func(s *lasSpec) { s.points = nil }, "file-empty"},
		"fewer than claimed":  {func(s *lasSpec) { s.headCount = 4_000_000_000 }, "file-cut-short"},
		"only noise":          {func(s *lasSpec) { s.points = s.points[2:4] }, "window-empty"},
		"unreadable text":     {func(s *lasSpec) { s.text = `PROJCS["a"` }, "projection-not-read"},
		"web maps projection": {func(s *lasSpec) { s.keys = []uint16{1024, 0, 1, 1, 3072, 0, 1, 3857} }, "grid-web-mercator"},
	} {
		t.Run(name, func(t *testing.T) {
			s := lasSample()
			c.change(&s)
			if s.minor == 5 {
				file := lasSample().write()
				file[25] = 5
				assert.Equal(t, []string{c.code}, codes(faultOf(t, file)))
				return
			}
			assert.Equal(t, []string{c.code}, codes(faultOf(t, s.write())))
		})
	}
	file := lasSample().write()
	for n := range len(file) {
		faultOf(t, file[:n])
	}
}
