package takeoff

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

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

// countBoards cuts the pieces of every section from the lengths on sale with the
// least board in all.
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
		list.Boards = append(list.Boards, linesOf(all[:n], o, said)...)
		all = all[n:]
	}
	return nil
}

// linesOf cuts the pieces of one section. The price being by the metre, the least
// length bought is the least cost.
func linesOf(wants []want, o offer, said *lines) []BoardLine {
	pieces := make([]Piece, len(wants))
	for i, w := range wants {
		pieces[i] = w.Piece
	}
	cuts, bound := cutting(pieces, o.lengths, o.kerf)
	var out []BoardLine
	for _, c := range cuts {
		if len(out) == 0 || out[len(out)-1].Length != c.Board {
			out = append(out, BoardLine{Height: wants[0].height, Thickness: wants[0].thickness, Length: c.Board,
				Proved: boughtIn(cuts) < bound+1e-3, Bound: bound})
		}
		last := &out[len(out)-1]
		last.Count++
		last.Waste += c.Waste
		last.Cuts = append(last.Cuts, c)
	}
	said.cut(out, boughtIn(cuts), o)
	return out
}

// cut says what was chosen of the lengths on sale, and what is not proved.
func (l *lines) cut(boards []BoardLine, all float64, o offer) {
	section := fmt.Sprintf("boards of %.0f by %.0f mm", boards[0].Height, boards[0].Thickness)
	if len(o.lengths) > 1 {
		each := make([]string, len(boards))
		for i, b := range boards {
			each[i] = fmt.Sprintf("%d of %s m", b.Count, metres(b.Length))
		}
		l.add("%s: of the lengths on sale, %s is the least board found, %s m in all", section, strings.Join(each, " and "), metres(all))
	}
	if !boards[0].Proved {
		l.add("%s: %s m in all is the least found, not proved to be the least there can be; less than %s m cannot do",
			section, metres(all), metres(boards[0].Bound))
	}
}

// metres writes mm in metres and loses none, so that boards of 4.877 m are still of
// 16 feet where they are told in feet.
func metres(mm float64) string { return strconv.FormatFloat(math.Round(mm)/1000, 'f', -1, 64) }
