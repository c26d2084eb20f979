package page

import (
	"bytes"
	"cmp"
	_ "embed"
	"errors"
	"io"
	"net/http"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
)

//go:embed openapi.json
var contractText []byte

// contract serves the description of everything under /api/.
func (s *Server) contract(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	_, _ = w.Write(contractText)
}

// onPaper serves what is made for printing.
func (s *Server) onPaper(w http.ResponseWriter, r *http.Request, kind string, draw func(io.Writer, *siting.Assessment, geodata.Units) error) {
	units, err := unitsAsked(r, "")
	if err != nil {
		fail(w, err)
		return
	}
	a, plot, err := s.assessed(r.Context(), units)
	if err != nil {
		fail(w, err)
		return
	}
	units = cmp.Or(units, geodata.Units(plot.Site.Units))
	var b bytes.Buffer
	if err := draw(&b, a, units); err != nil {
		if errors.Is(err, plan.ErrNothingToDraw) {
			refuse(w, http.StatusNotFound, "nothing-to-draw", err.Error())
			return
		}
		fail(w, err)
		return
	}
	w.Header().Set("Content-Security-Policy", paperPolicy)
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes())
}

func (s *Server) getReport(w http.ResponseWriter, r *http.Request) {
	s.onPaper(w, r, "text/html; charset=utf-8", func(out io.Writer, a *siting.Assessment, units geodata.Units) error {
		date, version := s.made()
		return report.Write(out, a, report.Options{Units: units, Date: date, Version: version})
	})
}

func (s *Server) getPlan(w http.ResponseWriter, r *http.Request) {
	s.onPaper(w, r, "image/svg+xml", func(out io.Writer, a *siting.Assessment, units geodata.Units) error {
		date, version := s.made()
		return plan.SVG(out, a, plan.Options{Units: units, Date: date, Version: version})
	})
}

// made is what stands on paper about where it comes from.
func (s *Server) made() (date, version string) {
	if s.opt.Made == nil {
		return "", ""
	}
	return s.opt.Made(s.garden.folder())
}
