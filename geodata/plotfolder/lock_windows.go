package plotfolder

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// sharingViolation is ERROR_SHARING_VIOLATION: somebody has the file open.
const sharingViolation = syscall.Errno(32)

// lockFolder opens a file of the folder's own among the passing files, which
// nobody else may open meanwhile. The error is errBusy when another program has.
func lockFolder(dir string) (release func(), err error) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return func() {}, nil
	}
	name, err := syscall.UTF16PtrFromString(filepath.Join(os.TempDir(), "crossfall-"+hashOf([]byte(strings.ToLower(whole)))[:32]+".lock"))
	if err != nil {
		return func() {}, nil
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	switch {
	case err == sharingViolation:
		return nil, errBusy
	case err != nil:
		return func() {}, nil
	}
	return func() { _ = syscall.CloseHandle(h) }, nil
}
