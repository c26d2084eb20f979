package wkt

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"crossfall/geodata"

	"github.com/twpayne/go-geom"
	"github.com/twpayne/go-geom/encoding/wkb"
	"github.com/twpayne/go-geom/encoding/wkbcommon"
)

// head is what a binary geometry begins with.
type head struct {
	order byteOrder
	kind  uint32 // 1 point to 7 collection
	z, m  bool
	srid  int // 0: none
	size  int // bytes
}

// byteOrder reads and writes numbers in one of the two orders of bytes.
type byteOrder interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

// orderOf is the byte order of a geometry by its first byte.
func orderOf(b byte) byteOrder {
	if b == 0 {
		return binary.BigEndian
	}
	return binary.LittleEndian
}

// Bits of the extended types, and of the old form of heights.
const (
	extendedZ    = 0x80000000
	extendedM    = 0x40000000
	extendedSRID = 0x20000000
	oldZ         = 0x8000
)

// headOf reads the head in any of the forms.
func headOf(data []byte) (h head, ok bool) {
	if len(data) < 5 || data[0] > 1 {
		return h, false
	}
	h.order, h.size = orderOf(data[0]), 5
	t := h.order.Uint32(data[1:])
	h.z, h.m = t&(extendedZ|oldZ) != 0, t&extendedM != 0
	if t&extendedSRID != 0 {
		if len(data) < 9 {
			return h, false
		}
		h.srid, h.size = int(h.order.Uint32(data[5:])), 9
	}
	t &^= extendedZ | extendedM | extendedSRID | oldZ
	if t > 3999 {
		return h, false
	}
	h.z = h.z || t/1000 == 1 || t/1000 == 3
	h.m = h.m || t/1000 >= 2
	h.kind = t % 1000
	return h, true
}

// isoType is the type in the one form that the decoder is given.
func (h head) isoType() uint32 {
	t := h.kind
	if h.z {
		t += 1000
	}
	if h.m {
		t += 2000
	}
	return t
}

func (h head) stride() int {
	n := 2
	if h.z {
		n++
	}
	if h.m {
		n++
	}
	return n
}

// binary reads geometries one after another.
func (r *reader) binary(data []byte, pos geodata.Pos) {
	c := checker{data: data}
	for c.at < len(data) && r.fs.Problems() == 0 {
		from := c.at
		c.out.Reset()
		h, err := c.geometry(0)
		if err == nil && !r.inSystem(h.srid, pos) {
			return
		}
		var g geom.T
		if err == nil {
			g, err = decodeBinary(c.out.Bytes())
		}
		if err != nil {
			r.fs.Problem(pos, "wkb-broken", "", fmt.Sprintf("the binary geometry that begins at byte %d cannot be read: %v", from+1, err), advice)
			return
		}
		r.take(g, nil, pos)
		if len(r.out.Points) > geodata.MostPoints {
			r.fs.TooMany(pos)
			return
		}
	}
}

// decodeBinary calls the decoder, which must not be able to end the program.
func decodeBinary(data []byte) (g geom.T, err error) {
	defer func() {
		if e := recover(); e != nil {
			g, err = nil, fmt.Errorf("the decoder failed: %v", e)
		}
	}()
	g, err = wkb.Unmarshal(data, wkbcommon.WKBOptionEmptyPointHandling(wkbcommon.EmptyPointHandlingNaN))
	if err == nil && g == nil {
		err = fmt.Errorf("there is no geometry")
	}
	return g, err
}

// checker walks a binary geometry before it is decoded: counts that the file
// cannot hold are found before memory is asked for, nesting is limited, and all
// forms are written anew in the one of ISO 13249-3, since the decoder knows not
// all of them.
type checker struct {
	data []byte
	at   int
	out  bytes.Buffer
}

// geometry checks one geometry and moves behind it.
func (c *checker) geometry(depth int) (head, error) {
	h, ok := headOf(c.data[c.at:])
	switch {
	case !ok:
		return h, fmt.Errorf("byte %d begins no geometry", c.at+1)
	case depth > deepest:
		return h, fmt.Errorf("geometries are nested more than %d deep", deepest)
	case h.kind < 1 || h.kind > 7:
		return h, fmt.Errorf("its type, %d, is not a point, a line, a polygon or a collection of these", h.kind)
	}
	c.out.WriteByte(c.data[c.at])
	c.out.Write(h.order.AppendUint32(nil, h.isoType()))
	c.at += h.size
	switch h.kind {
	case 1:
		return h, c.copy(uint64(8 * h.stride()))
	case 2:
		return h, c.run(h)
	case 3:
		return h, c.each(h, 4, func() error { return c.run(h) })
	}
	return h, c.each(h, 9, func() error {
		_, err := c.geometry(depth + 1)
		return err
	})
}

// run checks a count of places and the places.
func (c *checker) run(h head) error {
	n, err := c.count(h, 8*h.stride())
	if err != nil {
		return err
	}
	return c.copy(uint64(n) * uint64(8*h.stride()))
}

// each checks a count of parts and the parts.
func (c *checker) each(h head, least int, part func() error) error {
	n, err := c.count(h, least)
	for i := uint32(0); i < n && err == nil; i++ {
		err = part()
	}
	return err
}

// count reads a count of things that each need so many bytes.
func (c *checker) count(h head, least int) (uint32, error) {
	if len(c.data)-c.at < 4 {
		return 0, errShort
	}
	n := h.order.Uint32(c.data[c.at:])
	if uint64(n)*uint64(least) > uint64(len(c.data)-c.at-4) {
		return 0, errShort
	}
	return n, c.copy(4)
}

var errShort = fmt.Errorf("it ends before all that it announces")

// copy takes bytes over as they are.
func (c *checker) copy(n uint64) error {
	if n > uint64(len(c.data)-c.at) {
		return errShort
	}
	c.out.Write(c.data[c.at : c.at+int(n)])
	c.at += int(n)
	return nil
}
