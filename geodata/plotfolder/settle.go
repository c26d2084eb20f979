package plotfolder

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"crossfall/geodata"
)

// settle finds out what became of readings whose booking or taking back was
// interrupted, and writes it into the journal. A row of which only a part came
// into the file is completed: the journal has all of it. One of which nothing
// came is void, so that sending it again books it.
func (j *journal) settle() error {
	for _, e := range append([]*entry(nil), j.entries...) {
		if e.standing != intended && e.standing != taking {
			continue
		}
		path := filepath.Join(j.dir, e.File)
		data, err := readAtMost(path, geodata.MostFileBytes)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("read %s: %s", e.File, reason(err))
		}
		if e.standing == taking {
			err = j.settleTaking(e, data)
		} else {
			err = j.settleIntent(e, path, data)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (j *journal) settleTaking(e *entry, data []byte) error {
	if hashOf(data) == e.After {
		return j.append(record{ID: e.ID, Taken: true})
	}
	return j.append(record{ID: e.ID, Done: true}) // still there, or changed since: places tells
}

func (j *journal) settleIntent(e *entry, path string, data []byte) error {
	sound, torn := tornAt(data, e)
	switch whole := e.Row + "\n"; {
	case torn && sound <= e.Offset:
		if err := os.Truncate(path, sound); err != nil {
			return fmt.Errorf("mend %s: %s", e.File, reason(err))
		}
		return j.append(record{ID: e.ID, Void: true})
	case torn:
		if err := complete(path, sound, []byte(whole[sound-e.Offset:])); err != nil {
			return fmt.Errorf("mend %s: %s", e.File, reason(err))
		}
	default:
		if _, stands := j.places(e.File, data)[e]; !stands {
			return j.append(record{ID: e.ID, Void: true})
		}
	}
	return j.append(record{ID: e.ID, Done: true})
}

// tornAt tells whether the end of a file is what an interrupted write of a row
// leaves: nothing of it, or its beginning, and zeros where the system had made
// room and not filled it. sound is the number of bytes before the zeros, or
// before the line end that was to go before the row.
func tornAt(data []byte, e *entry) (sound int64, torn bool) {
	began := bytes.TrimRight(data, "\x00")
	sound = int64(len(began))
	switch whole := e.Row + "\n"; {
	case sound < e.Offset: // the line before may lack its end
		return sound, sound == e.Offset-1
	case !bytes.HasPrefix([]byte(whole), began[e.Offset:]):
		return 0, false
	default:
		return sound, sound < e.Offset+int64(len(whole)) || len(data) > len(began)
	}
}

// complete cuts a file at a byte, writes what is missing there and flushes it.
func complete(path string, at int64, rest []byte) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err = f.Truncate(at); err == nil {
		_, err = f.WriteAt(rest, at)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
