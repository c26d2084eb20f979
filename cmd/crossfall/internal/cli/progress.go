package cli

import (
	"fmt"
	"io"
	"time"
)

// redraw is the least time between two drawings of the progress line.
const redraw = 100 * time.Millisecond

// progress is one line on a terminal that says how far the work is. On
// anything but a terminal it is silent.
type progress struct {
	w     io.Writer // nil: silent
	last  time.Time
	drawn bool
}

func newProgress(s Streams) *progress {
	if !isTerminal(s.Err) || s.env("TERM") == "dumb" {
		return &progress{}
	}
	return &progress{w: s.Err}
}

// show draws a stage, at most ten times a second.
func (p *progress) show(stage string, done, total int64) {
	if p.w == nil || time.Since(p.last) < redraw {
		return
	}
	p.last, p.drawn = time.Now(), true
	if total > 0 {
		fmt.Fprintf(p.w, "\r\x1b[K%s %d %%", stage, 100*done/total)
		return
	}
	fmt.Fprintf(p.w, "\r\x1b[K%s", stage)
}

// clear takes the line away.
func (p *progress) clear() {
	if p.drawn {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
