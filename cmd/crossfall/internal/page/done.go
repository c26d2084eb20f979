package page

import (
	"encoding/json"
	"errors"
	"io/fs"
	"net/http"
	"path/filepath"

	"crossfall/geodata/plotfolder"
)

// doneFile holds the steps of building that were ticked off, beside the plot.
const doneFile = "done.json"

// mostSteps is the greatest number of ticks that are kept.
const mostSteps = 5000

// tick is one step ticked off, or back on.
type tick struct {
	Step string `json:"step"`
	Done bool   `json:"done"`
}

func donePath(dir string) string { return filepath.Join(dir, ".crossfall", doneFile) }

// readDone are the steps that are done.
func readDone(dir string) (map[string]bool, error) {
	text, err := plotfolder.ReadKept(donePath(dir))
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]bool{}, nil
	}
	done := map[string]bool{}
	if err == nil {
		err = json.Unmarshal(text, &done)
	}
	return done, err
}

func (s *Server) getDone(w http.ResponseWriter, r *http.Request) {
	done, err := readDone(s.garden.folder())
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, done)
}

func (s *Server) postDone(w http.ResponseWriter, r *http.Request) {
	var t tick
	if err := take(r, &t); err != nil {
		fail(w, err)
		return
	}
	if t.Step == "" || len(t.Step) > 300 {
		fail(w, fieldError{"step", "name the step"})
		return
	}
	var done map[string]bool
	err := s.garden.change(func(dir string) (err error) {
		if done, err = readDone(dir); err != nil {
			return err
		}
		delete(done, t.Step)
		if t.Done {
			if len(done) >= mostSteps {
				return fieldError{"step", "too many steps are ticked off"}
			}
			done[t.Step] = true
		}
		text, err := json.MarshalIndent(done, "", "  ") // in order of the keys
		if err != nil {
			return err
		}
		return plotfolder.WriteKept(donePath(dir), append(text, '\n'))
	})
	if err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, done)
}
