package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"crossfall/geodata"
)

// ErrNotKeyed is the error for taking back a reading that was not booked by an id.
var ErrNotKeyed = errors.New("no reading was booked by this id")

// ErrRowChanged is the error for taking back a reading whose row was changed or
// taken out since.
var ErrRowChanged = errors.New("its row no longer stands in the file as it was booked")

// Unbook takes back the reading that was booked by an id, if its row still stands
// as it was written: the file is written anew without it, whole or not at all, and
// the version before is kept as NAME.before. removed is the row. Taking the same
// one back again gives it again. The error wraps ErrNotKeyed or ErrRowChanged, else
// it is the system's; the file is then as it was.
func Unbook(dir, id string) (removed string, err error) {
	unlock, err := lockPlot(dir)
	if err != nil {
		return "", err
	}
	defer unlock()
	j, err := openJournal(dir)
	if err != nil {
		return "", err
	}
	if err := j.settle(); err != nil {
		return "", err
	}
	e := j.byID[id]
	switch {
	case e == nil:
		return "", fmt.Errorf("take back a reading: %w", ErrNotKeyed)
	case e.standing == taken:
		return e.Row, nil
	}
	path := filepath.Join(dir, e.File)
	data, err := readAtMost(path, geodata.MostFileBytes)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("read %s: %s", e.File, reason(err))
	}
	span, stands := j.places(e.File, data)[e]
	if !stands {
		return "", fmt.Errorf("take back a reading from %s: %w", e.File, ErrRowChanged)
	}
	without := append(data[:span.from:span.from], data[span.to:]...)
	if err := j.append(record{ID: id, After: hashOf(without)}); err != nil {
		return "", err
	}
	if err := writeAtomic(path, data, without); err != nil {
		return "", err
	}
	return e.Row, j.append(record{ID: id, Taken: true})
}

// KeyedReading is one reading that was booked by an id and not taken back.
type KeyedReading struct {
	ID     string `json:"id"`
	File   string `json:"file"`
	Row    string `json:"row"`    // as it was written; of a tie by two tapes, two lines
	Stands bool   `json:"stands"` // it is still in the file as it was written
}

// Keyed lists the readings that were booked by an id, in the order of booking;
// none for a folder without a journal. It writes nothing: one whose booking was
// interrupted is listed when its row is in the file. The error is that of reading
// the journal or a table.
func Keyed(dir string) ([]KeyedReading, error) {
	unlock, err := lockPlot(dir)
	if err != nil {
		return nil, err
	}
	defer unlock()
	j, err := openJournal(dir)
	if err != nil {
		return nil, err
	}
	found := map[string]map[*entry]rowSpan{}
	var out []KeyedReading
	for _, e := range j.entries {
		if e.standing == taken {
			continue
		}
		if found[e.File] == nil {
			data, err := readAtMost(filepath.Join(dir, e.File), geodata.MostFileBytes)
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return nil, fmt.Errorf("read %s: %s", e.File, reason(err))
			}
			found[e.File] = j.places(e.File, data)
		}
		if _, stands := found[e.File][e]; stands || e.standing != intended {
			out = append(out, KeyedReading{e.ID, e.File, e.Row, stands})
		}
	}
	return out, nil
}
