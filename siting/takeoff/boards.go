package takeoff

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"crossfall/geodata"
)

// ErrTooLong is wrapped when a piece is longer than every board on sale and
// cannot be joined: a joint opens where no peg stands behind it.
var ErrTooLong = errors.New("no board on sale is long enough")

// ErrTooHigh is wrapped when a side would need more than maxCourses boards,
// one on the other.
var ErrTooHigh = errors.New("no board on sale is high enough")

// maxCourses is a default of ours: past it the side is a wall.
const maxCourses = 6

// Boards on sale where nothing was said: sawn sizes sold in the United
// Kingdom (common practice, no source).
var (
	DefaultLengths = []float64{3.6, 4.8}           // m
	DefaultHeights = []float64{150, 175, 200, 225} // mm
)

// DefaultKerf is what a saw takes, mm (common practice, no source).
const DefaultKerf = 3.0

// offer is the boards on sale, mm, ascending.
type offer struct {
	lengths, heights []float64
	kerf             float64
}

// offerOf settles the boards on sale, naming defaults in said unless it is nil.
func offerOf(site geodata.Site, said *lines) offer {
	o := offer{kerf: value(site.Boards.Kerf, DefaultKerf)}
	o.heights = usable(site.Boards.Heights, 1)
	o.lengths = usable(site.Boards.Lengths, 1000)
	if len(o.heights) == 0 {
		o.heights = DefaultHeights
	}
	if len(o.lengths) == 0 {
		o.lengths = usable(DefaultLengths, 1000)
		if said != nil {
			said.add("boards on sale are taken as 3.6 and 4.8 m long")
		}
	}
	if said != nil && site.Boards.Kerf == nil {
		said.add("each saw cut is taken as %.0f mm", DefaultKerf)
	}
	return o
}

// longest is the longest board on sale.
func (o offer) longest() float64 { return o.lengths[len(o.lengths)-1] }

// usable scales the sizes that are over 0, sorts them and drops doubles.
func usable(sizes []float64, scale float64) []float64 {
	var out []float64
	for _, s := range sizes {
		if s > 0 && !math.IsInf(s, 1) {
			out = append(out, s*scale)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// courses is how a side of so many mm is built of the heights on sale
// (ascending), bottom board first: the fewest boards, then the least height
// over, then the boards most alike. Nil for no side, or when maxCourses
// boards do not reach.
func courses(height float64, heights []float64) []float64 {
	if height <= 0 {
		return nil
	}
	n := int(math.Ceil(height/heights[len(heights)-1] - 1e-9))
	if n > maxCourses {
		return nil
	}
	var best, pick []float64
	better := func() bool {
		if best == nil {
			return true
		}
		c := cmp.Or(cmp.Compare(sum(pick), sum(best)), cmp.Compare(pick[0]-pick[n-1], best[0]-best[n-1]))
		return c < 0
	}
	var try func(i int)
	try = func(i int) { // picks heights downwards from the i-th
		if len(pick) == n {
			if sum(pick) >= height-1e-6 && better() {
				best = slices.Clone(pick)
			}
			return
		}
		for ; i >= 0; i-- {
			got := sum(pick)
			if got+float64(n-len(pick))*heights[i] < height-1e-6 || (best != nil && got > sum(best)) {
				return // no lower board reaches, or this is already higher than the best
			}
			pick = append(pick, heights[i])
			try(i)
			pick = pick[:len(pick)-1]
		}
	}
	try(len(heights) - 1)
	return best
}

func sum(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s
}

// countBoards cuts the pieces of every section from the one stock length that
// takes the least board in all.
func countBoards(list *List, said *lines, beds []BedInput, site geodata.Site) error {
	quiet := true
	for _, b := range beds {
		quiet = quiet && b.BoardUphill == 0 && b.BoardDownhill == 0
	}
	if quiet {
		return nil
	}
	o := offerOf(site, said)
	var all []want
	var err error
	for _, b := range beds {
		w, e := wanted(b, o)
		all, err = append(all, w...), errors.Join(err, e)
	}
	if err != nil {
		return err
	}
	slices.SortStableFunc(all, func(a, b want) int {
		return cmp.Or(cmp.Compare(b.height, a.height), cmp.Compare(b.thickness, a.thickness))
	})
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[n].section == all[0].section {
			n++
		}
		list.Boards = append(list.Boards, lineOf(all[:n], o, said))
		all = all[n:]
	}
	return nil
}

// lineOf cuts the pieces of one section. Of the lengths on sale that hold the
// longest piece it takes the one with the least length bought, the price being
// by the metre; then the one with fewer boards.
func lineOf(wants []want, o offer, said *lines) BoardLine {
	pieces := make([]Piece, len(wants))
	longest := 0.0
	for i, w := range wants {
		pieces[i] = w.Piece
		longest = max(longest, w.Length)
	}
	best := BoardLine{Count: -1}
	for _, stock := range o.lengths {
		if stock < longest-1e-6 {
			continue
		}
		cuts, bound := cutting(pieces, stock, o.kerf)
		line := BoardLine{Height: wants[0].height, Thickness: wants[0].thickness, Length: stock,
			Count: len(cuts), Proved: bound == len(cuts), Bound: bound, Cuts: cuts}
		for _, c := range cuts {
			line.Waste += c.Waste
		}
		bought, least := stock*float64(line.Count), best.Length*float64(best.Count)
		if best.Count < 0 || bought < least-1e-6 || (bought < least+1e-6 && line.Count < best.Count) {
			best = line
		}
	}
	if len(o.lengths) > 1 {
		said.add("boards of %.0f by %.0f mm: of the lengths on sale, %.1f m takes the least board in all",
			best.Height, best.Thickness, best.Length/1000)
	}
	if !best.Proved {
		said.add("boards of %.0f by %.0f mm: %d is the fewest found, not proved to be the fewest there can be; fewer than %d cannot do",
			best.Height, best.Thickness, best.Count, best.Bound)
	}
	return best
}
