package plotfolder

import (
	"maps"
	"reflect"
	"strings"

	toml "github.com/pelletier/go-toml/v2"
)

// values are the settings of a text by their keys with their tables; nil for one
// that is not TOML. Numbers are all float64, since 4 and 4.0 say the same.
func values(data []byte) map[string]any {
	var tree map[string]any
	if !decodes(data, &tree) {
		return nil
	}
	out := map[string]any{}
	flatten("", tree, out)
	return out
}

// decodes decodes TOML; a panic of the decoder is a no.
func decodes(data []byte, into any) (ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	return toml.Unmarshal(data, into) == nil
}

func flatten(table string, tree map[string]any, out map[string]any) {
	for key, v := range tree {
		if inner, isTable := v.(map[string]any); isTable {
			flatten(join(table, key), inner, out)
			continue
		}
		out[join(table, key)] = plainNumbers(v)
	}
}

func plainNumbers(v any) any {
	switch v := v.(type) {
	case int:
		return float64(v)
	case int64:
		return float64(v)
	case []float64:
		out := make([]any, len(v))
		for i := range v {
			out[i] = v[i]
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = plainNumbers(v[i])
		}
		return out
	}
	return v
}

// sameValue tells whether two values in TOML are one.
func sameValue(a, b string) bool {
	was, is := values([]byte("v = "+a)), values([]byte("v = "+b))
	return was != nil && is != nil && reflect.DeepEqual(was, is)
}

// onlyChanged checks that a changed text says what was to be set, and of all else
// what it said before.
func (s siteChange) onlyChanged(data []byte, set []Setting) error {
	want := values(s.data)
	if want == nil { // readSite tells what is wrong with it
		return nil
	}
	for _, one := range set {
		maps.DeleteFunc(want, func(key string, _ any) bool {
			return key == one.Key || strings.HasPrefix(key, one.Key+".")
		})
		if one.Value != nil {
			want[one.Key] = plainNumbers(one.Value)
		}
	}
	got := values(data)
	if got == nil || reflect.DeepEqual(want, got) { // the former is told by readSite
		return nil
	}
	for _, one := range set {
		if _, stands := got[one.Key]; stands != (one.Value != nil) || !reflect.DeepEqual(got[one.Key], want[one.Key]) {
			return s.refuse(one.Key, one.Key+" cannot be changed without touching the rest", "change it by hand")
		}
	}
	return s.refuse("", "this cannot be changed without touching the rest", "change it by hand")
}
