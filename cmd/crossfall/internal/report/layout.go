package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// layoutPart is how good the arrangement of the beds is.
func layoutPart(w words.Words, a *siting.Assessment) part {
	p := part{ID: "layout", Title: "Where the beds lie", Page: true}
	if said := w.LayoutSaid(a); len(said) > 0 {
		p.Blocks = append(p.Blocks, block{Items: said})
	}
	return p
}
