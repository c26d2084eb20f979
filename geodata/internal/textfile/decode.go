package textfile

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// Decoding says how a file was turned into text.
type Decoding uint8

// The outcomes of decoding.
const (
	IsUTF8      Decoding = iota // UTF-8, or UTF-16 with its mark
	ByName                      // in the encoding that the file names
	Assumed                     // not UTF-8: taken as Windows-1252
	NotText                     // holds zero bytes: not a text file
	NameUnknown                 // names an encoding that is not read
)

// Decode gives a file as UTF-8 without its byte order mark and with every line
// end made one line feed, so that places can be counted in it. The name is the
// encoding that the file itself declares; it may be empty, and counts only
// when the bytes are not UTF-8 or UTF-16 beyond doubt.
func Decode(data []byte, name string) (string, Decoding) {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return decoded(data, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), IsUTF8)
	case bytes.IndexByte(data, 0) >= 0:
		return "", NotText
	case utf8.Valid(data):
		return unixLines(strings.TrimPrefix(string(data), "\ufeff")), IsUTF8
	case name == "" || strings.EqualFold(name, "utf-8"):
		return decoded(data, charmap.Windows1252, Assumed)
	}
	e := named(name)
	if e == nil {
		return "", NameUnknown
	}
	return decoded(data, e, ByName)
}

// named finds an encoding by the names that XML files and drawings use for it.
func named(name string) encoding.Encoding {
	switch strings.ToLower(name) {
	case "windows-1252", "cp1252", "ansi_1252", "iso-8859-1", "latin1", "us-ascii":
		// What calls itself Latin-1 is commonly Windows-1252, which agrees with
		// it in every printed character (WHATWG Encoding standard).
		return charmap.Windows1252
	case "windows-1250", "cp1250", "ansi_1250":
		return charmap.Windows1250
	case "windows-1251", "cp1251", "ansi_1251":
		return charmap.Windows1251
	case "iso-8859-2", "latin2":
		return charmap.ISO8859_2
	case "iso-8859-15", "latin9":
		return charmap.ISO8859_15
	}
	return nil
}

func decoded(data []byte, e encoding.Encoding, how Decoding) (string, Decoding) {
	text, err := e.NewDecoder().Bytes(data)
	if err != nil || bytes.IndexByte(text, 0) >= 0 {
		return "", NotText
	}
	return unixLines(strings.TrimPrefix(string(text), "\ufeff")), how
}

func unixLines(text string) string {
	if !strings.Contains(text, "\r") {
		return text
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
}
