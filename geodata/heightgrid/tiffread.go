package heightgrid

import (
	"compress/flate"
	"compress/zlib"
	"context"
	"errors"
	"fmt"
	"io"

	"crossfall/geodata"
)

// read fills z with the window's heights from the blocks that it touches.
// Blocks that the file leaves out (offset or length 0) stay NaN: ground that
// nobody measured is not ground at height 0.
func (im *image) read(ctx context.Context, w window, z []float64) (geodata.Faults, error) {
	p := &patch{im: im, w: w, z: z, unpack: unpacker{packing: im.packing, reversed: im.bitsReversed}}
	p.top = w.row
	if !im.southFirst {
		p.top = im.height - w.row - w.rows
	}
	left, right := w.col/im.blockW, (w.col+w.cols-1)/im.blockW
	leftOut := 0
	for by := p.top / im.blockH; by <= (p.top+w.rows-1)/im.blockH; by++ {
		first := int64(by)*int64(im.across) + int64(left)
		offsets, err := im.t.uints(im.offsets, first, int64(right-left+1))
		if err != nil {
			return nil, err
		}
		lengths, err := im.t.uints(im.counts, first, int64(right-left+1))
		if err != nil {
			return nil, err
		}
		for i := range offsets {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if offsets[i] == 0 || lengths[i] == 0 {
				leftOut++
				continue
			}
			if err := p.block(ctx, left+i, by, place(offsets[i]), place(lengths[i])); err != nil {
				return nil, im.blockFault(err, left+i, by)
			}
		}
	}
	return leftOutNote(leftOut), nil
}

func leftOutNote(n int) geodata.Faults {
	if n == 0 {
		return nil
	}
	return geodata.Faults{{
		Code: "tiff-blocks-left-out", Severity: geodata.Note,
		Message: fmt.Sprintf("%d blocks of the window are left out of the file; their heights are missing", n),
	}}
}

// blockFault says which block could not be unpacked.
func (im *image) blockFault(err error, bx, by int) error {
	var corrupt flate.CorruptInputError
	var fault geodata.Fault
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) || errors.As(err, &fault) {
		return err
	}
	what := "could not be unpacked: " + err.Error()
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		what = "ends too early"
	case errors.As(err, &corrupt), errors.Is(err, zlib.ErrHeader), errors.Is(err, zlib.ErrChecksum), errors.Is(err, zlib.ErrDictionary):
		what = "is damaged"
	}
	return refuse("tiff-block-damaged",
		fmt.Sprintf("the block of cells from column %d, row %d (counted from the top left) %s", bx*im.blockW+1, by*im.blockH+1, what),
		"download or copy the file again")
}

// patch is a window that is being filled.
type patch struct {
	im         *image
	w          window
	top        int // row of the file in which the window begins
	z          []float64
	unpack     unpacker
	row, spare []byte
}

// block reads the rows of a block that the window needs. Rows above them are
// unpacked and passed over, those below are not read.
func (p *patch) block(ctx context.Context, bx, by int, at, length int64) error {
	im := p.im
	if !im.t.holds(at, length) {
		return refuse("tiff-damaged", "a block of the grid lies outside the file", "download or copy the file again")
	}
	rows := min(im.blockH, im.height-by*im.blockH) // a last strip is cut, of a last tile the rest is padding
	from := max(0, p.top-by*im.blockH)
	to := min(rows, p.top+p.w.rows-by*im.blockH)
	skip := int64(from) * int64(im.rowBytes())
	if im.packing == packNone {
		if need := int64(to) * int64(im.rowBytes()); need > length {
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
	if p.row == nil {
		p.row = make([]byte, im.rowBytes())
		if im.predictor == 3 {
			p.spare = make([]byte, im.rowBytes())
		}
	}
	for r := from; r < to; r++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		if _, err := io.ReadFull(in, p.row); err != nil {
			return err
		}
		p.put(bx, by*im.blockH+r)
	}
	if to == rows {
		return p.unpack.finish(in)
	}
	return nil
}

// put makes heights of the row of a block and puts those of the window in
// their place.
func (p *patch) put(bx, fileRow int) {
	im := p.im
	im.unpredict(p.row, p.spare)
	from := max(p.w.col, bx*im.blockW)
	to := min(p.w.col+p.w.cols, bx*im.blockW+im.blockW)
	row := fileRow - p.w.row
	if !im.southFirst {
		row = im.height - 1 - fileRow - p.w.row
	}
	out := p.z[row*p.w.cols+from-p.w.col : row*p.w.cols+to-p.w.col]
	im.convert(out, p.row[(from-bx*im.blockW)*im.together*im.sample.bytes:])
}
