package siting

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// inParallel does each of n pieces of work once, on all cores. Pieces must not
// depend on one another.
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
