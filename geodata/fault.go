package geodata

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is where something was read: file, line and column, both from 1.
// A zero Line or Col means that the place is the whole file or row.
type Pos struct {
	File string `json:"file"`
	Line int    `json:"line,omitempty"`
	Col  int    `json:"column,omitempty"`
}

// String gives file:line:column, leaving out what is not known.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Severity says what a fault does to the work: a Problem stops it, a Warning
// is told beside the result, a Note informs.
type Severity uint8

// The severities, gravest first.
const (
	Problem Severity = iota
	Warning
	Note
)

// String names the severity in one word.
func (s Severity) String() string {
	return [...]string{"problem", "warning", "note"}[min(s, Note)]
}

// MarshalText writes the severity's word.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Fault is one thing wrong with the input.
type Fault struct {
	Code     string   `json:"code"` // stable, such as "boundary-crosses-itself"; tests match on it
	Severity Severity `json:"severity"`
	Pos      Pos      `json:"at"`
	Read     string   `json:"read,omitempty"` // the text that was read, as it stood
	Message  string   `json:"message"`        // what is wrong, in the reader's words
	Want     string   `json:"want,omitempty"` // what would be right
}

// Error gives the fault on one line.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.Pos.String())
	b.WriteString(": ")
	b.WriteString(f.Message)
	if f.Read != "" {
		fmt.Fprintf(&b, " (read %q)", f.Read)
	}
	if f.Want != "" {
		b.WriteString("; ")
		b.WriteString(f.Want)
	}
	return b.String()
}

// Faults gathers faults while reading goes on. The zero value is ready to use.
type Faults []Fault

// Add appends one fault.
func (fs *Faults) Add(f Fault) { *fs = append(*fs, f) }

// Problems counts the faults that stop the work.
func (fs Faults) Problems() int {
	n := 0
	for _, f := range fs {
		if f.Severity == Problem {
			n++
		}
	}
	return n
}

// Sort orders faults by file, line, column, severity and text, so that the
// same input gives the same list whatever order the readers ran in.
func (fs Faults) Sort() {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(
			cmp.Compare(a.Pos.File, b.Pos.File),
			cmp.Compare(a.Pos.Line, b.Pos.Line),
			cmp.Compare(a.Pos.Col, b.Pos.Col),
			cmp.Compare(a.Severity, b.Severity),
			cmp.Compare(a.Message, b.Message),
			cmp.Compare(a.Read, b.Read),
		)
	})
}

// Err is nil unless a Problem is among the faults; then it is the faults.
func (fs Faults) Err() error {
	if fs.Problems() == 0 {
		return nil
	}
	return fs
}

// Error gives every fault on its own line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find a single Fault.
func (fs Faults) Unwrap() []error {
	errs := make([]error, len(fs))
	for i, f := range fs {
		errs[i] = f
	}
	return errs
}
