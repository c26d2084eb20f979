package report

import (
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting/plan"
)

// document is the whole report in its order. The page and the PDF are both
// written from it, so that no sentence stands in two places.
type document struct {
	Name, Date string
	Said       string // what all this is, for the properties of a file
	Frame      []string
	Parts      []part
}

// part is a chapter with a heading of its own.
type part struct {
	ID, Title string
	Page      bool // starts a sheet of paper of its own
	Summary   bool // stands on the sheets at the front
	Dense     bool // in smaller type on paper, to keep to its sheet
	Blocks    []block
}

// block is one thing to read or look at; one of its fields is filled.
type block struct {
	Heading string // under the part's
	Text    string
	Lead    []string // what to do, in a frame
	Items   []words.Item
	List    []string
	Steps   []string // a numbered list
	Table   *table
	Caution *words.Caution
	Figure  *figure
	Row     []figure   // small ones side by side
	Columns *[2]column // side by side where there is room
}

// column is one of two that belong side by side.
type column struct {
	Heading string
	Blocks  []block
}

// table is a table of texts; the first of a row is its head.
type table struct {
	Label   string // what it is, for those who cannot see it
	Caption string
	Heads   []string
	Rows    [][]string
	Fine    bool // in smaller type
}

// figure is a drawing with what is said under it.
type figure struct {
	plan.Figure
	Name    string // tells it from the others of the report
	Caption string
	Sheet   bool // a sheet of paper of its own
	// Key stands for such a sheet among the text on paper, where so many mm are left.
	Key func(room float64) (plan.Figure, error)
}

// The parts of a part that has something to say, in short.

func heading(t string) block { return block{Heading: t} }

// titled is a heading with what stands under it; nothing where that is empty.
func titled(t string, under ...block) []block {
	var full []block
	for _, b := range under {
		if !b.empty() {
			full = append(full, b)
		}
	}
	if len(full) == 0 {
		return nil
	}
	return append([]block{heading(t)}, full...)
}

// empty tells whether nothing would be shown.
func (b block) empty() bool {
	return b.Heading == "" && b.Text == "" && len(b.Lead)+len(b.Items)+len(b.List)+len(b.Steps)+len(b.Row) == 0 && b.Columns == nil &&
		(b.Table == nil || len(b.Table.Rows) == 0) && b.Caution == nil && b.Figure == nil
}

func grid(label string, heads []string, rows [][]string) block {
	return block{Table: &table{Label: label, Heads: heads, Rows: rows}}
}

// texts are paragraphs.
func texts(all []string) []block {
	var out []block
	for _, t := range all {
		out = append(out, block{Text: t})
	}
	return out
}
