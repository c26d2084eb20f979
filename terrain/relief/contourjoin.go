package relief

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// chains is the segments of all bands under common numbers.
type chains struct {
	points []orb.Point
	next   []int32
	led    []bool
	starts [][]int32 // by level, in the order of the squares
}

// joinBands numbers the crossings of the bands one band after another. Those
// on the southern row of a band are the ones on the northern row of the band
// before.
func joinBands(bands []*band, levels, workers int) (*chains, error) {
	offset := make([]int, len(bands)+1)
	for k, b := range bands {
		offset[k+1] = offset[k] + len(b.points)
	}
	total := offset[len(bands)]
	if total > math.MaxInt32 {
		return nil, fmt.Errorf("contours: %d points are too many to hold: choose a wider interval", total)
	}
	c := &chains{points: make([]orb.Point, total), next: make([]int32, total), led: make([]bool, total)}
	number := func(k int, crossing int32) int32 {
		for k > 0 && int(crossing) < bands[k].south {
			k--
			crossing = bands[k].seam[crossing]
		}
		return int32(offset[k]) + crossing
	}
	share(len(bands), workers, func(k int) {
		b := bands[k]
		copy(c.points[offset[k]:], b.points)
		for i, to := range b.next {
			c.next[offset[k]+i], c.led[offset[k]+i] = none, b.led[i]
			if to != none {
				c.next[offset[k]+i] = number(k, to)
			}
		}
	})
	for k := 1; k < len(bands); k++ {
		for i := range bands[k].south {
			own, common := offset[k]+i, number(k, int32(i))
			if c.next[own] != none {
				c.next[common] = c.next[own]
			}
			c.led[common] = c.led[common] || c.led[own]
		}
	}
	c.starts = make([][]int32, levels)
	for k, b := range bands {
		for _, s := range b.starts {
			c.starts[s.level] = append(c.starts[s.level], number(k, s.crossing))
		}
	}
	return c, nil
}

// lines strings the segments of a level into lines, open ones first.
func (c *chains) lines(k int, level float64) []Contour {
	var out []Contour
	for _, s := range c.starts[k] {
		if !c.led[s] {
			out = c.follow(out, level, s)
		}
	}
	for _, s := range c.starts[k] {
		if c.next[s] != none {
			out = c.follow(out, level, s)
		}
	}
	return out
}

// follow takes the line that starts at a crossing out of the chains.
func (c *chains) follow(out []Contour, level float64, start int32) []Contour {
	count := 2
	for at := c.next[start]; at != none && at != start; at = c.next[at] {
		count++
	}
	line := make(orb.LineString, 1, count)
	line[0] = c.points[start]
	at := start
	for {
		to := c.next[at]
		c.next[at], c.led[at] = none, false
		if to == none {
			break
		}
		at = to
		// Crossings at a node exactly at the level fall together.
		if p := c.points[at]; p != line[len(line)-1] {
			line = append(line, p)
		}
	}
	if len(line) < 2 {
		return out
	}
	return append(out, Contour{Level: level, Line: line, Closed: at == start})
}
