package plotfolder

import (
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"time"
)

// changing is held by whoever in this program changes files of a plot folder, so
// that what was looked at and what is written belong together.
var changing sync.Mutex

// mostWait is how long another program may take over its change before this one
// gives up; a default of ours, far over the time of a change on a slow card.
const mostWait = 10 * time.Second

// errBusy tells that another program holds a folder.
var errBusy = errors.New("held by another program")

// lockPlot keeps every other change of a plot folder waiting, in this program and
// in others, until unlock. The system lets go of it when a program dies. Where the
// system or the disk has no such lock only this program waits.
func lockPlot(dir string) (unlock func(), err error) {
	changing.Lock()
	for end := time.Now().Add(mostWait); ; time.Sleep(5 * time.Millisecond) {
		release, err := lockFolder(dir)
		switch {
		case err == nil:
			return func() {
				release()
				changing.Unlock()
			}, nil
		case time.Now().After(end):
			changing.Unlock()
			return nil, fmt.Errorf("change the files of %s: another program is at it; try again", filepath.Base(dir))
		}
	}
}
