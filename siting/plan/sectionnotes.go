package plan

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// nowhere is where a note points that points at nothing.
var nowhere = orb.Point{math.NaN(), math.NaN()}

func (o Options) feet() bool { return o.Units == geodata.FeetAndInch }

// small and level are sizes and heights in the reader's units.
func (k *sectioner) small(mm float64) string { return k.opt.Units.Small(mm / 1000) }
func (k *sectioner) level(m float64) string  { return k.opt.Units.Length(m) }

// deep is a depth to be reached: in feet and inches it is rounded up, to eighths.
func (k *sectioner) deep(mm float64) string {
	if k.opt.feet() {
		mm = math.Ceil(mm/25.4*8-1e-6) / 8 * 25.4
	}
	return k.small(mm)
}

// say adds a note at a side, pointing at a place of the section.
func (k *sectioner) say(side int, at orb.Point, format string, args ...any) {
	if finite(at) {
		at = k.onPaper(at)
	}
	t := fmt.Sprintf(format, args...)
	if k.s.Along {
		t = string(rune('a'+k.count)) + " " + t
	}
	for i, line := range wrapWhole(t, k.words) {
		if i > 0 {
			at = nowhere
		}
		k.notes[side] = append(k.notes[side], note{at, line, k.count})
	}
	k.count++
}

// even shares the notes of a long section, whose letters tell what they point at,
// among the two columns in the order of their letters.
func (k *sectioner) even() {
	all := slices.Concat(k.notes[0], k.notes[1])
	slices.SortStableFunc(all, func(a, b note) int { return cmp.Compare(a.count, b.count) })
	half := (len(all) + 1) / 2
	for half < len(all) && all[half].count == all[half-1].count { // no note is parted
		half++
	}
	k.notes = [2][]note{all[:half], all[half:]}
}

// figure finds the space inside a figure, where a line must not end.
var figure = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(\d) (mm\b|m\b|in\b|ft\b|\d+/\d)|(\bft) (\d)`)
})

// wrapWhole breaks a text into lines and keeps figures with their units.
func wrapWhole(t string, room float64) []string {
	for range 2 { // neighbouring figures share a digit
		t = figure().ReplaceAllString(t, "$1$3\x00$2$4")
	}
	lines := wrap(strings.ReplaceAll(t, "\x00", "_"), sectionText, false, room)
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], "_", " ")
	}
	return lines
}

// gather writes the notes: the high side at the left, the low one at the right.
func (k *sectioner) gather() {
	ground := k.s.Ground
	at := func(x float64) orb.Point { return nearestAt(ground, x) }
	high, low := at(0), at(k.s.Length)
	if n := len(k.s.Boards); n > 0 {
		k.boardNote(0, k.s.Boards[0])
		k.boardNote(1, k.s.Boards[n-1])
	}
	k.compost()
	k.say(0, high, "ground %s", k.level(high[1]))
	k.say(1, low, "ground %s, %s lower", k.level(low[1]), k.small(1000*(high[1]-low[1])))
	k.sunken()
	k.pegs()
}

// nearestAt is the point of a line nearest to a distance.
func nearestAt(line []orb.Point, x float64) orb.Point {
	return slices.MinFunc(line, func(a, b orb.Point) int {
		return int(math.Round(1e6 * (math.Abs(a[0]-x) - math.Abs(b[0]-x))))
	})
}

func (k *sectioner) boardNote(side int, b siting.SectionBoard) {
	t := fmt.Sprintf("%s %s by %s", b.Name, k.small(1000*(b.Top-b.Bottom)), k.small(1000*(b.To-b.From)))
	if len(b.Joints) > 0 {
		var parts []string
		below := b.Bottom
		for _, j := range append(append([]float64{}, b.Joints...), b.Top) {
			parts = append([]string{k.small(1000 * (j - below))}, parts...)
			below = j
		}
		t += " (" + strings.Join(parts, " on ") + ")"
	}
	k.say(side, orb.Point{(b.From + b.To) / 2, b.Top}, "%s", t)
}

// compost says how deep it is at both sides of the bed.
func (k *sectioner) compost() {
	first, last := k.s.Fill[0], k.s.Fill[len(k.s.Fill)-1]
	deep := func(f []orb.Point, x float64) float64 {
		top := f[0]
		if math.Abs(f[1][0]-x) < math.Abs(f[0][0]-x) {
			top = f[1]
		}
		return 1000 * (top[1] - nearestAt(k.s.Ground, top[0])[1])
	}
	inset := func(f []orb.Point, part float64) orb.Point {
		return orb.Point{f[0][0] + part*(f[1][0]-f[0][0]), f[0][1] + part*(f[1][1]-f[0][1])}
	}
	k.say(0, inset(first, .12), "compost %s deep at this side", k.small(deep(first, 0)))
	k.say(1, inset(last, .88), "compost %s deep at this side", k.small(deep(last, k.s.Length)))
}

func (k *sectioner) sunken() {
	n := len(k.s.Boards)
	if n == 0 || k.b.SunkenDepth == nil || k.b.SunkenDepth.Value <= 0 {
		return
	}
	b := k.s.Boards[n-1]
	k.say(1, orb.Point{(b.From + b.To) / 2, b.Bottom}, "edge sunken %s", k.deep(k.b.SunkenDepth.Value))
}

func (k *sectioner) pegs() {
	n := len(k.s.Pegs)
	if n == 0 || k.b.Pegs == nil {
		return
	}
	p := k.s.Pegs[n-1]
	k.say(1, orb.Point{p.To, p.Bottom}, "peg %s square, %s in the ground and a point of %s", k.small(k.b.Pegs.Size), k.deep(k.b.Pegs.Embedment.Value), k.small(k.b.Pegs.Point))
	q := k.s.Pegs[0]
	k.say(0, orb.Point{q.From, q.Bottom}, "peg, its top %s under that of the board", k.small(1000*(k.s.Boards[0].Top-q.Top)))
}

// said tells the section to those who cannot see it.
func (k *sectioner) said() string {
	var all []string
	for _, side := range k.notes {
		for _, n := range side {
			all = append(all, n.text)
		}
	}
	return strings.Join(all, " ") + "."
}
