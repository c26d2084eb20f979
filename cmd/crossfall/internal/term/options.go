package term

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// options sets the ways to edge a bed side by side, says what speaks against
// those not chosen, and what the edge depends on.
func (p *printer) options(b siting.Bed, currency string) {
	if rows := p.words.EdgeRows(b, currency); len(rows) > 0 {
		p.blank()
		p.line("  " + p.marked(bold, "Ways to edge it"))
		p.table(words.EdgeHeads(b), rows)
		p.blank()
		p.pairs(p.words.EdgeReasons(b), "  ")
	}
	if items := p.words.Sensitivity(b); len(items) > 0 {
		p.blank()
		p.line("  " + p.marked(bold, "What it depends on"))
		p.pairs(items, "  ")
	}
}

// currencyOf is the money of the prices; empty where none was given.
func currencyOf(a *siting.Assessment) string {
	if a.Quantities.Cost == nil {
		return ""
	}
	return a.Quantities.Cost.Currency
}
