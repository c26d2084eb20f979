package heightgrid

import (
	"compress/flate"
	"compress/zlib"
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"sync"

	"crossfall/geodata"
)

// read fills z with the window's heights from the blocks that it touches, on all
// cores: each takes the next row of blocks, and what it finds does not depend on
// which core took it. Blocks that the file leaves out (offset or length 0) are
// filled with absent: ground that nobody measured is not ground at height 0.
// Without a tidier the numbers stay as they are in the file. Of several damaged
// blocks the first is told.
func (im *image) read(ctx context.Context, w window, z []float64, absent float64, t *tidier) (geodata.Faults, error) {
	f := &filling{im: im, w: w, z: z, absent: absent, top: w.row}
	if !im.southFirst {
		f.top = im.height - w.row - w.rows
	}
	first, last := f.top/im.blockH, (f.top+w.rows-1)/im.blockH
	f.next.Store(int64(first))
	patches := make([]patch, min(runtime.GOMAXPROCS(0), last-first+1))
	var done sync.WaitGroup
	for i := range patches {
		p := &patches[i]
		p.filling, p.unpack = f, unpacker{packing: im.packing, reversed: im.bitsReversed}
		if t != nil {
			p.tidy = &tidier{rise: t.rise, mark: t.mark}
		}
		if len(patches) == 1 {
			p.work(ctx, last)
			break
		}
		done.Go(func() { p.work(ctx, last) })
	}
	done.Wait()
	leftOut, failedAt := 0, last+1
	var err error
	for _, p := range patches {
		leftOut += p.leftOut
		if p.err != nil && p.by < failedAt {
			failedAt, err = p.by, p.err
		}
		if t != nil {
			t.missing, t.outside = t.missing+p.tidy.missing, t.outside+p.tidy.outside
		}
	}
	if err != nil {
		return nil, err
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
