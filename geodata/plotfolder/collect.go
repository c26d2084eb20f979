package plotfolder

import (
	"fmt"

	"crossfall/geodata"
)

// mostFaults is the number of problems that are kept; the rest are counted.
const mostFaults = 200

// collector gathers faults of all readers.
type collector struct {
	faults   geodata.Faults
	problems int
	last     geodata.Pos // of the last problem that was not kept
}

// add keeps a fault.
func (c *collector) add(f geodata.Fault) {
	if f.Severity == geodata.Problem {
		c.problems++
		if c.problems > mostFaults {
			c.last = f.Pos
			return
		}
	}
	c.faults.Add(f)
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
	out.Sort()
	return out
}
