package siting

import (
	"sync"

	"github.com/paulmach/orb"
)

// mostRemembered is the number of outlines for which something is remembered; when
// a bed has been moved to more places than that, it begins again: a default of
// ours, some megabytes.
const mostRemembered = 4096

// byOutline remembers what hangs on nothing but a bed's outline and the ground, so
// that it is not worked out anew for beds that stay where they are. The zero value
// is empty; it may be used from several goroutines at once.
type byOutline[V any] struct {
	mu   sync.Mutex
	kept map[[4]orb.Point]V
}

// of is what is remembered of an outline, or found out now.
func (m *byOutline[V]) of(outline orb.Ring, find func() V) V {
	if len(outline) < 4 {
		return find()
	}
	key := [4]orb.Point(outline[:4])
	m.mu.Lock()
	v, ok := m.kept[key]
	m.mu.Unlock()
	if ok {
		return v
	}
	v = find()
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= mostRemembered {
		m.kept = map[[4]orb.Point]V{}
	}
	m.kept[key] = v
	return v
}
