package relief

import (
	"math"
	"math/bits"
)

// sortable turns a height into a number of the same order: larger for higher.
// 0 and -0 are one height.
func sortable(z float32) uint32 {
	b := math.Float32bits(z + 0)
	if b>>31 != 0 {
		return ^b
	}
	return b | 1<<31
}

func fromSortable(key uint32) float32 {
	if key>>31 != 0 {
		return math.Float32frombits(key &^ (1 << 31))
	}
	return math.Float32frombits(^key)
}

// radixHeap is a queue, lowest key first, for keys that are never lower than
// the last one taken (Ahuja, Mehlhorn, Orlin & Tarjan 1990, Journal of the ACM
// 37(2), from memory). Entries of one key come out in the order in which they
// went in: equal keys are always in the same bucket, and moving a bucket keeps
// its order. An entry is the key in the upper and a node in the lower 32 bits.
type radixHeap struct {
	buckets [33][]uint64 // by the highest bit in which a key differs from last
	last    uint32
	taken   int // entries of bucket 0 that are gone
}

func (h *radixHeap) push(key, node uint32) {
	b := bits.Len32(key ^ h.last)
	h.buckets[b] = append(h.buckets[b], uint64(key)<<32|uint64(node))
}

func (h *radixHeap) pop() (node uint32, ok bool) {
	if h.taken == len(h.buckets[0]) {
		h.buckets[0], h.taken = h.buckets[0][:0], 0
		if !h.refill() {
			return 0, false
		}
	}
	e := h.buckets[0][h.taken]
	h.taken++
	return uint32(e), true
}

// refill brings the entries of the lowest key into bucket 0.
func (h *radixHeap) refill() bool {
	b := 1
	for b < len(h.buckets) && len(h.buckets[b]) == 0 {
		b++
	}
	if b == len(h.buckets) {
		return false
	}
	lowest := uint32(math.MaxUint32)
	for _, e := range h.buckets[b] {
		lowest = min(lowest, uint32(e>>32))
	}
	h.last = lowest
	for _, e := range h.buckets[b] {
		to := bits.Len32(uint32(e>>32) ^ lowest)
		h.buckets[to] = append(h.buckets[to], e)
	}
	h.buckets[b] = h.buckets[b][:0]
	return true
}
