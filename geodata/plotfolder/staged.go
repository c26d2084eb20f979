package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Staged is a set of files that are put in place together: each is first written
// under a passing name beside its own and flushed, and Commit then renames all of
// them, or none. The zero value is ready; Discard it when done.
type Staged struct {
	// Before is the folder in which what stands in the way of files added from now
	// on is kept, those of one version; empty: it is not kept.
	Before  string
	changes []change
}

// change is one file to be put in place, or taken away.
type change struct {
	final  string
	temp   string // its new content under a passing name; empty: the file is taken away
	aside  string // what stood there, under a passing name; empty: nothing did
	before string // folder in which to keep that; empty: it is not kept
}

// Add stages content for path, whose folder must exist. A link is refused with
// ErrLink, and so is what is no file; other errors are the system's, with the path.
func (s *Staged) Add(path string, content []byte) error {
	mode := fs.FileMode(plainMode)
	info, err := os.Lstat(path)
	switch {
	case err == nil && info.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("cannot write %s: %w", path, ErrLink)
	case err == nil && !info.Mode().IsRegular(): // what stands in a pipe cannot be kept
		return fmt.Errorf("cannot write %s: it is not a plain file", path)
	case err == nil:
		mode = info.Mode().Perm()
	}
	temp, err := writePassing(path, content, mode)
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, withoutName(err))
	}
	s.changes = append(s.changes, change{final: path, temp: temp, before: s.Before})
	return nil
}

// TakeAway stages that path is taken away, if it is there.
func (s *Staged) TakeAway(path string) {
	s.changes = append(s.changes, change{final: path, before: s.Before})
}

// Commit puts all staged files in place. When that fails for one, those before it
// are put back as they were, and nothing stays staged. A power cut between two of them can leave some new and
// some old, each of them whole.
func (s *Staged) Commit() error {
	defer s.Discard()
	defer s.tidy()
	if err := s.standing(); err != nil {
		return err
	}
	for i, c := range s.changes {
		if err := c.put(); err != nil {
			return errors.Join(fmt.Errorf("cannot write %s: %w", c.final, err), s.undo(i))
		}
	}
	kept := s.keep()
	for i := range s.changes {
		s.changes[i].temp = "" // it has its name
		if i == 0 || filepath.Dir(s.changes[i].final) != filepath.Dir(s.changes[i-1].final) {
			flushFolder(filepath.Dir(s.changes[i].final))
		}
	}
	return kept
}

// standing copies what stands in the way of the changes, and makes the folder of
// the version before.
func (s *Staged) standing() error {
	for i, c := range s.changes {
		was, err := os.ReadFile(c.final)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err == nil {
			s.changes[i].aside, err = writePassing(c.final, was, plainMode)
		}
		if err != nil {
			return fmt.Errorf("cannot keep what %s is now: %w", c.final, withoutName(err))
		}
	}
	for _, c := range s.changes {
		if c.before == "" {
			continue
		}
		if err := os.Mkdir(c.before, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("cannot make %s: %w", c.before, withoutName(err))
		}
	}
	return nil
}

// tidy removes folders of the version before that hold nothing.
func (s *Staged) tidy() {
	for _, c := range s.changes {
		if c.before != "" {
			_ = os.Remove(c.before) // stays when anything is in it
		}
	}
}

// put makes one change.
func (c change) put() error {
	switch {
	case c.temp != "":
		return os.Rename(c.temp, c.final)
	case c.aside != "":
		return os.Remove(c.final)
	}
	return nil
}

// undo puts the first n files back as they were.
func (s *Staged) undo(n int) (err error) {
	for i := n - 1; i >= 0; i-- {
		c := s.changes[i]
		switch {
		case c.aside != "":
			err = errors.Join(err, os.Rename(c.aside, c.final))
		case c.temp != "":
			err = errors.Join(err, os.Remove(c.final))
		}
	}
	return err
}

// keep moves what stood into the folders of the version before, and takes away what
// is older there.
func (s *Staged) keep() (err error) {
	for i, c := range s.changes {
		if c.before == "" {
			continue
		}
		kept := filepath.Join(c.before, filepath.Base(c.final))
		if c.aside != "" {
			err = errors.Join(err, os.Rename(c.aside, kept))
			s.changes[i].aside = "" // nothing more is done with it, come what may
		} else if gone := os.Remove(kept); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}
	return err
}

// Discard removes what Commit has not put in place; after it, it does nothing.
func (s *Staged) Discard() {
	for _, c := range s.changes {
		for _, name := range []string{c.temp, c.aside} {
			if name != "" {
				_ = os.Remove(name) // a passing file that is gone is no loss
			}
		}
	}
	s.changes = nil
}

// withoutName is the system's reason without the passing name that it was about.
func withoutName(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
