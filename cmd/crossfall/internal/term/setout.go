package term

import (
	"bufio"
	"fmt"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// SetOut writes the setting-out sheet.
func SetOut(w io.Writer, a *siting.Assessment, how words.Taping, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	p.para(p.words.Frame(a.Frame))
	if a.Name != "" {
		p.para("Plot: " + a.Name)
	}
	if t := p.words.AxisSaid(a.Frame); t != "" {
		p.para(t)
	}
	p.sheet(p.words.SetOutSheet(a, how))
	return b.Flush()
}

// sheet writes parts of a setting-out sheet one under the other.
func (p *printer) sheet(parts []words.SheetPart) {
	for _, s := range parts {
		p.heading(s.Title)
		p.pairs(s.Items, "  ")
		for _, l := range s.Lines {
			p.hanging("  - ", "    ", l, "")
		}
		if len(s.Rows) > 0 {
			p.table(s.Heads, s.Rows)
		}
		for i, t := range s.Tasks {
			p.hanging(fmt.Sprintf("  [ ] %2d. ", i+1), "          ", t, "")
		}
	}
}
