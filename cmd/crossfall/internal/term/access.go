package term

import (
	"crossfall/siting"
)

// access is the table of ways to the beds, with what the whole job takes.
func (p *printer) access(a *siting.Assessment) {
	rows := p.words.AccessRows(a)
	if len(rows) == 0 {
		return
	}
	p.heading("Getting compost to the beds")
	p.table(p.words.AccessHeads(), rows)
	p.pairs(p.words.AccessSaid(a), "  ")
}
