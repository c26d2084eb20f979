package heightgrid

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"math/bits"
	"slices"

	"golang.org/x/image/tiff/lzw"
)

// Ways of packing, as the tag Compression counts them.
const (
	packNone       = 1
	packLZW        = 5
	packDeflate    = 8
	packOldDeflate = 32946
	packBits       = 32773
)

// packingName names the ways of packing that are not read.
func packingName(packing uint64) string {
	switch packing {
	case 2, 3, 4, 32771:
		return "CCITT (made for scanned pages)"
	case 6, 7, 99:
		return "JPEG (made for photographs; it changes heights)"
	case 34712, 33003, 33005:
		return "JPEG 2000"
	case 34661:
		return "JBIG"
	case 34887:
		return "LERC"
	case 34925:
		return "LZMA"
	case 50000:
		return "ZSTD"
	case 50001:
		return "WEBP"
	case 50002, 52546:
		return "JPEG XL"
	}
	return fmt.Sprintf("number %d", packing)
}

// readPacking reads how the values are packed and refuses what is not read.
func (im *image) readPacking(d directory) error {
	var err error
	if im.packing, err = im.t.number(d, tagCompression, packNone); err != nil {
		return err
	}
	if im.predictor, err = im.t.number(d, tagPredictor, 1); err != nil {
		return err
	}
	order, err := im.t.number(d, tagFillOrder, 1)
	if err != nil {
		return err
	}
	im.bitsReversed = order == 2
	switch im.packing {
	case packNone:
		im.predictor = 1 // a predictor belongs to a packing (TIFF 6.0, section 14)
	case packLZW, packDeflate, packOldDeflate, packBits:
	default:
		return refuse("tiff-compression", "the file is compressed by "+packingName(im.packing)+", which is not read",
			"save it again compressed by Deflate or LZW, or not compressed, such as with: gdal_translate -co COMPRESS=DEFLATE in.tif out.tif")
	}
	if im.predictor == 0 {
		im.predictor = 1
	}
	if im.predictor > 3 || im.predictor == 3 && im.sample.class != floating {
		return refuse("tiff-predictor", fmt.Sprintf("the %s of the file are stored as differences of kind %d, which is not known for them", im.sample.name(), im.predictor),
			"save it again compressed by Deflate or LZW, or not compressed")
	}
	return nil
}

// unpacker gives the unpacked bytes of one block after the other.
type unpacker struct {
	packing  uint64
	reversed bool
	buf      *bufio.Reader
	inflate  io.ReadCloser
	packed   []byte // a block that is small enough to be read whole
	whole    bytes.Reader
}

// smallBlock is the size up to which a packed block is read whole before it is
// inflated, which is faster than byte by byte through a buffer.
const smallBlock = 256 << 10

// start begins a block that lies in a part of the file.
func (u *unpacker) start(part *io.SectionReader) (io.Reader, error) {
	var raw io.Reader = part
	if u.reversed {
		raw = reversedBits{part}
	}
	if u.buf == nil {
		u.buf = bufio.NewReaderSize(raw, 32<<10)
	} else {
		u.buf.Reset(raw)
	}
	switch u.packing {
	case packLZW:
		return lzw.NewReader(u.buf, lzw.MSB, 8), nil
	case packBits:
		return &packBitsReader{in: u.buf}, nil
	case packNone:
		return u.buf, nil
	}
	var in io.Reader = u.buf
	if part.Size() <= smallBlock {
		u.packed = slices.Grow(u.packed[:0], int(part.Size()))[:part.Size()]
		if _, err := io.ReadFull(raw, u.packed); err != nil {
			return nil, err
		}
		u.whole.Reset(u.packed)
		in = &u.whole
	}
	if u.inflate == nil {
		z, err := zlib.NewReader(in)
		u.inflate = z
		return z, err
	}
	return u.inflate, u.inflate.(zlib.Resetter).Reset(in, nil)
}

// finish checks the sum at the end of a deflated block that was read whole.
// Bytes beyond the block are passed over, as libtiff does.
func (u *unpacker) finish(r io.Reader) error {
	if u.packing != packDeflate && u.packing != packOldDeflate {
		return nil
	}
	var one [1]byte
	if _, err := r.Read(one[:]); errors.Is(err, zlib.ErrChecksum) {
		return err
	}
	return nil
}

// reversedBits turns the bits of each byte about: FillOrder 2.
type reversedBits struct{ in io.Reader }

// Read reads and turns.
func (r reversedBits) Read(p []byte) (int, error) {
	n, err := r.in.Read(p)
	for i, b := range p[:n] {
		p[i] = bits.Reverse8(b)
	}
	return n, err
}

// packBitsReader unpacks runs: a byte n from 0 to 127 is followed by n+1 bytes
// as they are, one from -127 to -1 by a byte that stands 1-n times, and -128 by
// nothing (TIFF 6.0, section 9).
type packBitsReader struct {
	in     *bufio.Reader
	left   int // bytes left of the run
	repeat bool
	value  byte
}

// Read gives unpacked bytes.
func (p *packBitsReader) Read(out []byte) (int, error) {
	if len(out) == 0 {
		return 0, nil
	}
	for p.left == 0 {
		head, err := p.in.ReadByte()
		if err != nil {
			return 0, err
		}
		switch n := int8(head); {
		case n >= 0:
			p.left, p.repeat = int(n)+1, false
		case n != -128:
			p.left, p.repeat = 1-int(n), true
			if p.value, err = p.in.ReadByte(); err != nil {
				return 0, io.ErrUnexpectedEOF
			}
		}
	}
	n := min(p.left, len(out))
	if p.repeat {
		for i := range n {
			out[i] = p.value
		}
	} else if _, err := io.ReadFull(p.in, out[:n]); err != nil {
		return 0, io.ErrUnexpectedEOF
	}
	p.left -= n
	return n, nil
}
