package page

import (
	"context"
	"fmt"
	"net/http"
	"time"
)

// events sends server-sent events, as the HTML standard describes them.
type events struct {
	w http.ResponseWriter
	c *http.ResponseController
}

func newEvents(w http.ResponseWriter) events {
	h := w.Header()
	h.Set("Content-Type", "text/event-stream; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	e := events{w: w, c: http.NewResponseController(w)}
	_ = e.c.Flush() // so that the other side knows that it is heard
	return e
}

// send sends one event; an error means that nobody listens any more.
func (e events) send(name string, v any) error {
	text, err := jsonText(v)
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(e.w, "event: %s\ndata: %s\n\n", name, text); err != nil {
		return err
	}
	return e.c.Flush()
}

// beat keeps a quiet connection open through whatever stands between.
func (e events) beat() error {
	if _, err := fmt.Fprint(e.w, ": still here\n\n"); err != nil {
		return err
	}
	return e.c.Flush()
}

// beatEvery is how often.
const beatEvery = 20 * time.Second

// streamChanges tells of every change of the plot's files, until the device goes.
func (s *Server) streamChanges(w http.ResponseWriter, r *http.Request) {
	changed, done := s.garden.listen()
	defer done()
	e := newEvents(w)
	if e.send("revision", map[string]string{"revision": s.garden.revision()}) != nil {
		return
	}
	tick := time.NewTicker(beatEvery)
	defer tick.Stop()
	for forward(r.Context(), changed, tick.C, e) {
	}
}

// forward waits for one thing to tell; false ends.
func forward(ctx context.Context, changed <-chan string, tick <-chan time.Time, e events) bool {
	select {
	case <-ctx.Done():
		return false
	case revision := <-changed:
		return e.send("revision", map[string]string{"revision": revision}) == nil
	case <-tick:
		return e.beat() == nil
	}
}
