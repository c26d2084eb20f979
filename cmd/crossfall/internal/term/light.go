package term

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// light is the table of sun hours, with what they rest on.
func (p *printer) light(a *siting.Assessment) {
	said := p.words.LightSaid(a)
	if len(said) == 0 {
		return
	}
	p.heading("Hours of direct sun")
	if rows := words.LightRows(a); len(rows) > 0 {
		p.table(words.LightHeads(a), rows)
	}
	p.pairs(said, "  ")
}
