package term

import (
	"bufio"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
)

// Why writes the working of one figure.
func Why(w io.Writer, basis siting.Basis, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	work := p.words.Working([]siting.Basis{basis})[0]
	said := []words.Item{
		{Name: "Figure", Value: work.ID}, {Name: "Value", Value: work.Value}, {Name: "Band", Value: work.Band},
		{Name: "Formula", Value: work.Formula}, {Name: "Source", Value: work.Source},
	}
	if opt.Units == geodata.FeetAndInch {
		said = append(said, words.Item{Name: "Units", Value: "worked in metres, kilograms and newtons, and so is the formula; shown in feet and pounds"})
	}
	for _, in := range basis.Inputs {
		said = append(said, words.Item{Name: "From", Value: p.words.Input(in)})
	}
	p.pairs(said, "")
	return b.Flush()
}
