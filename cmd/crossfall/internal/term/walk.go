package term

import (
	"bufio"
	"fmt"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata/levelbook"
	"crossfall/terrain/walk"
)

// Book writes how a level book closes and what it was reduced to.
func Book(w io.Writer, r levelbook.Reduction, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	if r.PegTest != nil {
		p.items("Two-peg test of the level", p.words.PegTest(*r.PegTest))
	}
	for i, run := range r.Runs {
		head := "Level book"
		if len(r.Runs) > 1 {
			head = fmt.Sprintf("Level book, run %d", i+1)
		}
		p.items(head, p.words.Run(run))
		p.blank()
		var rows [][]string
		for _, l := range run.Levels {
			rows = append(rows, p.words.BookRow(l))
		}
		p.table(words.BookHeads(), rows)
	}
	return b.Flush()
}

// Ties writes the places that ties gave and how well they fix them.
func Ties(w io.Writer, s levelbook.Solution, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	p.tieTable("Places by ties", words.PlaceHeads(), s.Results, p.words.PlaceRow)
	p.tieTable("Rises by ties", words.RiseHeads(), s.Results, p.words.RiseRow)
	p.items("To heed with these instruments", p.words.TieHeed(s))
	return b.Flush()
}

// tieTable writes those ties that have a row.
func (p *printer) tieTable(title string, heads []string, results []levelbook.TieResult, row func(levelbook.TieResult) []string) {
	var rows [][]string
	for _, r := range results {
		if cells := row(r); cells != nil {
			rows = append(rows, cells)
		}
	}
	if len(rows) > 0 {
		p.heading(title)
		p.table(heads, rows)
	}
}

// PlotName writes the name of a plot, above everything else.
func PlotName(w io.Writer, name string, opt Options) error {
	if name == "" {
		return nil
	}
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color}
	p.para("Plot: " + name)
	return b.Flush()
}

// Walk writes what a survey says so far.
func Walk(w io.Writer, s *walk.Survey, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	p.items("The ground so far", p.words.WalkGround(s))
	p.items("Heights to read again", p.words.WalkSuspects(s))
	if next := p.words.WalkNext(s); next != "" {
		p.heading("Where next")
		p.hanging("  ", "  ", next, "")
	}
	p.heading("Readings")
	var rows [][]string
	for _, r := range s.Readings {
		rows = append(rows, p.words.WalkRow(r))
	}
	p.table(words.WalkHeads(), rows)
	if len(s.Findings) > 0 {
		p.heading("Notes on reading the input")
		for _, f := range s.Findings {
			p.fault(f)
		}
	}
	return b.Flush()
}
