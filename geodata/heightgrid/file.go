package heightgrid

import "io"

// file is the bytes of a file with their number.
type file struct {
	r    io.ReaderAt
	size int64
}

// holds tells whether n bytes from a place lie inside the file.
func (f file) holds(at, n int64) bool { return at >= 0 && n >= 0 && at <= f.size && n <= f.size-at }

// bytes reads n bytes from a place; what they are is said in the fault when
// they lie outside the file. The caller limits n.
func (f file) bytes(at, n int64, what string) ([]byte, error) {
	if !f.holds(at, n) {
		return nil, cutShort(what)
	}
	b := make([]byte, n)
	return b, f.into(b, at)
}

// into fills a buffer from a place.
func (f file) into(b []byte, at int64) error {
	n, err := f.r.ReadAt(b, at)
	if n == len(b) {
		return nil
	}
	if err == nil {
		err = io.ErrUnexpectedEOF
	}
	return err
}

// from reads on from a place to the end of the file.
func (f file) from(at int64) io.Reader { return io.NewSectionReader(f.r, at, f.size-at) }
