// Package page serves the local page: the same engine as the commands, on a
// laptop and on a phone in the garden.
//
// The files of the plot folder stay the truth. The page reads them, appends
// readings to them one by one, and changes them only when asked to; nothing of a
// plot is kept here but what can be worked out from its files again.
package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/http"

	"crossfall/geodata"
	"crossfall/siting"
)

//go:embed front
var frontFiles embed.FS

// Options says what is served.
type Options struct {
	// Plot is the plot folder, or the folder that plots are made in.
	Plot    string
	Version string
	// Begin makes a new plot folder with a name and units, "m" or "ft".
	Begin func(dir, name string, units geodata.Units) error
	// Example makes the example plot in a new folder.
	Example func(dir string) error
	// Made gives the date of a plot's input and the program's version for what is
	// printed; nil for neither.
	Made func(dir string) (date, version string)
	// Kept is the storm kept beside a plot, nil without; Keep puts one there.
	Kept func(dir string) *siting.Storm
	Keep func(dir string, storm *siting.Storm) error
	// StormCells is the greatest number of cells that a storm is played on; 0: as
	// many as the engine takes of itself.
	StormCells int
	// Code gives a code to be keyed in on another device; nil on a page that only
	// this machine can reach.
	Code *Code
	// OwnOpen lets this machine itself in without the code.
	OwnOpen bool
	// Hosts are the names and addresses, each with its port, that the page
	// answers to.
	Hosts []string
}

// Server serves one plot folder. It is safe for many requests at once.
type Server struct {
	opt     Options
	garden  *garden
	storms  storms
	handler http.Handler
}

// New makes a server. The error is that of the folder.
func New(opt Options) (*Server, error) {
	if opt.Plot == "" {
		return nil, errors.New("no plot folder was named")
	}
	shell, err := fs.Sub(frontFiles, "front")
	if err != nil {
		return nil, fmt.Errorf("read the page's own files: %w", err)
	}
	s := &Server{opt: opt, garden: newGarden(opt.Plot)}
	s.storms.server = s
	mux := http.NewServeMux()
	s.routes(mux, shell)
	s.handler = s.guard(mux)
	return s, nil
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// Close ends what still runs.
func (s *Server) Close() { s.storms.stop() }

// routes are the addresses of the page. Whatever changes something is a POST.
func (s *Server) routes(mux *http.ServeMux, shell fs.FS) {
	mux.Handle("GET /", static(shell, s.opt.Version))
	mux.HandleFunc("GET /api/openapi.json", s.contract)
	mux.HandleFunc("GET /api/plot", s.getPlot)
	mux.HandleFunc("POST /api/begin", s.begin)
	mux.HandleFunc("GET /api/survey", s.getSurvey)
	mux.HandleFunc("POST /api/readings", s.postReading)
	mux.HandleFunc("POST /api/levels", s.postLevel)
	mux.HandleFunc("POST /api/ties", s.postTie)
	mux.HandleFunc("POST /api/undo", s.undo)
	mux.HandleFunc("POST /api/site", s.postSite)
	mux.HandleFunc("POST /api/features", s.postFeatures)
	mux.HandleFunc("POST /api/acknowledge", s.acknowledge)
	mux.HandleFunc("GET /api/ground", s.getGround)
	mux.HandleFunc("GET /api/assessment", s.streamAssessment)
	mux.HandleFunc("POST /api/try", s.try)
	mux.HandleFunc("POST /api/beds", s.postBeds)
	mux.HandleFunc("GET /api/done", s.getDone)
	mux.HandleFunc("POST /api/done", s.postDone)
	mux.HandleFunc("GET /api/storm", s.getStorm)
	mux.HandleFunc("POST /api/storm", s.postStorm)
	mux.HandleFunc("POST /api/storm/stop", s.stopStorm)
	mux.HandleFunc("GET /api/storm/events", s.streamStorm)
	mux.HandleFunc("GET /api/changes", s.streamChanges)
	mux.HandleFunc("GET /report", s.getReport)
	mux.HandleFunc("GET /plan.svg", s.getPlan)
	mux.HandleFunc("GET /code", s.askCode)
	mux.HandleFunc("POST /code", s.takeCode)
}

// Sweep watches the folder until ctx ends, so that a change made elsewhere is
// told to every open page.
func (s *Server) Sweep(ctx context.Context) { s.garden.watch(ctx) }
