package heightgrid_test

import (
	"context"
	"encoding/binary"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

// fuzzed opens and reads whatever is there: it must end soon with sound heights
// or with faults that have a code, a message and the file's name.
func fuzzed(t *testing.T, file []byte) {
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	src, err := open(file, "hill")
	if err != nil {
		checkFaults(t, err)
		return
	}
	info := src.Info()
	r, err := part(ctx, src, info)
	if ctx.Err() != nil {
		t.Fatal("reading does not end")
	}
	if err != nil {
		checkFaults(t, err)
		return
	}
	if len(r.Z) != r.Cols*r.Rows || r.Z != nil && !(r.CellX > 0 && r.CellY > 0) {
		t.Fatalf("%d heights in %d columns and %d rows of %v by %v", len(r.Z), r.Cols, r.Rows, r.CellX, r.CellY)
	}
	missing := 0
	for _, z := range r.Z {
		if math.IsNaN(z) {
			missing++
		} else if z < -500 || z > 9000 {
			t.Fatalf("height %v", z)
		}
	}
	if r.Z != nil && missing != r.Missing {
		t.Fatalf("%d heights are missing, %d are said to be", missing, r.Missing)
	}
	for _, p := range r.Points {
		if !(p.Height >= -500 && p.Height <= 9000) {
			t.Fatalf("height %v", p.Height)
		}
	}
}

// part reads all of a small file and a corner of a large one.
func part(ctx context.Context, src *heightgrid.Source, info heightgrid.Info) (*heightgrid.Raster, error) {
	if info.Scattered || info.Cols*info.Rows <= 1_000_000 {
		return src.All(ctx)
	}
	far := orb.Point{info.Bound.Min[0] + 50*info.CellX, info.Bound.Min[1] + 50*info.CellY}
	return src.Window(ctx, orb.Bound{Min: info.Bound.Min, Max: far})
}

func checkFaults(t *testing.T, err error) {
	faults, ok := err.(geodata.Faults)
	if !ok || faults.Problems() == 0 || len(faults) > 30 {
		t.Fatalf("not faults: %v", err)
	}
	for _, f := range faults {
		if f.Code == "" || f.Message == "" || f.Pos.File != "hill" {
			t.Fatalf("not a whole fault: %#v", f)
		}
	}
}

func FuzzGeoTIFF(f *testing.F) {
	for _, packing := range []int{0, 5, 8, 32773} {
		s := plain()
		s.cols, s.rows, s.packing = 5, 4, packing
		f.Add(s.write())
		s.tile, s.big, s.order, s.predictor = 16, true, binary.BigEndian, 2
		s.tags = append(s.tags, tiffTag{42112, `<GDALMetadata><Item sample="0" role="scale">0.5</Item></GDALMetadata>`}, tiffTag{42113, "-9999"})
		f.Add(s.write())
	}
	for _, tile := range []int{0, 16} {
		s := plain()
		s.class, s.bits, s.cols, s.rows, s.tile, s.packing, s.predictor = 3, 32, 21, 5, tile, 8, 3
		f.Add(s.write())
	}
	f.Fuzz(fuzzed)
}

func FuzzTextGrid(f *testing.F) {
	f.Add([]byte(header + "1 2 3\n4 5,5 nan\n"))
	f.Add([]byte(strings.ReplaceAll(header, "corner", "center") + "nodata_value -1e3\n-1e3 2 3 4 5 1e999"))
	f.Fuzz(fuzzed)
}

func FuzzXYZ(f *testing.F) {
	f.Add([]byte(strings.Join(xyzLines(3, 3), "\n")))
	f.Add([]byte("lat;lon;z\n1,5;2;3\n1,6;2;nan\n"))
	f.Add([]byte("# y x z\n1\t2\t3\n"))
	f.Fuzz(fuzzed)
}

func FuzzLAS(f *testing.F) {
	s := lasSample()
	f.Add(s.write())
	s.minor, s.format, s.behind, s.text = 4, 6, 10, britishText
	f.Add(s.write())
	s.text, s.keys = "", britishGrid
	f.Add(s.write())
	f.Fuzz(fuzzed)
}

func FuzzProjection(f *testing.F) {
	f.Add(britishText)
	f.Add(`COMPD_CS["a",PROJCRS["b",CS[Cartesian,2],AXIS["E",east,LENGTHUNIT["metre",1]],ID["EPSG",27700]],VERT_CS["c",UNIT["foot",0.3048]]]`)
	f.Fuzz(func(t *testing.T, text string) {
		src, err := open([]byte(header+"1 2 3 4 5 6"), "hill")
		if err != nil {
			t.Fatal(err)
		}
		if err := src.ReadProjection(text); err != nil {
			checkFaults(t, err)
			return
		}
		if r, err := src.All(context.Background()); err != nil || !(r.CellX > 0) {
			t.Fatalf("%v %v", r, err)
		}
	})
}
