package cli

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// tomlText writes settings with their explanation. A setting that was not said
// is written behind a # with an example, so that it only needs filling in.
type tomlText struct{ bytes.Buffer }

// heading opens a table.
func (t *tomlText) heading(table string) { fmt.Fprintf(t, "\n[%s]\n", table) }

// remark writes a line of explanation.
func (t *tomlText) remark(text string) { fmt.Fprintf(t, "# %s\n", text) }

// set writes key = value with a remark behind it, or the example when value is
// empty. Both are TOML already.
func (t *tomlText) set(key, value, example, remark string) {
	line := key + " = " + value
	if value == "" {
		line = "# " + key + " = " + example
	}
	if remark != "" {
		line += "   # " + remark
	}
	fmt.Fprintln(t, line)
}

// tomlString is a TOML basic string; empty for an empty text. TOML wants
// control characters written as \u and four digits.
func tomlString(text string) string {
	if text == "" {
		return ""
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// tomlNumber is a TOML number to six figures, enough for a foot or an inch
// turned into metres; empty when not said.
func tomlNumber(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(roundTo(*v, 6), 'f', -1, 64)
}

func tomlCount(v *int) string {
	if v == nil {
		return ""
	}
	return strconv.Itoa(*v)
}

func tomlNumbers(v []float64) string {
	if len(v) == 0 {
		return ""
	}
	words := make([]string, len(v))
	for i := range v {
		words[i] = tomlNumber(&v[i])
	}
	return "[" + strings.Join(words, ", ") + "]"
}
