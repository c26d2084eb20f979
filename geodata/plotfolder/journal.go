package plotfolder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/geodata"
)

// The journal of readings that came with an id. It stands in the plot folder
// beside what a person wrote and only remembers which ids were dealt with; the
// readings themselves are in the tables.
const (
	ownFolder   = ".crossfall"
	journalFile = "readings.jsonl"
)

// record is one line of the journal. The first of an id says what will be
// appended and where, the later ones what became of it.
type record struct {
	ID     string `json:"id"`
	File   string `json:"file,omitempty"`
	Offset int64  `json:"offset,omitempty"` // bytes; where the row begins
	Row    string `json:"row,omitempty"`    // one line, or two; without the last line end

	Done  bool   `json:"done,omitempty"`  // the row stands in the file
	Void  bool   `json:"void,omitempty"`  // nothing of the row came into the file
	After string `json:"after,omitempty"` // fingerprint of the file's bytes once the row is taken out of it
	Taken bool   `json:"taken,omitempty"` // the row was taken out
}

// entry is what the journal says of one reading.
type entry struct {
	record
	standing
}

// standing is how far a reading has come.
type standing uint8

const (
	intended standing = iota // its row may be in the file
	done
	taking // its row may be out of the file again
	taken
)

// journal is the journal as it was read.
type journal struct {
	dir     string
	entries []*entry // in the order of booking
	byID    map[string]*entry
	whole   int64 // bytes of whole lines; what stands behind them was cut off by a loss of power
}

func (j *journal) path() string { return filepath.Join(j.dir, ownFolder, journalFile) }

// openJournal reads the journal of a plot folder. A last line without its end was
// torn and counts for nothing: what it was to tell of had not been begun, or is
// seen from the files. A line that is no record is passed over.
func openJournal(dir string) (*journal, error) {
	j := &journal{dir: dir, byID: map[string]*entry{}}
	for _, path := range []string{filepath.Join(dir, ownFolder), j.path()} {
		if info, err := os.Lstat(path); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return nil, fmt.Errorf("read %s: %w", filepath.Base(path), ErrLink)
		}
	}
	data, err := readAtMost(j.path(), geodata.MostFileBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return j, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %s", journalFile, reason(err))
	}
	j.whole = int64(bytes.LastIndexByte(data, '\n') + 1)
	for line := range bytes.Lines(data[:j.whole]) {
		var r record
		if json.Unmarshal(line, &r) == nil {
			j.take(r)
		}
	}
	return j, nil
}

// take brings one record into the entries.
func (j *journal) take(r record) {
	e := j.byID[r.ID]
	switch {
	case r.Row != "":
		if e == nil && isBook(r.File) && r.Offset >= 0 {
			j.byID[r.ID] = &entry{record: r}
			j.entries = append(j.entries, j.byID[r.ID])
		}
	case e == nil:
	case r.Void:
		delete(j.byID, r.ID)
		j.entries = slices.DeleteFunc(j.entries, func(o *entry) bool { return o == e })
	case r.Taken:
		e.standing = taken
	case r.After != "":
		e.standing, e.After = taking, r.After
	case r.Done:
		e.standing = done
	}
}

// isBook tells whether a name is that of a table that readings are appended to.
// The journal is an open file: no other name is followed.
func isBook(name string) bool {
	lower := strings.ToLower(name)
	return lower == levelsFile || lower == tiesFile || isHeightTable(lower)
}

// append adds a record behind the last whole line and flushes it to disk.
func (j *journal) append(r record) error {
	line, err := json.Marshal(r)
	if err == nil {
		err = j.write(append(line, '\n'))
	}
	if err != nil {
		return fmt.Errorf("write %s: %s", journalFile, reason(err))
	}
	j.whole += int64(len(line)) + 1
	j.take(r)
	return nil
}

func (j *journal) write(line []byte) error {
	own := filepath.Join(j.dir, ownFolder)
	if err := os.Mkdir(own, 0o755); err == nil {
		flushFolder(j.dir)
	} else if !errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(j.path(), os.O_RDWR|os.O_CREATE, plainMode)
	if err != nil {
		return err
	}
	if err = f.Truncate(j.whole); err == nil {
		_, err = f.WriteAt(line, j.whole)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil && j.whole == 0 {
		flushFolder(own)
	}
	return err
}
