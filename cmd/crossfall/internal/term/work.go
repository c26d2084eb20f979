package term

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// work is the order of work in short, what to lay over which bed, and what may be
// carried when it is wet.
func (p *printer) work(a *siting.Assessment) {
	steps := p.words.WorkShort(a)
	if len(steps) == 0 {
		return
	}
	p.items("Order of work", steps)
	p.items("Weeds met", p.words.WeedsMet(a))
	if words.Covered(a) {
		p.heading("Cover")
		p.table(words.CoverHeads(), words.CoverRows(a))
	}
	p.items("Ways in the wet", p.words.WetGround(a))
}
