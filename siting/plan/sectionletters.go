package plan

import (
	"strings"

	"github.com/paulmach/orb"
)

// kept are the places of letters, which keep off wood where they can.
func (k *sectioner) kept() labels {
	l := labels{area: orb.Bound{Max: orb.Point{sectionWide, k.height}}}
	round := func(from, to, bottom, top float64) {
		ring := k.box(from, to, bottom, top)
		l.markLine(append(ring, ring[0]))
	}
	for _, b := range k.s.Boards {
		round(b.From, b.To, b.Bottom, b.Top)
	}
	for _, p := range k.s.Pegs {
		round(p.From, p.To, p.Tip, p.Top)
	}
	return l
}

// letter sets the letter that a note starts with beside what it points at; long
// sections have their words below, where leaders would cross them.
func (k *sectioner) letter(n note) {
	if !finite(n.at) {
		return
	}
	mark, _, _ := strings.Cut(n.text, " ")
	away := 2.4
	if n.at[0] > sectionWide/2 {
		away = -away
	}
	s := sectionWordS
	s.Bold, s.Halo = true, true
	var tries []box
	for _, off := range [...]orb.Point{{away, -1.6}, {away, 1.6}, {2 * away, -1.6}, {-away, -1.6}, {-away, 1.6}, {2 * away, 1.6}, {-away / 1.5, 0}, {-2 * away, 1.6}} {
		tries = append(tries, box{centre: orb.Point{n.at[0] + off[0], n.at[1] + off[1]}, w: s.Size * .8, h: s.Size})
	}
	if b, ok := k.letters.place(tries, false); ok {
		k.d.Text(b.centre, mark, s)
	}
}
