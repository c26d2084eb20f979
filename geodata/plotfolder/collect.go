package plotfolder

import (
	"fmt"
	"strings"

	"crossfall/geodata"
)

const (
	mostFaults = 200 // problems that are kept, and warnings or notes of one code; the rest are counted
	mostRead   = 200 // bytes that are kept of what was read
)

// collector gathers faults of all readers.
type collector struct {
	faults   geodata.Faults
	problems int
	last     geodata.Pos          // of the last problem that was not kept
	milder   map[string]milderOne // warnings and notes, by their code
	likely   map[string]string    // names that are not known, with the property nearest to each; empty without one
}

// milderOne counts the warnings or notes of one code.
type milderOne struct {
	n     int
	first geodata.Fault // that was not kept
}

// add keeps a fault.
func (c *collector) add(f geodata.Fault) {
	f.Read = shortened(f.Read)
	if f.Severity != geodata.Problem {
		c.addMilder(f)
		return
	}
	if c.problems++; c.problems > mostFaults {
		c.last = f.Pos
		return
	}
	c.faults.Add(f)
}

func (c *collector) addMilder(f geodata.Fault) {
	if c.milder == nil {
		c.milder = map[string]milderOne{}
	}
	m := c.milder[f.Code]
	m.n++
	switch {
	case m.n <= mostFaults:
		c.faults.Add(f)
	case m.n == mostFaults+1:
		m.first = f
	}
	c.milder[f.Code] = m
}

// shortened keeps a line of a million letters out of a message.
func shortened(text string) string {
	if len(text) <= mostRead {
		return text
	}
	return strings.ToValidUTF8(text[:mostRead], "") + "..."
}

func (c *collector) addAll(fs geodata.Faults) {
	for _, f := range fs {
		c.add(f)
	}
}

// problem adds what stops the work.
func (c *collector) problem(pos geodata.Pos, code, read, message, want string) {
	c.add(geodata.Fault{Code: code, Pos: pos, Read: read, Message: message, Want: want})
}

// warn adds what is to be told beside the result.
func (c *collector) warn(pos geodata.Pos, code, read, message, want string) {
	c.add(geodata.Fault{Code: code, Severity: geodata.Warning, Pos: pos, Read: read, Message: message, Want: want})
}

// note adds what a person must know.
func (c *collector) note(pos geodata.Pos, code, message string) {
	c.add(geodata.Fault{Code: code, Severity: geodata.Note, Pos: pos, Message: message})
}

// err is every problem and warning in order.
func (c *collector) err() error {
	out := c.graver(geodata.Warning)
	if more := c.problems - mostFaults; more > 0 {
		out.Add(geodata.Fault{
			Code: "more-faults", Pos: geodata.Pos{File: c.last.File},
			Message: fmt.Sprintf("%d more faults are not listed", more),
			Want:    "mend those above and read the plot again",
		})
	}
	return out.Err()
}

// notes is every warning and note in order.
func (c *collector) notes() geodata.Faults { return c.graver(geodata.Note) }

// graver sorts the faults of a severity and graver.
func (c *collector) graver(least geodata.Severity) geodata.Faults {
	var out geodata.Faults
	for _, f := range c.faults {
		if f.Severity <= least {
			out.Add(f)
		}
	}
	for _, m := range c.milder {
		if more := m.n - mostFaults; more > 0 && m.first.Severity <= least {
			f := m.first
			f.Message = fmt.Sprintf("%s (and %d more like it, which are not listed)", f.Message, more-1)
			out.Add(f)
		}
	}
	out.Sort()
	return out
}
