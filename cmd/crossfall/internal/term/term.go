// Package term prints an Assessment, and the faults of an input, as text.
//
// The rules of terminal output:
//
//   - The first line says what was read: frame, width and depth.
//   - Then the decision in a few sentences, then whatever stops the work.
//   - Plain words of the trade, spelled out; every figure with its unit, every
//     estimate with its band.
//   - No line is wider than the width asked for; long texts wrap at spaces, and
//     words longer than a line are broken.
//   - Tables are aligned by characters, not bytes. One that does not fit turns
//     into a block for each row, with the same words.
//   - Colour and bold mark what the words already say and never carry meaning:
//     without them the text is the same.
//   - No line ends in a space, and the same input gives the same bytes.
package term

import (
	"bufio"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
)

// Options for printing; the zero value works.
type Options struct {
	Units geodata.Units // "m" (default) or "ft"
	Width int           // characters in a line; default 80, at least 24
	Color bool          // mark headings and stops; default plain
}

// The widths that printing starts from: defaults of ours.
const (
	defaultWidth = 80
	leastWidth   = 24
)

func (o Options) width() int {
	if o.Width == 0 {
		return defaultWidth
	}
	return max(leastWidth, o.Width)
}

// Print writes the whole assessment.
func Print(w io.Writer, a *siting.Assessment, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	p.para(p.words.Frame(a.Frame))
	if a.Name != "" {
		p.para("Plot: " + a.Name)
	}
	if t := p.words.AxisSaid(a.Frame); t != "" {
		p.para(t)
	}
	p.decision(a)
	p.beds(a)
	p.layout(a)
	p.items("Water", p.words.Water(a))
	p.light(a)
	p.work(a)
	p.buying(a)
	p.access(a)
	p.cautions(a)
	p.settingOut(a)
	p.assumptions(a)
	p.items("How sure the ground is", p.words.Uncertainty(a))
	p.suspects(a)
	p.findings(a)
	return b.Flush()
}
