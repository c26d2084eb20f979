//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package plotfolder

import (
	"errors"
	"os"
	"syscall"
)

// lockFolder locks the folder itself, so that no file is needed for it. The error
// is errBusy when another program holds it.
func lockFolder(dir string) (release func(), err error) {
	f, err := os.Open(dir)
	if err != nil { // what is done in it will tell
		return func() {}, nil
	}
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) || errors.Is(err, syscall.EINTR) {
		_ = f.Close()
		return nil, errBusy
	}
	return func() { _ = f.Close() }, nil // with it the lock
}
