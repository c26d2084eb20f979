package layout

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// shareOut does each of n pieces of work once, on all cores, until the context
// is cancelled; that is its error. Pieces must not depend on one another.
func shareOut(ctx context.Context, n int, do func(i int)) error {
	inParallel(n, func(i int) {
		if ctx.Err() == nil {
			do(i)
		}
	})
	return ctx.Err()
}

func inParallel(n int, do func(i int)) {
	var next atomic.Int64
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	workers.Wait()
}
