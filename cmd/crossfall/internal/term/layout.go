package term

import "crossfall/siting"

// layout is how good the arrangement of the beds is.
func (p *printer) layout(a *siting.Assessment) {
	if said := p.words.LayoutSaid(a); len(said) > 0 {
		p.heading("Where the beds lie")
		p.pairs(said, "  ")
	}
}
