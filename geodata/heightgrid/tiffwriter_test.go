package heightgrid_test

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
)

// tiffSpec is a grid to be written as TIFF in any of the ways that are read.
type tiffSpec struct {
	order      binary.AppendByteOrder // nil: little-endian
	big        bool
	packing    int // 0: not packed
	predictor  int // 0: none
	tile       int // side of a tile; 0: strips
	strip      int // rows of a strip; 0: one strip and no tag for its rows
	class      int // 1 unsigned, 2 signed, 3 floating
	bits       int
	bands      int  // 0: one
	planar     bool // bands in blocks of their own
	lowPlane   bool // predictor 3 with the planes the wrong way round
	backwards  bool // bits of each byte turned about
	cols, rows int
	z          func(col, row int) float64 // row 0 north
	leaveOut   func(block int) bool
	tags       []tiffTag // beside those of the grid itself
	before     []tiffTag // a picture that stands before the grid, when not nil
}

// tiffTag is an entry: data is []uint8, []uint16, []uint32, []uint64,
// []float64 or a string.
type tiffTag struct {
	tag  uint16
	data any
}

// placed are the tags that put the corner of the north-west cell at x, y.
func placed(x, y, cell float64, keys ...uint16) []tiffTag {
	dir := append([]uint16{1, 1, 0, uint16(len(keys) / 4)}, keys...)
	return []tiffTag{
		{33550, []float64{cell, cell, 0}},
		{33922, []float64{0, 0, 0, x, y, 0}},
		{34735, dir},
	}
}

// britishGrid are keys: projected, cells are areas, EPSG 27700, metres.
var britishGrid = []uint16{1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 27700, 3076, 0, 1, 9001}

func (s tiffSpec) byteOrder() binary.AppendByteOrder {
	if s.order == nil {
		return binary.LittleEndian
	}
	return s.order
}

// write encodes the whole file.
func (s tiffSpec) write() []byte { return s.assemble(s.blocks(), nil) }

// blocks packs the blocks of all bands that lie apart.
func (s tiffSpec) blocks() [][]byte {
	w, h := s.cols, s.strip
	if h == 0 {
		h = s.rows
	}
	if s.tile > 0 {
		w, h = s.tile, s.tile
	}
	var blocks [][]byte
	apart := 1
	if s.planar {
		apart = max(1, s.bands)
	}
	for band := range apart {
		for top := 0; top < s.rows; top += h {
			for left := 0; left < s.cols; left += w {
				if s.leaveOut != nil && s.leaveOut(len(blocks)) {
					blocks = append(blocks, nil)
					continue
				}
				rows := h
				if s.tile == 0 {
					rows = min(h, s.rows-top)
				}
				blocks = append(blocks, s.block(left, top, w, rows, band))
			}
		}
	}
	return blocks
}

// block packs one block; cells beyond the grid hold 99.
func (s tiffSpec) block(left, top, w, h, band int) []byte {
	together := 1
	if !s.planar {
		together = max(1, s.bands)
	}
	var all []byte
	for r := top; r < top+h; r++ {
		var row []byte
		for c := left; c < left+w; c++ {
			for b := band; b < band+together; b++ {
				v := 99.0
				if c < s.cols && r < s.rows {
					v = s.z(c, r) - float64(b)
				}
				row = s.appendValue(row, v)
			}
		}
		all = append(all, s.predict(row, together)...)
	}
	packed := s.pack(all)
	if s.backwards {
		for i, b := range packed {
			packed[i] = bits.Reverse8(b)
		}
	}
	return packed
}

func (s tiffSpec) appendValue(to []byte, v float64) []byte {
	o := s.byteOrder()
	var word uint64
	switch {
	case s.class == 3 && s.bits == 32:
		word = uint64(math.Float32bits(float32(v)))
	case s.class == 3:
		word = math.Float64bits(v)
	default:
		word = uint64(int64(v))
	}
	switch s.bits {
	case 8:
		return append(to, byte(word))
	case 16:
		return o.AppendUint16(to, uint16(word))
	case 32:
		return o.AppendUint32(to, uint32(word))
	}
	return o.AppendUint64(to, word)
}

// predict makes differences of a row.
func (s tiffSpec) predict(row []byte, together int) []byte {
	size := s.bits / 8
	word := func(b []byte) uint64 {
		var v uint64
		for i := range size {
			if s.byteOrder() == binary.LittleEndian {
				v |= uint64(b[i]) << (8 * i)
			} else {
				v = v<<8 | uint64(b[i])
			}
		}
		return v
	}
	n := len(row) / size
	out := make([]byte, 0, len(row))
	switch s.predictor {
	case 2:
		for i := range n {
			v := word(row[i*size:])
			if i >= together {
				v -= word(row[(i-together)*size:])
			}
			one := tiffSpec{order: s.order, class: 1, bits: s.bits}
			switch s.bits {
			case 8:
				out = append(out, byte(v))
			case 16:
				out = one.byteOrder().AppendUint16(out, uint16(v))
			case 32:
				out = one.byteOrder().AppendUint32(out, uint32(v))
			default:
				out = one.byteOrder().AppendUint64(out, v)
			}
		}
		return out
	case 3:
		for plane := range size {
			shift := 8 * (size - 1 - plane)
			if s.lowPlane {
				shift = 8 * plane
			}
			for i := range n {
				out = append(out, byte(word(row[i*size:])>>shift))
			}
		}
		for i := len(out) - 1; i >= together; i-- {
			out[i] -= out[i-together]
		}
		return out
	}
	return row
}

func (s tiffSpec) pack(b []byte) []byte {
	switch s.packing {
	case 5:
		return packLZW(b)
	case 8, 32946:
		var buf bytes.Buffer
		deflater.Reset(&buf)
		_, _ = deflater.Write(b) // to memory: cannot fail
		_ = deflater.Close()
		return buf.Bytes()
	case 32773:
		return packRuns(b)
	}
	return slices.Clone(b)
}

var deflater = zlib.NewWriter(nil)

// packRuns packs by PackBits: runs of three or more are shortened.
func packRuns(b []byte) []byte {
	var out []byte
	for i := 0; i < len(b); {
		n := 1
		for i+n < len(b) && n < 128 && b[i+n] == b[i] {
			n++
		}
		if n >= 3 {
			out = append(out, byte(1-n), b[i])
			i += n
			continue
		}
		n = 1
		for i+n < len(b) && n < 128 && (i+n+2 >= len(b) || b[i+n] != b[i+n+1] || b[i+n] != b[i+n+2]) {
			n++
		}
		out = append(append(out, byte(n-1)), b[i:i+n]...)
		i += n
	}
	return out
}

// packLZW packs as TIFF 6.0, section 13, says: codes of 9 to 12 bits, most
// significant bit first, the width growing one code early.
func packLZW(b []byte) []byte {
	var out []byte
	var word uint32
	held, width, next := 0, 9, 258
	table := map[string]int{}
	emit := func(code int) {
		word = word<<width | uint32(code)
		for held += width; held >= 8; held -= 8 {
			out = append(out, byte(word>>(held-8)))
		}
	}
	grow := func() {
		if next++; next == 4094 {
			emit(256)
			width, next = 9, 258
			clear(table)
		} else if next > 1<<width-1 {
			width++
		}
	}
	code := func(s []byte) int {
		if len(s) == 1 {
			return int(s[0])
		}
		return table[string(s)]
	}
	emit(256)
	from := 0
	for i := 1; i < len(b); i++ {
		if _, known := table[string(b[from:i+1])]; known {
			continue
		}
		emit(code(b[from:i]))
		table[string(b[from:i+1])] = next
		grow()
		from = i
	}
	emit(code(b[from:]))
	grow()
	emit(257)
	if held > 0 {
		out = append(out, byte(word<<(8-held)))
	}
	return out
}

// assemble puts the file together. which says which of the packed blocks
// stands at each place; nil: each in its own.
func (s tiffSpec) assemble(packed [][]byte, which []int) []byte {
	o := s.byteOrder()
	file := []byte("II")
	if s.byteOrder() == binary.BigEndian {
		file = []byte("MM")
	}
	firstAt := 4
	if s.big {
		file = o.AppendUint16(o.AppendUint16(o.AppendUint16(file, 43), 8), 0)
		firstAt = 8
		file = o.AppendUint64(file, 0)
	} else {
		file = o.AppendUint32(o.AppendUint16(file, 42), 0)
	}
	at := make([]uint64, len(packed))
	for i, b := range packed {
		if b != nil {
			at[i] = uint64(len(file))
			file = append(file, b...)
		}
	}
	if which == nil {
		for i := range packed {
			which = append(which, i)
		}
	}
	var offsets, lengths []uint64
	for _, i := range which {
		offsets = append(offsets, at[i])
		lengths = append(lengths, uint64(len(packed[i])))
	}
	link := firstAt
	if s.before != nil {
		file, link = s.appendDirectory(file, link, s.before)
	}
	file, _ = s.appendDirectory(file, link, append(s.ownTags(offsets, lengths), s.tags...))
	return file
}

// ownTags are the tags of the grid itself.
func (s tiffSpec) ownTags(offsets, lengths []uint64) []tiffTag {
	bands := max(1, s.bands)
	var depth, format []uint16
	for range bands {
		depth, format = append(depth, uint16(s.bits)), append(format, uint16(s.class))
	}
	planar := uint16(1)
	if s.planar {
		planar = 2
	}
	tags := []tiffTag{
		{256, []uint32{uint32(s.cols)}}, {257, []uint32{uint32(s.rows)}}, {258, depth},
		{259, []uint16{uint16(max(1, s.packing))}}, {262, []uint16{1}}, {277, []uint16{uint16(bands)}},
		{284, []uint16{planar}}, {339, format},
	}
	if s.predictor > 0 {
		tags = append(tags, tiffTag{317, []uint16{uint16(s.predictor)}})
	}
	if s.backwards {
		tags = append(tags, tiffTag{266, []uint16{2}})
	}
	offsetTag, lengthTag := uint16(273), uint16(279)
	switch {
	case s.tile > 0:
		offsetTag, lengthTag = 324, 325
		tags = append(tags, tiffTag{322, []uint16{uint16(s.tile)}}, tiffTag{323, []uint16{uint16(s.tile)}})
	case s.strip > 0:
		tags = append(tags, tiffTag{278, []uint16{uint16(s.strip)}})
	}
	if s.big {
		return append(tags, tiffTag{offsetTag, offsets}, tiffTag{lengthTag, lengths})
	}
	narrow := func(v []uint64) []uint32 {
		out := make([]uint32, len(v))
		for i := range v {
			out[i] = uint32(v[i])
		}
		return out
	}
	return append(tags, tiffTag{offsetTag, narrow(offsets)}, tiffTag{lengthTag, narrow(lengths)})
}

// appendDirectory appends a directory, links it from a place in the file and
// gives the place of its own link. Later tags take the place of earlier ones.
func (s tiffSpec) appendDirectory(file []byte, link int, tags []tiffTag) ([]byte, int) {
	o := s.byteOrder()
	byTag := map[uint16]tiffTag{}
	for _, t := range tags {
		byTag[t.tag] = t
	}
	tags = tags[:0:0]
	for _, t := range byTag {
		tags = append(tags, t)
	}
	slices.SortFunc(tags, func(a, b tiffTag) int { return cmp.Compare(a.tag, b.tag) })
	room := 4
	if s.big {
		room = 8
	}
	var entries []byte
	for _, t := range tags {
		kind, count, data := s.encode(t.data)
		if len(data) > room {
			value := len(file)
			file = append(file, data...)
			data = s.appendOffset(nil, value)
		}
		entries = o.AppendUint16(o.AppendUint16(entries, t.tag), kind)
		entries = s.appendOffset(entries, count)
		entries = append(append(entries, data...), make([]byte, room-len(data))...)
	}
	copy(file[link:], s.appendOffset(nil, len(file)))
	if s.big {
		file = o.AppendUint64(file, uint64(len(tags)))
	} else {
		file = o.AppendUint16(file, uint16(len(tags)))
	}
	file = append(file, entries...)
	return s.appendOffset(file, 0), len(file)
}

func (s tiffSpec) appendOffset(to []byte, v int) []byte {
	if s.big {
		return s.byteOrder().AppendUint64(to, uint64(v))
	}
	return s.byteOrder().AppendUint32(to, uint32(v))
}

func (s tiffSpec) encode(data any) (kind uint16, count int, b []byte) {
	o := s.byteOrder()
	switch v := data.(type) {
	case string:
		return 2, len(v) + 1, append([]byte(v), 0)
	case []uint8:
		return 1, len(v), v
	case []uint16:
		for _, x := range v {
			b = o.AppendUint16(b, x)
		}
		return 3, len(v), b
	case []uint32:
		for _, x := range v {
			b = o.AppendUint32(b, x)
		}
		return 4, len(v), b
	case []uint64:
		for _, x := range v {
			b = o.AppendUint64(b, x)
		}
		return 16, len(v), b
	case []float64:
		for _, x := range v {
			b = o.AppendUint64(b, math.Float64bits(x))
		}
		return 12, len(v), b
	}
	panic("tiffTag: no such type of data")
}
