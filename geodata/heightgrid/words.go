package heightgrid

import (
	"errors"
	"io"

	"crossfall/geodata"
)

// words cuts a text into words, which are what stands between blanks, and
// knows the place of the last one. A word is only good until the next is read.
type words struct {
	in        io.Reader
	buf       []byte
	at, end   int   // what is not looked at yet
	before    int64 // bytes of the text before buf
	line      int   // of at
	lineStart int64 // place in the text of the line's first byte
	err       error // what ended reading; io.EOF at the end
}

// scanBytes is how much text is read at a time. It is also the longest word: a
// longer one is cut, and is no number then.
const scanBytes = 256 << 10

func newWords(in io.Reader) *words {
	return &words{in: in, buf: make([]byte, scanBytes), line: 1}
}

// next gives the next word; it is nil at the end of the text.
func (w *words) next() []byte {
	for {
		for ; w.at < w.end; w.at++ {
			c := w.buf[w.at]
			if c > ' ' {
				return w.word()
			}
			if c == '\n' {
				w.line++
				w.lineStart = w.before + int64(w.at) + 1
			}
		}
		if !w.fill() {
			return nil
		}
	}
}

// word reads to the end of the word that begins at the current place.
func (w *words) word() []byte {
	n := 0
	for {
		for w.at+n < w.end && w.buf[w.at+n] > ' ' {
			n++
		}
		if w.at+n < w.end || n == len(w.buf) || !w.fill() {
			break
		}
	}
	word := w.buf[w.at : w.at+n]
	w.at += n
	return word
}

// fill moves what is not looked at to the front and reads on; false at the end.
func (w *words) fill() bool {
	copy(w.buf, w.buf[w.at:w.end])
	w.before += int64(w.at)
	w.end -= w.at
	w.at = 0
	const mostEmpty = 100 // reads in a row that give nothing
	for range mostEmpty {
		if w.err != nil {
			return false
		}
		var n int
		n, w.err = w.in.Read(w.buf[w.end:])
		w.end += n
		if n > 0 {
			return true
		}
	}
	w.err = io.ErrNoProgress
	return false
}

// failed is the error that ended reading, if it was not the end of the text.
func (w *words) failed() error {
	if w.err == nil || errors.Is(w.err, io.EOF) {
		return nil
	}
	return w.err
}

// pos is the place of a word that was read last; columns count in bytes.
func (w *words) pos(word []byte) geodata.Pos {
	return geodata.Pos{Line: w.line, Col: int(w.before + int64(w.at-len(word)) - w.lineStart + 1)}
}
