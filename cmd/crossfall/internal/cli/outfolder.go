package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
)

// beforeFolder is the folder within that of --out that keeps the set before.
const beforeFolder = "before"

// checkOut says whether the files of --out may be written into dir, before any work
// is done for them: dir is a folder or can be made, and what would be written over
// is an earlier set and not something that a person put there.
func checkOut(dir, plot string) error {
	doing := "cannot write into " + dir
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		parent := filepath.Dir(filepath.Clean(dir))
		if err := checkFolder(parent, doing); err != nil {
			return err
		}
		return writable(parent, doing)
	case err != nil:
		return fmt.Errorf("%s: %w", doing, reasonOf(err))
	case !info.IsDir():
		return fmt.Errorf("%s: it is a file; give the name of a folder", doing)
	}
	if err := checkSet(dir, plot); err != nil {
		return err
	}
	if info, err := os.Stat(filepath.Join(dir, beforeFolder)); err == nil && !info.IsDir() {
		return fmt.Errorf("%s: %s in it is a file, and the files before are kept in a folder of that name", doing, beforeFolder)
	}
	return writable(dir, doing)
}

// checkSet looks at what stands in dir under the names of a set.
func checkSet(dir, plot string) error {
	input, errInput := os.Stat(plot)
	ours := holdsSet(dir)
	for _, name := range export.Names() {
		path := filepath.Join(dir, name)
		info, err := os.Lstat(path)
		if err != nil {
			continue
		}
		switch {
		case errInput == nil && os.SameFile(info, input):
			return fmt.Errorf("cannot write into %s: %s in it is what is to be assessed; give another folder", dir, name)
		case !ours:
			return fmt.Errorf("cannot write into %s: it holds %s, which is of no earlier answer; give another folder, or move it away", dir, name)
		}
		if err := checkTarget(path); err != nil {
			return err
		}
	}
	return nil
}

// holdsSet tells whether dir holds an earlier set: its assessment.json says which
// shape it has.
func holdsSet(dir string) bool {
	content, err := plotfolder.ReadKept(filepath.Join(dir, export.AssessmentFile))
	var a struct {
		SchemaVersion int `json:"schema_version"`
	}
	return err == nil && json.Unmarshal(content, &a) == nil && a.SchemaVersion > 0
}

// writable tries whether a file can be made in dir.
func writable(dir, doing string) error {
	f, err := os.CreateTemp(dir, ".crossfall-*")
	if err != nil {
		return fmt.Errorf("%s: %w", doing, reasonOf(err))
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// reasonOf is the system's reason without the passing name that it was about.
func reasonOf(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// outFolder is the folder of --out while its files are staged.
type outFolder struct {
	dir   string
	made  bool     // by this run, and removed again when nothing comes into it
	names []string // of the files that are written
}

// tell says what was written, and what was left out and why.
func (o *outFolder) tell(w io.Writer, leftOut []string) {
	if o.dir == "" {
		return
	}
	fmt.Fprintf(w, "crossfall: wrote into %s: %s\n", o.dir, strings.Join(o.names, ", "))
	for _, t := range leftOut {
		fmt.Fprintf(w, "crossfall: %s\n", t)
	}
}

// prepare makes the whole set of an assessment and stages it; nothing without a folder.
func (o *outFolder) prepare(all *plotfolder.Staged, a *siting.Assessment, made export.Made) (leftOut []string, err error) {
	if o.dir == "" {
		return nil, nil
	}
	files, leftOut, err := export.Set(a, made)
	if err != nil {
		return nil, err
	}
	return leftOut, o.stage(all, files)
}

// stage writes the files under passing names; those of an earlier set that are not
// made any more are taken away with it.
func (o *outFolder) stage(all *plotfolder.Staged, files []export.File) error {
	err := os.Mkdir(o.dir, 0o755)
	o.made = err == nil
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("cannot make %s: %w", o.dir, reasonOf(err))
	}
	all.Before = filepath.Join(o.dir, beforeFolder)
	for _, f := range files {
		if err := all.Add(filepath.Join(o.dir, f.Name), f.Content); err != nil {
			return err
		}
		o.names = append(o.names, f.Name)
	}
	for _, name := range export.Names() {
		if !slices.Contains(o.names, name) {
			all.TakeAway(filepath.Join(o.dir, name))
		}
	}
	return nil
}

// discard leaves no folder behind that nothing came into.
func (o *outFolder) discard() {
	if o.made {
		_ = os.Remove(o.dir) // stays when anything is in it
	}
}
