package heightgrid

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// isLAS knows a LAS file (ASPRS LAS specification 1.4 R15, table 3).
func isLAS(head []byte) bool { return bytes.HasPrefix(head, []byte("LASF")) }

// lasFile is where the points of a LAS file lie and how they are written.
type lasFile struct {
	f      file
	start  int64 // of the points
	length int   // of a record
	count  int64
	format int
	scale  [3]float64
	offset [3]float64
}

// shortest are the lengths of the records of the formats 0 to 10.
var shortest = [...]int{20, 28, 26, 34, 57, 63, 30, 36, 38, 59, 67}

// openLAS reads the head of a LAS file, versions 1.0 to 1.4. Points that are
// classed as ground (class 2) are kept alone if there are any; points classed
// as noise (7 and 18) and withheld ones are never kept.
//
// Faults: las-compressed, las-version, las-damaged.
func openLAS(f file) (opened, error) {
	h, err := f.bytes(0, 227, "head")
	if err != nil {
		return opened{}, err
	}
	le := binary.LittleEndian
	major, minor := h[24], h[25]
	if major != 1 || minor > 4 {
		return opened{}, refuse("las-version", fmt.Sprintf("this is LAS %d.%d; versions 1.0 to 1.4 are read", major, minor), "save it as LAS 1.2")
	}
	l := &lasFile{f: f, start: int64(le.Uint32(h[96:])), format: int(h[104]), length: int(le.Uint16(h[105:]))}
	if l.format >= 128 || l.format&64 != 0 {
		return opened{}, refuse("las-compressed", "this is a compressed point cloud (LAZ), which is not read", "decompress it to LAS, such as with: pdal translate in.laz out.las")
	}
	for i := range 3 {
		l.scale[i] = math.Float64frombits(le.Uint64(h[131+8*i:]))
		l.offset[i] = math.Float64frombits(le.Uint64(h[155+8*i:]))
	}
	if err := l.countPoints(h, minor); err != nil {
		return opened{}, err
	}
	if err := l.check(); err != nil {
		return opened{}, err
	}
	ref, err := l.reference(int64(le.Uint16(h[94:])), int(le.Uint32(h[100:])))
	if err != nil {
		return opened{}, err
	}
	return opened{format: "LAS", ref: ref, noData: math.NaN(), extent: lasExtent(h), count: l.count, points: l.points}, nil
}

// lasExtent is the extent that the head claims.
func lasExtent(h []byte) orb.Bound {
	v := func(at int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(h[at:])) }
	return orb.Bound{Min: orb.Point{v(187), v(203)}, Max: orb.Point{v(179), v(195)}}
}

// countPoints reads how many points there are. LAS 1.4 has a wider count and
// leaves the old one 0 when it does not fit; a file without any count ends with
// its points, or where its further records begin.
func (l *lasFile) countPoints(h []byte, minor byte) error {
	le := binary.LittleEndian
	l.count = int64(le.Uint32(h[107:]))
	end := l.f.size
	if minor == 4 {
		more, err := l.f.bytes(235, 20, "head")
		if err != nil {
			return err
		}
		if further := place(le.Uint64(more)); further > l.start && further <= end {
			end = further
		}
		if n := place(le.Uint64(more[12:])); n != 0 {
			l.count = n
		}
	}
	if l.count == 0 && l.length > 0 && l.start > 0 && l.start < end {
		l.count = (end - l.start) / int64(l.length)
	}
	return nil
}

// check refuses what cannot be read.
func (l *lasFile) check() error {
	if l.format >= len(shortest) || l.length < shortest[l.format] || l.start < 227 {
		return refuse("las-damaged", fmt.Sprintf("the head of the file is damaged: records of format %d and %d bytes from place %d on", l.format, l.length, l.start), "download or copy the file again")
	}
	for i := range 3 {
		s, o := l.scale[i], l.offset[i]
		if !(math.Abs(s) > 0 && math.Abs(s) < noGround && math.Abs(o) < noGround) {
			return refuse("las-damaged", "the head of the file is damaged: its scale is not a number over 0", "download or copy the file again")
		}
	}
	if l.count == 0 {
		return refuse("file-empty", "the file holds no points", "")
	}
	if l.count < 0 || l.count > (l.f.size-l.start)/int64(l.length) {
		return cutShort(fmt.Sprintf("%d points", l.count))
	}
	return nil
}

// points reads all records and keeps those within a bound.
func (l *lasFile) points(ctx context.Context, within orb.Bound) ([]Point, geodata.Faults, error) {
	k := keeper{within: within}
	const chunk = 8192 // records
	buf := make([]byte, min(chunk, l.count)*int64(l.length))
	for first := int64(0); first < l.count; first += chunk {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		part := buf[:min(chunk, l.count-first)*int64(l.length)]
		if err := l.f.into(part, l.start+first*int64(l.length)); err != nil {
			return nil, nil, err
		}
		for ; len(part) > 0; part = part[l.length:] {
			class, usable := l.class(part)
			if !k.wants(class, usable) {
				continue
			}
			if err := k.keep(l.at(part), class); err != nil {
				return nil, nil, err
			}
		}
	}
	return k.points, k.notes(), nil
}

// at is the place and height of a record.
func (l *lasFile) at(rec []byte) Point {
	v := func(i int) float64 {
		return float64(int32(binary.LittleEndian.Uint32(rec[4*i:])))*l.scale[i] + l.offset[i]
	}
	return Point{orb.Point{v(0), v(1)}, v(2)}
}

// class is what a point was classed as; usable is false for withheld points
// (tables 8 and 16 of the specification).
func (l *lasFile) class(rec []byte) (class byte, usable bool) {
	if l.format >= 6 {
		return rec[16], rec[15]&4 == 0
	}
	return rec[15] & 31, rec[15]&128 == 0
}

// Classes of points (LAS 1.4 R15, tables 9 and 17).
const (
	groundClass    = 2
	lowNoiseClass  = 7
	highNoiseClass = 18
)

// keeper keeps points: all within the bound until the first ground point of the
// file comes, then those of the ground alone.
type keeper struct {
	within   orb.Bound
	points   []Point
	ground   bool
	other    int64 // points left out because they are not ground
	unusable int64 // noise and withheld
}

func (k *keeper) wants(class byte, usable bool) bool {
	switch {
	case !usable || class == lowNoiseClass || class == highNoiseClass:
		k.unusable++
		return false
	case class == groundClass && !k.ground:
		k.ground = true
		k.other = int64(len(k.points))
		k.points = k.points[:0]
	}
	return true
}

func (k *keeper) keep(p Point, class byte) error {
	switch {
	case !k.within.Contains(p.At):
		return nil
	case k.ground && class != groundClass:
		k.other++
		return nil
	case len(k.points) == geodata.MostCloudPoints:
		return tooLarge(geodata.MostCloudPoints+1, "points or more", geodata.MostCloudPoints)
	}
	k.points = append(k.points, p)
	return nil
}

// notes says what was kept and what not.
func (k *keeper) notes() geodata.Faults {
	var fs geodata.Faults
	if k.ground {
		fs.Add(geodata.Fault{Code: "las-ground", Severity: geodata.Note,
			Message: fmt.Sprintf("%d points of the window are classed as ground and were kept; %d others were left out", len(k.points), k.other)})
	} else {
		fs.Add(geodata.Fault{Code: "las-no-ground", Severity: geodata.Warning,
			Message: "no point of the file is classed as ground: plants and roofs are among the heights",
			Want:    "have the points classed, or take a grid of the ground"})
	}
	if k.unusable > 0 {
		fs.Add(geodata.Fault{Code: "las-noise", Severity: geodata.Note,
			Message: fmt.Sprintf("%d points of the file are marked as noise or withheld and were left out", k.unusable)})
	}
	return fs
}
