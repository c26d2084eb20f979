package relief

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"sync"
)

// RowSource hands out a grid of heights of any size a few rows at a time, as
// from a file. Its methods use plain types only, so that a reader of files
// need not know this package.
type RowSource interface {
	// Shape is the number of columns and rows.
	Shape() (cols, rows int)
	// Spacing is metres between columns and between rows. Spacing in degrees
	// gives nonsense.
	Spacing() (x, y float64)
	// ReadRows gives n rows of heights (metres; NaN for none), one after the
	// other. It may fill and return buf, which has room for them, or return
	// memory of its own, which is only read. Calls come one at a time, first
	// rising; each repeats at most the last two rows of the one before.
	ReadRows(first, n int, buf []float32) ([]float32, error)
}

// RowSink takes the results in the order of the rows, one call at a time.
type RowSink interface {
	// WriteRows takes whole rows from number first. fall is the tangent of
	// the slope angle; facing is the bearing of steepest descent in radians
	// clockwise from the direction of rising y, 0 or more and under 2 pi, NaN
	// on level ground. Both are NaN where unknown; one that was not asked for
	// is nil. The memory is used again after the call.
	WriteRows(first int, fall, facing []float32) error
}

// Wanted says which results SlopeRows works out.
type Wanted uint8

// What SlopeRows can give.
const (
	FallAndFacing Wanted = iota
	FallOnly
	FacingOnly
)

// SlopeRowsOptions says how slopes are taken row by row.
type SlopeRowsOptions struct {
	Method Method // default Evans
	// Edges carries the ground on in straight lines at the grid's edge and
	// beside missing heights. Default false: nothing is known there.
	Edges bool
	Want  Wanted // default both
	// NorthFirst says that the source's first row is the northern one, as in
	// most files. Default false: the southern one.
	NorthFirst bool
	Workers    int // default as many as Go runs at once
	// Progress, where set, is told after every block how many rows are done,
	// from the caller's goroutine.
	Progress func(done, total int64)
}

// blockHeights is about how many heights one worker has in hand at a time:
// few enough for a core's own cache.
const blockHeights = 1 << 16

// SlopeRows takes the slope at every node of a grid of any size, keeping only
// a few rows for each worker in memory. The results do not depend on the
// number of workers. It stops with the context's error when that is done, and
// with the first error of the source or sink; the sink may then have had some
// of the rows.
func SlopeRows(ctx context.Context, src RowSource, dst RowSink, opt SlopeRowsOptions) error {
	cols, rows := src.Shape()
	x, y := src.Spacing()
	if !(x > 0 && y > 0) || math.IsInf(x, 0) || math.IsInf(y, 0) || cols < 0 || rows < 0 {
		return fmt.Errorf("slopes of rows: grid of %d by %d nodes spaced %v by %v m", cols, rows, x, y)
	}
	if cols == 0 || rows == 0 {
		return nil
	}
	if opt.NorthFirst {
		y = -y
	}
	workers := opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	q := &rowQueue{src: src, dst: dst, opt: opt, cols: cols, rows: rows, block: max(1, min(rows, blockHeights/cols))}
	q.turn, q.done = sync.NewCond(&q.lock), make(chan int)
	var all sync.WaitGroup
	for range min(workers, (rows-1)/q.block+1) {
		all.Go(func() { q.work(ctx, newRowSlopes(x, y, opt)) })
	}
	go func() {
		all.Wait()
		close(q.done)
	}()
	for n := range q.done {
		if opt.Progress != nil {
			opt.Progress(int64(n), int64(rows))
		}
	}
	if q.err != nil {
		return fmt.Errorf("slopes of rows: %w", q.err)
	}
	return nil
}

// rowQueue hands out blocks of rows and gathers the results in order.
type rowQueue struct {
	src        RowSource
	dst        RowSink
	opt        SlopeRowsOptions
	cols, rows int
	block      int // rows in a block
	done       chan int

	lock    sync.Mutex
	turn    *sync.Cond
	read    int // rows handed out
	written int // rows written
	err     error
}

// work takes blocks until there are none left.
func (q *rowQueue) work(ctx context.Context, s *rowSlopes) {
	// The row before and the row after a block come with it.
	buf := make([]float32, (q.block+2)*q.cols)
	size := q.block * q.cols
	var fall, facing []float32
	if q.opt.Want != FacingOnly {
		fall = make([]float32, size)
	}
	if q.opt.Want != FallOnly {
		facing = make([]float32, size)
	}
	for {
		first, n, heights, ok := q.next(ctx, buf)
		if !ok {
			return
		}
		above := min(first, 1) // rows that come before the block
		for k := range n {
			at := (above + k) * q.cols
			before, after := []float32(nil), []float32(nil)
			if at >= q.cols {
				before = heights[at-q.cols : at]
			}
			if at+2*q.cols <= len(heights) {
				after = heights[at+q.cols : at+2*q.cols]
			}
			s.row(before, heights[at:at+q.cols], after, part(fall, k, q.cols), part(facing, k, q.cols))
		}
		if !q.write(first, n, part(fall, 0, n*q.cols), part(facing, 0, n*q.cols)) {
			return
		}
	}
}

// part is the k-th stretch of n values; nil of nil.
func part(values []float32, k, n int) []float32 {
	if values == nil {
		return nil
	}
	return values[k*n : (k+1)*n]
}

// next reads the next block with its neighbouring rows.
func (q *rowQueue) next(ctx context.Context, buf []float32) (first, n int, heights []float32, ok bool) {
	q.lock.Lock()
	defer q.lock.Unlock()
	if err := ctx.Err(); err != nil {
		q.fail(err) // wakes those who wait for their turn to write
	}
	first = q.read
	n = min(q.block, q.rows-first)
	if q.err != nil || n <= 0 {
		return 0, 0, nil, false
	}
	from, to := max(first-1, 0), min(first+n+1, q.rows)
	heights, err := q.src.ReadRows(from, to-from, buf[:(to-from)*q.cols])
	if err == nil && len(heights) != (to-from)*q.cols {
		err = fmt.Errorf("%d heights in %d rows of %d", len(heights), to-from, q.cols)
	}
	if err != nil {
		q.fail(fmt.Errorf("reading from row %d: %w", from, err))
		return 0, 0, nil, false
	}
	q.read += n
	return first, n, heights, true
}

// write waits until all earlier rows are written, then writes these.
func (q *rowQueue) write(first, n int, fall, facing []float32) bool {
	q.lock.Lock()
	defer q.lock.Unlock()
	for q.written != first && q.err == nil {
		q.turn.Wait()
	}
	if q.err != nil {
		return false
	}
	if err := q.dst.WriteRows(first, fall, facing); err != nil {
		q.fail(fmt.Errorf("writing from row %d: %w", first, err))
		return false
	}
	q.written += n
	q.turn.Broadcast()
	q.done <- q.written
	return true
}

func (q *rowQueue) fail(err error) {
	if q.err == nil {
		q.err = err
	}
	q.turn.Broadcast()
}
