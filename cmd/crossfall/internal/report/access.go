package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// accessPart is how compost gets to the beds.
func accessPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "access", Title: "Getting compost to the beds"}
	rows := w.AccessRows(a)
	if len(rows) == 0 {
		return p
	}
	p.Blocks = append(p.Blocks, grid("Ways to the beds", w.AccessHeads(), rows))
	if said := w.AccessSaid(a); len(said) > 0 {
		p.Blocks = append(p.Blocks, block{Items: said})
	}
	if notes := w.AccessNotes(a); len(notes) > 0 {
		p.Blocks = append(p.Blocks, block{List: notes})
	}
	return p
}
