package page

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"time"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
)

// garden is the plot folder as this server knows it: what was last read, and who
// wants to hear of changes. The files are the truth; this only saves reading
// them again.
type garden struct {
	dir string

	writing sync.Mutex // held by whoever changes files

	mu      sync.Mutex
	print   string        // fingerprint of plot
	plot    *geodata.Plot // nil when it cannot be read
	err     error         // why
	heard   map[chan string]bool
	memory  siting.Memory
	current string // the revision last told of
}

func newGarden(dir string) *garden { return &garden{dir: dir, heard: map[chan string]bool{}} }

// folder is where the plot lies now; another one takes its place when a new plot
// is begun.
func (g *garden) folder() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.dir
}

// move goes on with another folder.
func (g *garden) move(dir string) {
	g.mu.Lock()
	g.dir, g.print, g.plot, g.err = dir, "", nil, nil
	g.mu.Unlock()
	g.tell()
}

// revision names the state of the plot's files.
func (g *garden) revision() string {
	print, err := plotfolder.Fingerprint(g.folder())
	if err != nil {
		return ""
	}
	return print
}

// read is the plot as its files say, with their revision. The plot is shared and
// must not be changed.
func (g *garden) read() (*geodata.Plot, string, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	print, err := plotfolder.Fingerprint(g.dir)
	if err != nil {
		return nil, "", err
	}
	if print != g.print {
		g.plot, g.err = plotfolder.Read(g.dir, plotfolder.Options{})
		g.print = print
	}
	return g.plot, g.print, g.err
}

// isPlot tells whether the folder holds a plot's files, even if nothing can be
// told of them yet.
func isPlot(dir string) bool {
	for _, name := range []string{"site.toml", "heights.csv", "features.csv", "plot.geojson", "levels.csv"} {
		if info, err := os.Stat(filepath.Join(dir, name)); err == nil && info.Mode().IsRegular() {
			return true
		}
	}
	entries, err := filepath.Glob(filepath.Join(dir, "heights.*"))
	return err == nil && len(entries) > 0
}

// change runs one change of the files and tells every open page. Changes are
// made one after another.
func (g *garden) change(do func(dir string) error) error {
	g.writing.Lock()
	defer g.writing.Unlock()
	err := do(g.folder())
	g.tell()
	return err
}

// listen gives a channel on which new revisions arrive, and what ends it.
func (g *garden) listen() (<-chan string, func()) {
	c := make(chan string, 1)
	g.mu.Lock()
	defer g.mu.Unlock()
	g.heard[c] = true
	return c, func() {
		g.mu.Lock()
		defer g.mu.Unlock()
		delete(g.heard, c)
	}
}

// tell tells all who listen of the revision, if it is another than before.
func (g *garden) tell() {
	now := g.revision()
	g.mu.Lock()
	defer g.mu.Unlock()
	if now == g.current {
		return
	}
	g.current = now
	for c := range g.heard {
		select {
		case <-c: // one that was not fetched is out of date
		default:
		}
		c <- now
	}
}

// lookEvery is how often the files are looked at for changes made elsewhere.
const lookEvery = time.Second

func (g *garden) watch(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			g.tell()
		}
	}
}
