package plotfolder

import (
	"reflect"
	"slices"
	"strings"

	"crossfall/geodata"
)

// siteKey is one setting that site.toml may hold.
type siteKey struct {
	key   string // with its tables, "beds.length_m"
	holds string // what its value is, in words
}

// siteKeys lists every setting, read off the fields of geodata.Site so that it
// cannot fall behind them.
func siteKeys() []siteKey {
	keys := keysOf(reflect.TypeFor[geodata.Site](), "")
	for _, c := range geodata.Carriers() {
		keys = append(keys, siteKey{"services." + string(c), "text in quotes"})
	}
	return keys
}

func keysOf(t reflect.Type, prefix string) (out []siteKey) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Tag.Get("toml") == "-" { // not read, but set by the reader
			continue
		}
		key := prefix + f.Tag.Get("toml")
		ft := f.Type
		if ft.Kind() == reflect.Pointer {
			ft = ft.Elem()
		}
		switch ft.Kind() {
		case reflect.Struct:
			out = append(out, siteKey{key, "a table, [" + key + "]"})
			out = append(out, keysOf(ft, key+".")...)
		case reflect.Slice:
			if ft.Elem().Kind() == reflect.Struct {
				out = append(out, siteKey{key, "tables, [[" + key + "]]"})
				out = append(out, keysOf(ft.Elem(), key+".")...)
				continue
			}
			holds := "a list of numbers, such as [3.6, 4.8]"
			if ft.Elem().Kind() == reflect.String {
				holds = "a list of texts in quotes, such as [\"couch grass\", \"dock\"]"
			}
			out = append(out, siteKey{key, holds})
		case reflect.Map:
			out = append(out, siteKey{key, "a table, [" + key + "]"})
		case reflect.Bool:
			out = append(out, siteKey{key, "true or false, without quotes"})
		case reflect.Int:
			out = append(out, siteKey{key, "a whole number"})
		case reflect.Float64:
			out = append(out, siteKey{key, "a number, without quotes and with a point for decimals"})
		default:
			out = append(out, siteKey{key, "text in quotes"})
		}
	}
	return out
}

func siteKeyNamed(key string) (siteKey, bool) {
	keys := siteKeys()
	if i := slices.IndexFunc(keys, func(k siteKey) bool { return k.key == key }); i >= 0 {
		return keys[i], true
	}
	return siteKey{}, false
}

// adviceKey names the setting that was most likely meant: one of the same
// last word in another table, else the one whose last word is nearest, in the
// same table first.
func adviceKey(key string) string {
	table, last := split(key)
	var here, all []string
	for _, k := range siteKeys() {
		t, l := split(k.key)
		if l == last {
			return "write it as " + inTable(k.key)
		}
		if t == table {
			here = append(here, l)
		}
		all = append(all, k.key)
	}
	if n := nearest(last, here); n != "" {
		return "write " + n
	}
	best, least := "", len(last)
	for _, k := range all {
		_, l := split(k)
		if d := geodata.LettersApart(last, l); d < least && d <= max(1, len(l)/3) {
			best, least = k, d
		}
	}
	switch {
	case best != "":
		return "write it as " + inTable(best)
	case len(here) > 0:
		return "the settings here are " + strings.Join(here, ", ")
	}
	return "take it out"
}

func split(key string) (table, last string) {
	if i := strings.LastIndexByte(key, '.'); i >= 0 {
		return key[:i], key[i+1:]
	}
	return "", key
}

// inTable says where a setting belongs.
func inTable(key string) string {
	table, last := split(key)
	if table == "" {
		return last + ", above the first table"
	}
	return last + " under [" + table + "]"
}
