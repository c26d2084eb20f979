package relief

import (
	"slices"

	"github.com/paulmach/orb"
)

const none = int32(-1)

// band is the squares between two rows of nodes, marched for all levels at
// once. A crossing is a place where a level crosses a side between two nodes;
// crossings are numbered as they are found. Every segment leads from one
// crossing to another, and a crossing starts at most one and ends at most one,
// so segments form chains.
type band struct {
	points []orb.Point // by crossing
	next   []int32     // by crossing: the one its segment leads to, or none
	led    []bool      // by crossing: some segment leads here
	starts []start     // crossings that start a segment, in the order of the squares
	south  int         // crossings on the southern row; they have the first numbers
	seam   []int32     // crossings on the northern row, in order
}

type start struct{ crossing, level int32 }

// marcher marches one band. Rows of nodes are kept for the squares in hand: what
// lies south of them, and what lies north.
type marcher struct {
	band
	lattice
	z      []float64
	levels []float64 // rising
	// For the row of nodes south of the squares in hand and the one north: how
	// many levels a node is as high as, or unknownCount, and the first crossing
	// on the side that runs east from it.
	counts, countsNorth     []int32
	crossing, crossingNorth []int32
}

const unknownCount = int32(-1)

// march marches the squares between node rows first and last.
func march(at lattice, z []float64, levels []float64, first, last int) *band {
	m := &marcher{lattice: at, z: z, levels: levels}
	m.counts, m.countsNorth = make([]int32, at.cols), make([]int32, at.cols)
	m.crossing, m.crossingNorth = make([]int32, at.cols), make([]int32, at.cols)
	m.count(first, m.counts)
	for col := range at.cols - 1 {
		m.crossing[col] = m.cross(first*at.cols+col, 1, m.counts[col], m.counts[col+1])
	}
	m.south = len(m.points)
	for row := first; row < last; row++ {
		m.count(row+1, m.countsNorth)
		m.row(row)
		m.counts, m.countsNorth = m.countsNorth, m.counts
		m.crossing, m.crossingNorth = m.crossingNorth, m.crossing
	}
	for col := range at.cols - 1 {
		low, high := order(m.counts[col], m.counts[col+1])
		for k := int32(0); low >= 0 && k < high-low; k++ {
			m.seam = append(m.seam, m.crossing[col]+k)
		}
	}
	return &m.band
}

// count says for each node of a row how many of the levels it is as high as.
func (m *marcher) count(row int, out []int32) {
	k := 0
	for col, h := range m.z[row*m.cols : (row+1)*m.cols] {
		if !known(h) {
			out[col] = unknownCount
			continue
		}
		// Most nodes lie between the same two levels as the one before.
		if (k > 0 && m.levels[k-1] > h) || (k < len(m.levels) && m.levels[k] <= h) {
			at, found := slices.BinarySearch(m.levels, h)
			k = at
			if found {
				k++
			}
		}
		out[col] = int32(k)
	}
}

func order(a, b int32) (low, high int32) { return min(a, b), max(a, b) }

// cross adds the crossings on the side from node a to node a+step, lowest level
// first, and gives the number of the first. The place is worked from the side's
// own two ends, so that both squares beside it get the same bits.
func (m *marcher) cross(a, step int, countA, countB int32) int32 {
	first := int32(len(m.points))
	low, high := order(countA, countB)
	if low == high || low == unknownCount {
		return first
	}
	za, zb := m.z[a], m.z[a+step]
	for _, level := range m.levels[low:high] {
		col, row := float64(a%m.cols), float64(a/m.cols)
		if t := (level - za) / (zb - za); step == 1 {
			col += t
		} else {
			row += t
		}
		m.points = append(m.points, orb.Point{m.origin[0] + col*m.cell, m.origin[1] + row*m.cell})
		m.next = append(m.next, none)
		m.led = append(m.led, false)
	}
	return first
}

// row marches one row of squares.
func (m *marcher) row(row int) {
	south := m.z[row*m.cols : (row+1)*m.cols]
	north := m.z[(row+1)*m.cols : (row+2)*m.cols]
	west := m.cross(row*m.cols, m.cols, m.counts[0], m.countsNorth[0])
	for col := range m.cols - 1 {
		sw, se, ne, nw := m.counts[col], m.counts[col+1], m.countsNorth[col+1], m.countsNorth[col]
		m.crossingNorth[col] = int32(len(m.points))
		if sw == se && se == ne && ne == nw {
			west = int32(len(m.points))
			continue
		}
		m.crossingNorth[col] = m.cross((row+1)*m.cols+col, 1, nw, ne)
		east := m.cross(row*m.cols+col+1, m.cols, se, ne)
		low, high := min(sw, se, ne, nw), max(sw, se, ne, nw)
		if low != unknownCount {
			// What has to be added to a level's number to give its crossing.
			side := [4]int32{
				southSide: m.crossing[col] - min(sw, se), eastSide: east - min(se, ne),
				northSide: m.crossingNorth[col] - min(nw, ne), westSide: west - min(sw, nw),
			}
			for k := low; k < high; k++ {
				corners := [4]float64{south[col], south[col+1], north[col+1], north[col]}
				m.square(k, side, corners, highBits(k, sw, se, ne, nw))
			}
		}
		west = east
	}
}

// highBits sets bit 0 to 3 for south-west, south-east, north-east and
// north-west when that corner is as high as level k.
func highBits(k, sw, se, ne, nw int32) (bits int) {
	for i, count := range [...]int32{sw, se, ne, nw} {
		if count > k {
			bits |= 1 << i
		}
	}
	return bits
}

// square adds the segments of one level in one square.
func (m *marcher) square(k int32, side [4]int32, corners [4]float64, high int) {
	segments := segmentsOf[high]
	if high == 5 || high == 10 {
		level := m.levels[k]
		segments = saddleSegments(high, corners[0]-level, corners[1]-level, corners[2]-level, corners[3]-level)
	}
	for _, s := range segments {
		if s.from == s.to {
			return
		}
		from, to := side[s.from]+k, side[s.to]+k
		m.next[from] = to
		m.led[to] = true
		m.starts = append(m.starts, start{from, k})
	}
}
