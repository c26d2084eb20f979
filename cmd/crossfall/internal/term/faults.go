package term

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"crossfall/geodata"
)

// mostFaults is how many faults are shown at once; a default of ours.
const mostFaults = 20

// Faults writes what is wrong with the input, up to most faults (0: 20), each
// in two parts: the place and what is wrong, then what was read and what would
// be right. The last line gives the totals. Lines are of the default width and
// without colour.
func Faults(w io.Writer, fs geodata.Faults, most int) error {
	if most <= 0 {
		most = mostFaults
	}
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: defaultWidth}
	for _, f := range fs[:min(most, len(fs))] {
		p.fault(f)
	}
	p.para(totals(fs, most))
	return b.Flush()
}

// fault is one fault in two parts.
func (p *printer) fault(f geodata.Fault) {
	mark := bold
	if f.Severity == geodata.Problem {
		mark = red
	}
	if place := f.Pos.String(); place != "" {
		p.hanging(f.Severity.String()+": ", "  ", place+": "+f.Message, mark)
	} else {
		p.hanging(f.Severity.String()+": ", "  ", f.Message, mark)
	}
	var second []string
	if f.Read != "" {
		second = append(second, fmt.Sprintf("read %q", f.Read))
	}
	if f.Want != "" {
		second = append(second, f.Want)
	}
	if len(second) > 0 {
		p.hanging("  ", "  ", strings.Join(second, "; "), "")
	}
}

// totals counts the faults by severity.
func totals(fs geodata.Faults, most int) string {
	if len(fs) == 0 {
		return "Nothing wrong was found."
	}
	var parts []string
	for _, s := range []geodata.Severity{geodata.Problem, geodata.Warning, geodata.Note} {
		n := 0
		for _, f := range fs {
			if f.Severity == s {
				n++
			}
		}
		if n == 1 {
			parts = append(parts, "1 "+s.String())
		} else if n > 1 {
			parts = append(parts, fmt.Sprintf("%d %ss", n, s))
		}
	}
	t := strings.Join(parts, ", ")
	if len(fs) > most {
		t += fmt.Sprintf("; the first %d are shown", most)
	}
	return t + "."
}
