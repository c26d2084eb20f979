package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// assumedPart is every default that was used, and the notes of reading.
func assumedPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "assumed", Title: "What was assumed"}
	var all []string
	for _, s := range a.Assumptions {
		all = append(all, w.Assumed(s))
	}
	p.Blocks = []block{{List: all}}
	if len(all) == 0 {
		p.Blocks = []block{{Text: "Nothing: everything was said in the input."}}
	}
	var notes []string
	for _, f := range a.Findings {
		notes = append(notes, f.Severity.String()+": "+f.Error())
	}
	p.Blocks = append(p.Blocks, titled("Notes on reading the input", block{List: notes})...)
	return p
}

// surePart is how well the ground is known.
func surePart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "sure", Title: "How sure the ground is, and how to read the figures"}
	if f, err := plan.FallFigure(a); err == nil {
		p.Blocks = append(p.Blocks, block{Figure: &figure{Figure: f, Name: "fall"}})
	}
	p.Blocks = append(p.Blocks, block{Items: w.Uncertainty(a)})
	p.Blocks = append(p.Blocks, titled("Heights to read again", block{Items: w.Suspects(a.Ground)})...)
	p.Blocks = append(p.Blocks, titled("Next reading", block{Text: w.NextReading(a.Ground)})...)
	return p
}

// workingPart is where each figure comes from.
func workingPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "working", Title: "Working"}
	if len(a.Working) == 0 {
		return p
	}
	t := grid("Table of the working", []string{"Figure", "Value", "Band", "Formula", "Source", "From"}, nil)
	t.Table.Fine = true
	for _, b := range w.Working(a.Working) {
		t.Table.Rows = append(t.Table.Rows, []string{b.ID, b.Value, b.Band, b.Formula, b.Source, b.Inputs})
	}
	p.Blocks = []block{{Text: "Where each figure comes from."}, t}
	return p
}
