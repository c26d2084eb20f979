package plotfolder

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"crossfall/geodata"
)

// valueText is a value as TOML.
func (s siteChange) valueText(one Setting) (string, error) {
	k, known := siteKeyNamed(one.Key)
	switch {
	case !known:
		return "", geodata.Faults{{Code: "site-key-unknown", Pos: geodata.Pos{File: s.name}, Read: one.Key, Message: fmt.Sprintf("%q is not a setting that is known", one.Key), Want: adviceKey(one.Key)}}
	case strings.HasPrefix(k.key, "acknowledged"):
		return "", s.refuse(one.Key, "what is acknowledged is added to, and not changed", "change it by hand")
	}
	wrong := func() error { return s.refuse(one.Key, one.Key+" does not hold this", "write "+k.holds) }
	if strings.HasPrefix(k.holds, "a table") && one.Value != nil {
		return "", wrong()
	}
	number := func(v float64) (string, bool) {
		return strconv.FormatFloat(v, 'f', -1, 64), !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	switch v := one.Value.(type) {
	case nil:
		return "", nil
	case string:
		if utf8.ValidString(v) {
			return tomlText(v), nil
		}
	case bool:
		return strconv.FormatBool(v), nil
	case int:
		return strconv.Itoa(v), nil
	case int64:
		return strconv.FormatInt(v, 10), nil
	case float64:
		if text, ok := number(v); ok {
			return text, nil
		}
	case []float64:
		texts := make([]string, len(v))
		ok := true
		for i := range v {
			text, finite := number(v[i])
			texts[i], ok = text, ok && finite
		}
		if ok {
			return "[" + strings.Join(texts, ", ") + "]", nil
		}
	}
	return "", wrong()
}

// tomlText is a text as a basic string of TOML, which wants control characters
// written as \u and four digits.
func tomlText(text string) string {
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
