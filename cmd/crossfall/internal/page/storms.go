package page

import (
	"context"
	"fmt"
	"net/http"
	"sync"
	"time"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
)

// storms plays one storm at a time, for as long as the page is open or until it is
// stopped; whoever listens is told how far it is.
type storms struct {
	server *Server
	mu     sync.Mutex
	cancel context.CancelFunc // nil while none is played
	state  stormState
	heard  map[chan stormState]bool
	ended  chan struct{}
}

// stormState is how far a storm is.
type stormState struct {
	Playing bool    `json:"playing"`
	Years   float64 `json:"return_period_years"`
	Done    float64 `json:"done"` // share of all the runs
	Expect  string  `json:"expected"`
	Problem string  `json:"problem,omitempty"`
	// Seen are the depths of the middle run, as soon as they are there.
	Seen *stormSeen `json:"seen,omitempty"`
}

// stormSeen is a storm to be looked at: depths over squares, with the beds and
// without.
type stormSeen struct {
	Years   float64             `json:"return_period_years"`
	With    []siting.StormFrame `json:"with_beds"`
	Without []siting.StormFrame `json:"without_beds"`
	Said    []words.Item        `json:"said,omitempty"`
	Heads   []string            `json:"heads,omitempty"`
	Rows    [][]string          `json:"rows,omitempty"`
}

// stormView is the storm kept beside the plot.
type stormView struct {
	State  string       `json:"state"` // "not run", "current" or "out of date"
	Storms []stormSeen  `json:"storms"`
	Claims []words.Item `json:"claims"`
}

func (s *Server) getStorm(w http.ResponseWriter, r *http.Request) {
	plot, _, err := s.garden.read()
	if err != nil {
		fail(w, err)
		return
	}
	units, err := unitsAsked(r, geodata.Units(plot.Site.Units))
	if err != nil {
		fail(w, err)
		return
	}
	v := stormView{State: siting.StormNotRun, Storms: []stormSeen{}, Claims: []words.Item{}}
	if kept := s.opt.Kept(s.garden.folder()); kept != nil {
		said := words.Words{Units: units}
		v.State = kept.State(plot)
		v.Claims = said.StormClaims(kept)
		for _, played := range kept.Storms {
			v.Storms = append(v.Storms, stormSeen{
				Years: played.ReturnYears, With: played.Frames, Without: played.FramesWithout,
				Said: said.StormItems(played), Heads: said.StormBoardHeads(), Rows: said.StormBoardRows(played),
			})
		}
	}
	write(w, http.StatusOK, v)
}

// stormAsked names the storm to play.
type stormAsked struct {
	Years float64 `json:"return_period_years"`
}

func (s *Server) postStorm(w http.ResponseWriter, r *http.Request) {
	var k stormAsked
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	if k.Years != 2 && k.Years != 10 && k.Years != 30 {
		fail(w, fieldError{"return_period_years", "say 2, 10 or 30"})
		return
	}
	if !s.storms.begin(k.Years) {
		refuse(w, http.StatusConflict, "playing", "a storm is being played; stop it first")
		return
	}
	write(w, http.StatusAccepted, s.storms.now())
}

func (s *Server) stopStorm(w http.ResponseWriter, r *http.Request) {
	var nothing struct{}
	if err := take(r, &nothing); err != nil {
		fail(w, err)
		return
	}
	s.storms.stop()
	write(w, http.StatusOK, s.storms.now())
}

// begin starts a storm; false while another is played.
func (q *storms) begin(years float64) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	if q.cancel != nil {
		return false
	}
	ctx, cancel := context.WithCancel(context.Background())
	q.cancel, q.ended = cancel, make(chan struct{})
	q.state = stormState{Playing: true, Years: years}
	go q.play(ctx, years, q.ended)
	return true
}

// stop ends the storm that is played and waits until what was finished is kept.
func (q *storms) stop() {
	q.mu.Lock()
	cancel, ended := q.cancel, q.ended
	q.mu.Unlock()
	if cancel != nil {
		cancel()
		<-ended
	}
}

func (q *storms) now() stormState {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.state
}

// change changes the state and tells all who listen.
func (q *storms) change(do func(*stormState)) {
	q.mu.Lock()
	defer q.mu.Unlock()
	do(&q.state)
	for c := range q.heard {
		select {
		case <-c:
		default:
		}
		c <- q.state
	}
}

func (q *storms) play(ctx context.Context, years float64, ended chan struct{}) {
	defer close(ended)
	err := q.run(ctx, years)
	q.mu.Lock()
	q.cancel = nil
	q.mu.Unlock()
	q.change(func(st *stormState) {
		st.Playing = false
		if err != nil && ctx.Err() == nil {
			st.Problem = err.Error()
		}
	})
}

// run plays the storm over the plot as its files say, and keeps it beside them.
func (q *storms) run(ctx context.Context, years float64) (err error) {
	defer func() {
		if r := recover(); r != nil { // nothing else would catch it here
			err = fmt.Errorf("this is a fault in Crossfall, not in your input: %v", r)
		}
	}()
	s := q.server
	a, plot, err := s.assessed(ctx, "")
	if err != nil {
		return err
	}
	dir := s.garden.folder()
	storm, err := siting.RunStorm(ctx, plot, a, siting.StormOptions{
		Years: []float64{years}, MostCells: s.opt.StormCells,
		Expect:   func(d time.Duration) { q.change(func(st *stormState) { st.Expect = words.Lasting(d) }) },
		Progress: func(done float64) { q.change(func(st *stormState) { st.Done = done }) },
		Seen: func(y float64, with, without []siting.StormFrame) {
			q.change(func(st *stormState) { st.Seen = &stormSeen{Years: y, With: with, Without: without} })
		},
	})
	if storm == nil || len(storm.Storms) == 0 {
		return err
	}
	if kept := s.opt.Kept(dir); kept != nil {
		storm.Keep(kept)
	}
	if errKeep := s.opt.Keep(dir, storm); errKeep != nil {
		return errKeep
	}
	s.garden.tell()
	return err
}

// streamStorm tells how far the storm is, until it ends or the device goes.
func (s *Server) streamStorm(w http.ResponseWriter, r *http.Request) {
	c := make(chan stormState, 1)
	q := &s.storms
	q.mu.Lock()
	if q.heard == nil {
		q.heard = map[chan stormState]bool{}
	}
	q.heard[c] = true
	state := q.state
	q.mu.Unlock()
	defer func() {
		q.mu.Lock()
		defer q.mu.Unlock()
		delete(q.heard, c)
	}()
	e := newEvents(w)
	tick := time.NewTicker(beatEvery)
	defer tick.Stop()
	seen := false
	for {
		told := state
		if seen {
			told.Seen = nil // the depths are sent once
		}
		seen = seen || state.Seen != nil
		if e.send("storm", told) != nil || !state.Playing {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case state = <-c:
		case <-tick.C:
			if e.beat() != nil {
				return
			}
		}
	}
}
