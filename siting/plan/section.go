package plan

import (
	"errors"
	"fmt"
	"math"

	"crossfall/siting"

	"github.com/paulmach/orb"
)

// ErrNoSection is returned where nothing is built.
var ErrNoSection = errors.New("plan: nothing is built, so there is no section to draw")

// Sizes of a section's sheet, mm: defaults of ours; it fits between the margins
// of A4 and Letter. A short section stands between two columns of words, a long
// one over them.
const (
	sectionWide   = 178.0
	sectionWords  = 43.0 // least width of a column of words
	sectionGap    = 7.0  // between them and the drawing, for the leaders
	sectionMargin = 4.0
	sectionText   = 2.6
	sectionStep   = 3.6 // from one line of words to the next
)

// sectionScales are those of a usual scale rule.
var sectionScales = [...]int{10, 20, 25, 50, 100, 200}

// sectioner draws one section.
type sectioner struct {
	d      Drawing
	s      *siting.Section
	b      siting.Bed
	opt    Options
	scale  int
	left   float64 // of the drawing on paper, mm
	first  float64 // of the lines of words, mm
	words  float64 // width of a column of them, mm
	top    float64
	origin orb.Point // of the ground at that corner: distance, height
	height float64   // of the sheet
	notes  [2][]note // at the left and at the right
	count  int       // of notes, each of one or more lines
	// letters are those that stand beside what they point at, in a long section.
	letters labels
}

// note is a line of words and what it points at.
type note struct {
	at    orb.Point // on paper
	text  string
	count int // of the notes before it
}

// SectionFigure is the section through a bed, true to its scale when printed at
// full size; ErrNoSection where nothing is built.
func SectionFigure(b siting.Bed, opt Options) (Figure, error) {
	k, err := layOut(b, opt)
	if err != nil {
		return Figure{}, err
	}
	f := Figure{Width: sectionWide, Height: k.height, Title: "Section through " + b.Name, Description: k.said()}
	f.draw = func(d Drawing) {
		on := *k
		on.d = d
		on.draw()
	}
	return f, nil
}

// layOut chooses the scale and the size of the sheet.
func layOut(b siting.Bed, opt Options) (*sectioner, error) {
	if b.Section == nil || len(b.Section.Ground) < 2 {
		return nil, ErrNoSection
	}
	k := &sectioner{s: b.Section, b: b, opt: opt, left: sectionWords + sectionMargin, top: 8.5, words: sectionWords}
	if k.s.Along {
		k.left, k.words = sectionMargin, sectionWide/2-2*sectionMargin
	}
	bound := k.bound()
	room := sectionWide - 2*k.left
	for _, k.scale = range sectionScales {
		if k.mm(bound.Right()-bound.Left()) <= room+1e-6 {
			break
		}
	}
	k.left += (room - k.mm(bound.Right()-bound.Left())) / 2
	if !k.s.Along {
		k.words = math.Max(k.words, k.left-sectionMargin-sectionGap)
	}
	k.origin = orb.Point{bound.Left(), bound.Top()}
	k.gather()
	if k.s.Along {
		k.even()
	}
	tall := k.top + k.mm(bound.Top()-bound.Bottom())
	k.first = k.top
	if k.s.Along {
		k.first = tall + 4
	}
	for _, side := range k.notes {
		tall = math.Max(tall, k.first+sectionStep*(float64(len(side))-.5))
	}
	k.height = tall + 6
	return k, nil
}

// bound encloses all that is drawn.
func (k *sectioner) bound() orb.Bound {
	all := append(orb.MultiPoint{}, k.s.Ground...)
	for _, f := range k.s.Fill {
		all = append(all, f...)
	}
	for _, b := range k.s.Boards {
		all = append(all, orb.Point{b.From, b.Bottom}, orb.Point{b.To, b.Top})
	}
	for _, p := range k.s.Pegs {
		all = append(all, orb.Point{p.From, p.Tip}, orb.Point{p.To, p.Top})
	}
	return all.Bound()
}

func (k *sectioner) mm(m float64) float64 { return m * 1000 / float64(k.scale) }

func (k *sectioner) onPaper(p orb.Point) orb.Point {
	return orb.Point{k.left + k.mm(p[0]-k.origin[0]), k.top + k.mm(k.origin[1]-p[1])}
}

func (k *sectioner) all(pts []orb.Point) []orb.Point {
	out := make([]orb.Point, len(pts))
	for i, p := range pts {
		out[i] = k.onPaper(p)
	}
	return out
}

func (k *sectioner) box(from, to, bottom, top float64) []orb.Point {
	return k.all([]orb.Point{{from, bottom}, {to, bottom}, {to, top}, {from, top}})
}

// Styles of the section: wood white with a firm outline, compost dotted with
// strokes, ground hatched, so that it reads in black and white.
var (
	groundLine   = Style{Stroke: Black, Width: .5, Class: "section-ground"}
	groundHatch  = Style{Stroke: Grey, Width: .15, Class: "section-ground-hatch"}
	compostEdge  = Style{Stroke: Black, Width: .25, Fill: Pale, Class: "section-compost"}
	boardEdge    = Style{Stroke: Black, Width: .35, Fill: Paper, Class: "section-board"}
	boardGrain   = Style{Stroke: Black, Width: .15, Class: "section-grain"}
	pegEdge      = Style{Stroke: Black, Width: .25, Fill: Paper, Class: "section-peg"}
	leaderStyle  = Style{Stroke: Grey, Width: .15, Class: "section-leader"}
	sectionWordS = TextStyle{Size: sectionText, Ink: Black, Class: "section-words"}
)

func (k *sectioner) draw() {
	k.earth()
	for _, f := range k.s.Fill {
		k.d.Polygon(k.all(f), compostEdge)
	}
	for _, p := range k.s.Pegs {
		middle := (p.From + p.To) / 2
		k.d.Polygon(k.all([]orb.Point{{p.From, p.Top}, {p.To, p.Top}, {p.To, p.Bottom}, {middle, p.Tip}, {p.From, p.Bottom}}), pegEdge)
	}
	for _, b := range k.s.Boards {
		k.board(b)
	}
	k.d.Line(k.all(k.s.Ground), groundLine)
	k.title()
	k.write()
	k.bar()
}

// earth hatches a strip of the ground under its line.
func (k *sectioner) earth() {
	const deep = 2.6 // mm on paper
	line := k.all(k.s.Ground)
	ring := append([]orb.Point{}, line...)
	for i := len(line) - 1; i >= 0; i-- {
		ring = append(ring, orb.Point{line[i][0], line[i][1] + deep})
	}
	for _, l := range hatch([][]orb.Point{ring}, 45, 1.4) {
		k.d.Line(l[:], groundHatch)
	}
}

// board draws a board cut through: its outline, the joints and a cross for the
// grain of each.
func (k *sectioner) board(b siting.SectionBoard) {
	k.d.Polygon(k.box(b.From, b.To, b.Bottom, b.Top), boardEdge)
	below := b.Bottom
	for _, joint := range append(append([]float64{}, b.Joints...), b.Top) {
		c := k.box(b.From, b.To, below, joint)
		k.d.Line([]orb.Point{c[0], c[2]}, boardGrain)
		k.d.Line([]orb.Point{c[1], c[3]}, boardGrain)
		k.d.Line([]orb.Point{c[2], c[3]}, boardGrain)
		below = joint
	}
}

func (k *sectioner) title() {
	way := "across the bed at its middle, seen with the uphill side at the left"
	if k.s.Along {
		way = "along the bed at its middle, with the higher end at the left"
	}
	k.d.Text(orb.Point{sectionMargin, 2.5}, "Section "+way, TextStyle{Size: 3.2, Bold: true, Anchor: Start, Ink: Black, Class: "section-title"})
}

// write sets the notes in two columns, in the order of what they point at, and
// draws a leader to each.
func (k *sectioner) write() {
	k.letters = k.kept()
	for side, notes := range k.notes {
		y := k.first
		for _, n := range notes {
			s, x, join := sectionWordS, sectionMargin, sectionMargin+k.words
			s.Anchor = Start
			if side == 1 {
				x = sectionWide - sectionMargin - k.words
				join = x - 1
			}
			k.d.Text(orb.Point{x, y}, n.text, s)
			if k.s.Along {
				k.letter(n)
			} else if finite(n.at) {
				if side == 0 {
					join = math.Min(join, x+textWidth(n.text, s.Size, false)+1)
				}
				k.d.Line([]orb.Point{{join, y}, n.at}, leaderStyle)
			}
			y += sectionStep
		}
	}
}

// bar is the scale bar, half a metre or two feet, and the scale in figures.
func (k *sectioner) bar() {
	y := k.height - 2
	long, said := 0.5, "0.5 m"
	if k.opt.feet() {
		long, said = 2*0.3048, "2 ft"
	}
	x := k.left
	for i := range 2 {
		s := Style{Stroke: Black, Width: .2, Fill: Paper, Class: "scale-bar"}
		if i == 0 {
			s.Fill = Black
		}
		half := k.mm(long) / 2
		k.d.Polygon(rectangle(orb.Point{x + half*(float64(i)+.5), y}, half, 1.4), s)
	}
	s := sectionWordS
	s.Anchor = Start
	k.d.Text(orb.Point{x + k.mm(long) + 2, y}, fmt.Sprintf("%s; scale 1:%d, heights to the same scale, printed at full size", said, k.scale), s)
}
