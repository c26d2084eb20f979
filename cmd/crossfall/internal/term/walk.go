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
	p.heading("Ties")
	var rows [][]string
	for _, r := range s.Results {
		rows = append(rows, p.words.TieRow(r))
	}
	p.table(words.TieHeads(), rows)
	p.items("To heed with these instruments", p.words.TieHeed(s))
	return b.Flush()
}

// Walk writes what a survey says so far.
func Walk(w io.Writer, s *walk.Survey, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	if s.Name != "" {
		p.para("Plot: " + s.Name)
	}
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
