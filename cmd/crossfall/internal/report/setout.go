package report

import (
	"fmt"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// WriteSetOut writes the setting-out sheet as an HTML page to print and take out.
func WriteSetOut(w io.Writer, a *siting.Assessment, how words.Taping, opt Options) error {
	say := words.Words{Units: opt.Units}
	d := document{Name: a.Name, Date: opt.Date, Said: "Setting beds out by tape, string and level.", Frame: []string{say.Frame(a.Frame)}}
	if d.Name == "" {
		d.Name = "Plot"
	}
	if t := say.AxisSaid(a.Frame); t != "" {
		d.Frame = append(d.Frame, t)
	}
	for i, p := range say.SetOutSheet(a, how) {
		d.add(part{ID: fmt.Sprintf("setting-out-%d", i+1), Title: p.Title, Summary: true, Blocks: sheetBlocks(p)})
	}
	return writePage(w, d)
}

// setOutPart is the figures of the sheet in the report.
func setOutPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "setting-out", Title: "Setting out"}
	if len(a.SettingOut.Beds) == 0 {
		return p
	}
	for i, s := range w.SetOutSheet(a, words.Taping{}) {
		if i > 0 {
			p.Blocks = append(p.Blocks, heading(s.Title))
		}
		p.Blocks = append(p.Blocks, sheetBlocks(s)...)
	}
	return p
}

// sheetBlocks are one part of the sheet; tasks have a box to tick.
func sheetBlocks(s words.SheetPart) []block {
	var out []block
	if len(s.Items) > 0 {
		out = append(out, block{Items: s.Items})
	}
	if len(s.Lines) > 0 {
		out = append(out, block{List: s.Lines})
	}
	if len(s.Rows) > 0 {
		out = append(out, grid(s.Title, s.Heads, s.Rows))
	}
	if len(s.Tasks) > 0 {
		steps := make([]string, len(s.Tasks))
		for i, t := range s.Tasks {
			steps[i] = "[  ] " + t
		}
		out = append(out, block{Steps: steps})
	}
	return out
}
