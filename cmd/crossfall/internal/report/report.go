// Package report writes an Assessment as a report to print and build from: as
// one self-contained HTML page, which asks nothing of a network and needs no
// script, and as a PDF. Both show one document, put together once; it computes
// nothing.
package report

import (
	"fmt"
	"io"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// Options for the report; the zero value works.
type Options struct {
	Units   geodata.Units // "m" (default) or "ft"
	Paper   string        // of the plan, "A4" or "A3"; default as plan.Lay chooses
	Page    string        // of the PDF's other pages, "A4" (default) or "Letter"
	Date    string        // of the input, printed as given; default none
	Version string        // of the program, printed as given; default none
}

func (o Options) plan() plan.Options {
	return plan.Options{Units: o.Units, Paper: o.Paper, Date: o.Date, Version: o.Version}
}

// Write writes the whole report as an HTML page.
func Write(w io.Writer, a *siting.Assessment, opt Options) error {
	d, err := compose(a, opt)
	if err != nil {
		return fmt.Errorf("put the report together: %w", err)
	}
	return writePage(w, d)
}
