package heightgrid

import (
	"encoding/binary"
	"math"
)

// Most height grids are packed with predictor 3 of 32-bit values, one to a
// place. Rows of these become heights in one pass; undoFloats, convert and the
// tidier come to the same and take twice as long.

// onePass tells whether the heights of rows can be had in one pass.
func (p *patch) onePass() bool {
	im := p.im
	return im.predictor == 3 && !im.lowPlaneFirst && im.sample == sample{4, floating} && im.together == 1 &&
		p.tidy != nil && !im.meta.needed(p.tidy.rise)
}

// float32Heights fills z with the heights in metres of the values from the
// skip-th on, by the differences of a row of n values.
//
// The differences of the four bytes of each value are woven together and added
// to the value before, byte by byte.
func float32Heights(z []float64, row []byte, n, skip int, t *tidier) {
	var bits, sum uint32
	for plane := range 4 { // the differences run on from one plane to the next
		from := max(0, (plane-1)*n+skip)
		sum += sumOf(row[from : plane*n+skip])
		bits = bits<<8 | sum&0xff
	}
	a, b := row[skip:n][:len(z)], row[n+skip : 2*n][:len(z)]
	c, d := row[2*n+skip : 3*n][:len(z)], row[3*n+skip : 4*n][:len(z)]
	// Floating values over 0 are in the order of their bits; those under 0 and
	// what is no number come after them.
	most := math.Float32bits(float32(highest / t.rise))
	for i := range z {
		bits = addBytes(bits, uint32(a[i])<<24|uint32(b[i])<<16|uint32(c[i])<<8|uint32(d[i]))
		v := float64(math.Float32frombits(bits))
		if bits >= most {
			z[i] = t.height(v)
			continue
		}
		z[i] = v * t.rise
	}
}

// addBytes adds four pairs of bytes that wrap around each by itself.
func addBytes(a, b uint32) uint32 {
	const low = 0x7f7f7f7f
	return (a&low + b&low) ^ (a^b)&^low
}

// sumOf is the sum of some bytes; only its last eight bits count. Even and odd
// bytes are added up in 16-bit lanes.
func sumOf(bytes []byte) (sum uint32) {
	const evens = 0x00ff00ff00ff00ff
	const most = 1024 // bytes until a lane could run over: 128 times 2·255
	le := binary.LittleEndian
	for len(bytes) >= 32 {
		part := bytes[:min(len(bytes)&^31, most)]
		bytes = bytes[len(part):]
		var even, odd uint64
		for ; len(part) >= 32; part = part[32:] {
			v, w, x, y := le.Uint64(part), le.Uint64(part[8:]), le.Uint64(part[16:]), le.Uint64(part[24:])
			even += v&evens + w&evens + x&evens + y&evens
			odd += v>>8&evens + w>>8&evens + x>>8&evens + y>>8&evens
		}
		both := even + odd
		sum += uint32(both + both>>16 + both>>32 + both>>48)
	}
	for _, b := range bytes {
		sum += uint32(b)
	}
	return sum
}
