package heightgrid

import (
	"context"
	"io"
	"math"
	"sync/atomic"
)

// filling is a window that is being filled by some patches.
type filling struct {
	im     *image
	w      window
	top    int // row of the file in which the window begins
	z      []float64
	absent float64      // for blocks that the file leaves out
	next   atomic.Int64 // row of blocks that nobody has taken
	failed atomic.Bool  // no more rows are begun
}

// patch is the part of a window that one core fills.
type patch struct {
	*filling
	unpack      unpacker
	tidy        *tidier // nil: the numbers stay as they are
	rows, spare []byte
	fast        bool // see onePass
	leftOut     int  // blocks
	by          int  // row of blocks in which err came up
	err         error
}

// work takes rows of blocks until none is left. Rows are taken in order, so
// every row before one that failed has been taken too.
func (p *patch) work(ctx context.Context, last int) {
	for !p.failed.Load() {
		by := int(p.next.Add(1) - 1)
		if by > last {
			return
		}
		if err := p.blocks(ctx, by); err != nil {
			p.by, p.err = by, err
			p.failed.Store(true)
			return
		}
	}
}

// blocks reads the blocks of the window in one row of blocks.
func (p *patch) blocks(ctx context.Context, by int) error {
	im := p.im
	left, right := p.w.col/im.blockW, (p.w.col+p.w.cols-1)/im.blockW
	first := int64(by)*int64(im.across) + int64(left)
	offsets, err := im.t.uints(im.offsets, first, int64(right-left+1))
	if err != nil {
		return err
	}
	lengths, err := im.t.uints(im.counts, first, int64(right-left+1))
	if err != nil {
		return err
	}
	for i := range offsets {
		if err := ctx.Err(); err != nil {
			return err
		}
		if offsets[i] == 0 || lengths[i] == 0 {
			p.leaveOut(left+i, by)
			continue
		}
		if err := p.block(ctx, left+i, by, place(offsets[i]), place(lengths[i])); err != nil {
			return im.blockFault(err, left+i, by)
		}
	}
	return nil
}

// span is the rows of a block that the window needs, counted from the block's
// first.
func (p *patch) span(by int) (from, to int) {
	im := p.im
	rows := min(im.blockH, im.height-by*im.blockH) // a last strip is cut, of a last tile the rest is padding
	return max(0, p.top-by*im.blockH), min(rows, p.top+p.w.rows-by*im.blockH)
}

// leaveOut fills the place of a block that is not in the file.
func (p *patch) leaveOut(bx, by int) {
	p.leftOut++
	from, to := p.span(by)
	for r := from; r < to; r++ {
		out, _ := p.cells(bx, by*p.im.blockH+r)
		fill(out, p.absent)
		if p.tidy != nil && math.IsNaN(p.absent) {
			p.tidy.missing += len(out)
		}
	}
}

// chunk is about how many unpacked bytes are worked on at a time: they stay in
// the cache of a core.
const chunk = 32 << 10

// block reads the rows of a block that the window needs. Rows above them are
// unpacked and passed over, those below are not read.
func (p *patch) block(ctx context.Context, bx, by int, at, length int64) error {
	im := p.im
	if !im.t.holds(at, length) {
		return refuse("tiff-damaged", "a block of the grid lies outside the file", "download or copy the file again")
	}
	from, to := p.span(by)
	size := im.rowBytes()
	skip := int64(from) * int64(size)
	if im.packing == packNone {
		if need := int64(to) * int64(size); need > length {
			return io.ErrUnexpectedEOF
		}
		at, length, skip = at+skip, length-skip, 0
	}
	in, err := p.unpack.start(io.NewSectionReader(im.t.r, at, length))
	if err != nil {
		return err
	}
	if _, err := io.CopyN(io.Discard, in, skip); err != nil {
		return err
	}
	if p.rows == nil {
		p.rows = make([]byte, max(1, min(chunk/size, im.blockH))*size)
		if p.fast = p.onePass(); im.predictor == 3 && !p.fast {
			p.spare = make([]byte, size)
		}
	}
	for r := from; r < to; {
		if err := ctx.Err(); err != nil {
			return err
		}
		rows := p.rows[:min(len(p.rows), (to-r)*size)]
		if _, err := io.ReadFull(in, rows); err != nil {
			return err
		}
		for ; len(rows) > 0; rows, r = rows[size:], r+1 {
			p.put(rows[:size], bx, by*im.blockH+r)
		}
	}
	if by*im.blockH+to == min(im.height, (by+1)*im.blockH) {
		return p.unpack.finish(in)
	}
	return nil
}

// put makes heights of the row of a block and puts those of the window in
// their place.
func (p *patch) put(row []byte, bx, fileRow int) {
	im := p.im
	out, skip := p.cells(bx, fileRow)
	if p.fast {
		float32Heights(out, row, im.blockW, skip, p.tidy)
		return
	}
	im.unpredict(row, p.spare)
	im.convert(out, row[skip*im.together*im.sample.bytes:])
	im.meta.apply(out)
	if p.tidy != nil {
		p.tidy.cells(out)
	}
}

// cells are the window's cells in a row of a block; skip is how many of the
// block's lie to the west of them.
func (p *patch) cells(bx, fileRow int) (out []float64, skip int) {
	im := p.im
	from := max(p.w.col, bx*im.blockW)
	to := min(p.w.col+p.w.cols, bx*im.blockW+im.blockW)
	row := fileRow - p.w.row
	if !im.southFirst {
		row = im.height - 1 - fileRow - p.w.row
	}
	return p.z[row*p.w.cols+from-p.w.col : row*p.w.cols+to-p.w.col], from - bx*im.blockW
}
