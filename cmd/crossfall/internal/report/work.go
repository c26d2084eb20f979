package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// workPart is the order of work of the first year.
func workPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "work", Title: "Order of work"}
	work := w.Work(a)
	if len(work) == 0 {
		return p
	}
	p.Blocks = []block{{Items: work}}
	p.Blocks = append(p.Blocks, titled("Weeds met when digging", block{Items: w.WeedsMet(a)})...)
	p.Blocks = append(p.Blocks, titled("What lies under and over each bed", grid("What lies under and over each bed", words.CoverHeads(), words.CoverRows(a)))...)
	p.Blocks = append(p.Blocks, titled("Ways in the wet", block{Items: w.WetGround(a)})...)
	return p
}
