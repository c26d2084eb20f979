package term

import (
	"fmt"
	"slices"
	"strings"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// decision is the answer in short, with whatever stops the work.
func (p *printer) decision(a *siting.Assessment) {
	p.heading("What to do")
	for _, t := range p.words.Decision(a) {
		lead, rest, stop := strings.Cut(t, "STOP: ")
		if stop && lead == "" {
			p.hanging("  STOP: ", "    ", rest, red)
			continue
		}
		p.hanging("  ", "    ", t, "")
	}
	for _, c := range p.words.Cautions(a) {
		if c.Mark == "STOP" {
			p.hanging("  STOP  ", "        ", c.Text, red)
		}
	}
}

// beds is the table of beds, then each bed's reasons and build list.
func (p *printer) beds(a *siting.Assessment) {
	if len(a.Beds) == 0 {
		return
	}
	p.heading("Beds")
	var rows [][]string
	for _, b := range a.Beds {
		rows = append(rows, p.words.BedRow(b))
	}
	p.table(words.BedHeads(), rows)
	heeded := map[string]bool{} // what was told at a bed before is not told again
	for _, b := range a.Beds {
		p.heading(b.Name)
		p.pairs(p.words.Decided(b), "  ")
		p.blank()
		p.pairs(p.words.Ground(b), "  ")
		build := slices.DeleteFunc(p.words.BuildList(b), func(i words.Item) bool {
			told := i.Name == "Heed" && heeded[i.Value]
			heeded[i.Value] = heeded[i.Value] || i.Name == "Heed"
			return told
		})
		if len(build) > 0 {
			p.blank()
			p.pairs(build, "  ")
		}
		p.options(b, currencyOf(a))
	}
}

// buying is what to buy and how to cut it.
func (p *printer) buying(a *siting.Assessment) {
	items := p.words.Buying(a.Quantities)
	p.items("What to buy and carry", items)
	for _, b := range a.Quantities.Boards {
		cuts := p.words.Cuts(b)
		if len(cuts) == 0 {
			continue
		}
		p.heading("Cut list: " + p.words.CutHead(b))
		for _, c := range cuts {
			p.hanging("  - ", "    ", c, "")
		}
	}
}

// cautions are all of them, stops first.
func (p *printer) cautions(a *siting.Assessment) {
	cs := p.words.Cautions(a)
	if len(cs) == 0 {
		return
	}
	p.heading("Cautions")
	for _, c := range cs {
		mark := bold
		if c.Mark == "STOP" {
			mark = red
		}
		lead := c.Mark + strings.Repeat(" ", max(1, 9-len(c.Mark)))
		indent := strings.Repeat(" ", min(11, p.width/6))
		p.hanging("  "+lead, indent, c.Text, mark)
		p.hanging(indent, indent, c.Tail, "")
		p.hanging(indent, indent, "("+c.ID+")", "")
	}
}

// settingOut is the figures of the setting-out sheet.
func (p *printer) settingOut(a *siting.Assessment) {
	s := a.SettingOut
	if len(s.Beds) == 0 && s.Note == "" {
		return
	}
	p.heading("Setting out")
	lead := "Tapes held level. The setout command gives the whole sheet, with heights and order of work."
	if s.Note != "" {
		lead = p.words.Prose(s.Note) + " " + lead
	}
	p.hanging("  ", "  ", lead, "")
	p.sheet(p.words.SetOutTables(s, words.Taping{}))
}

func (p *printer) assumptions(a *siting.Assessment) {
	if len(a.Assumptions) == 0 {
		return
	}
	p.heading("What was assumed")
	for _, s := range a.Assumptions {
		p.hanging("  - ", "    ", p.words.Assumed(s), "")
	}
}

func (p *printer) suspects(a *siting.Assessment) {
	p.items("Heights to read again", p.words.Suspects(a.Ground))
	if a.Ground.NextHeight == "" {
		return
	}
	p.heading("Next reading")
	p.hanging("  ", "  ", p.words.NextReading(a.Ground), "")
	for i, n := range p.words.NextWalk(a.Ground) {
		p.hanging(fmt.Sprintf("  %d. ", i+1), "     ", n, "")
	}
}

// findings are the notes and warnings of reading the input.
func (p *printer) findings(a *siting.Assessment) {
	if len(a.Findings) == 0 {
		return
	}
	p.heading("Notes on reading the input")
	for _, f := range a.Findings {
		p.fault(f)
	}
}
