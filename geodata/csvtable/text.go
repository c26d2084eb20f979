package csvtable

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"crossfall/geodata"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// The marks that files may begin with (Unicode Standard, section 23.8).
var (
	markUTF8   = []byte{0xef, 0xbb, 0xbf}
	markUTF16L = []byte{0xff, 0xfe}
	markUTF16B = []byte{0xfe, 0xff}
)

// Text decodes a file: UTF-8 with or without a mark, UTF-16 with a mark, else
// Windows-1252, which is told as a Note. A file with a zero byte that none of
// these explains is refused: it is no text.
func Text(file string, data []byte) (string, geodata.Faults) {
	switch {
	case bytes.HasPrefix(data, markUTF8):
		data = data[len(markUTF8):]
	case bytes.HasPrefix(data, markUTF16L), bytes.HasPrefix(data, markUTF16B):
		return decoded(file, data, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM))
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return "", notText(file)
	}
	if utf8.Valid(data) {
		return string(data), nil
	}
	text, faults := decoded(file, data, charmap.Windows1252)
	faults.Add(geodata.Fault{
		Code: "encoding-assumed", Severity: geodata.Note, Pos: geodata.Pos{File: file},
		Message: "the file is not in UTF-8: it was read as Windows-1252",
		Want:    "save it as UTF-8 if a letter looks wrong",
	})
	return text, faults
}

func decoded(file string, data []byte, e encoding.Encoding) (string, geodata.Faults) {
	text, err := e.NewDecoder().Bytes(data)
	if err != nil || bytes.IndexByte(text, 0) >= 0 {
		return "", notText(file)
	}
	return strings.TrimPrefix(string(text), "\ufeff"), nil
}

func notText(file string) geodata.Faults {
	return geodata.Faults{{
		Code: "not-text", Pos: geodata.Pos{File: file},
		Message: "this is not a text file",
		Want:    "export it as CSV in UTF-8",
	}}
}
