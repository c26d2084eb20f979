package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"crossfall/geodata"
)

// Setting is a change of one setting of site.toml.
type Setting struct {
	Key string // with its tables, such as "beds.count"
	// Value is a string, an int, an int64, a float64, a []float64 or a bool, in the
	// unit of the key; nil takes the setting out.
	Value any
}

// EditSite changes settings of site.toml in place and makes the file where there
// is none. Remarks, the order and the spelling of all else are kept: a value is
// replaced where it stands, a new setting takes the place of its example behind a
// #, or follows the others of its table, and one that is taken out is put behind
// a #. The file is written whole or not at all and the version before is kept as
// site.toml.before; a change that changes nothing writes nothing.
//
// seen is the Fingerprint of the files that the change was thought out for; with
// another one now the error is ErrChanged. The new text is read before it is
// written: what is wrong with it, or cannot be changed without touching the rest,
// is told as geodata.Faults and nothing is written.
func EditSite(dir, seen string, set []Setting) error {
	return changeSite(dir, seen, func(s siteChange) ([]byte, error) {
		data := s.data
		for _, one := range set {
			value, err := s.valueText(one)
			if err != nil {
				return nil, err
			}
			if data, err = s.set(data, one, value); err != nil {
				return nil, err
			}
		}
		return data, s.onlyChanged(data, set)
	})
}

// Acknowledge adds to site.toml that a person has read a caution, as EditSite
// changes it.
func Acknowledge(dir, seen string, a geodata.Acknowledgement) error {
	return changeSite(dir, seen, func(s siteChange) ([]byte, error) {
		l, err := s.layOut(s.data)
		if err != nil {
			return nil, err
		}
		if l.find("acknowledged") >= 0 {
			return nil, s.refuse("acknowledged", "what is acknowledged is a list within a line here", "write each as [[acknowledged]] with caution, by and date under it")
		}
		return l.appended(fmt.Sprintf("[[acknowledged]]\ncaution = %s\nby = %s\ndate = %s", tomlText(a.Caution), tomlText(a.By), tomlText(a.Date))), nil
	})
}

// siteChange is the file that is to be changed.
type siteChange struct {
	name string
	data []byte // without the mark that it may begin with
}

// markUTF8 is what a file in UTF-8 may begin with.
const markUTF8 = "\xef\xbb\xbf"

// changeSite changes site.toml of a folder by a function of its text.
func changeSite(dir, seen string, change func(siteChange) ([]byte, error)) error {
	unlock, err := lockPlot(dir)
	if err != nil {
		return err
	}
	defer unlock()
	if err := asSeen(dir, seen); err != nil {
		return err
	}
	s := siteChange{name: tableNamed(dir, siteFile)}
	path := filepath.Join(dir, s.name)
	was, err := readAtMost(path, geodata.MostFileBytes)
	if errors.Is(err, fs.ErrNotExist) {
		was, err = nil, nil
	}
	if err != nil {
		return fmt.Errorf("read %s: %s", s.name, reason(err))
	}
	if !utf8.Valid(was) {
		return s.refuse("", "the file is not in UTF-8 and is not changed", "save it as UTF-8 first")
	}
	text, marked := strings.CutPrefix(string(was), markUTF8)
	s.data = []byte(text)
	data, err := change(s)
	if err != nil || slices.Equal(data, s.data) {
		return err
	}
	var c collector
	readSite(&file{name: s.name, data: data}, &c)
	if err := c.err(); err != nil {
		return err
	}
	if marked {
		data = append([]byte(markUTF8), data...)
	}
	return writeAtomic(path, was, data)
}

// asSeen checks that the files of a folder are as they were when they were seen.
func asSeen(dir, seen string) error {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return fmt.Errorf("change the files of %s: it is no plot folder", filepath.Base(dir))
	}
	now, err := Fingerprint(dir)
	if err == nil && now != seen {
		err = ErrChanged
	}
	return err
}

// refuse is what is wrong with a change, at the place of its setting.
func (s siteChange) refuse(key, message, want string) error {
	pos := geodata.Pos{File: s.name}
	if d, ok := indexSite(s.name, s.data, &collector{}); ok && key != "" {
		pos, _ = d.find(key, 0)
	}
	return geodata.Faults{{Code: "site-not-changed", Pos: pos, Read: key, Message: message, Want: want}}
}

// layOut finds the places in a text; one that is not TOML is told as Read does.
func (s siteChange) layOut(data []byte) (*siteLayout, error) {
	l, err := layOut(data)
	if err == nil {
		return l, nil
	}
	var c collector
	readSite(&file{name: s.name, data: data}, &c)
	if told := c.err(); told != nil {
		return nil, told
	}
	return nil, s.refuse("", err.Error(), "see the example that crossfall start writes")
}

// set makes one change in a text.
func (s siteChange) set(data []byte, one Setting, value string) ([]byte, error) {
	l, err := s.layOut(data)
	if err != nil {
		return nil, err
	}
	i := l.find(one.Key)
	switch {
	case i < 0 && one.Value == nil:
		return data, nil
	case i >= 0 && one.Value != nil && sameValue(string(data[l.entries[i].value:l.entries[i].to]), value):
		return data, nil // 4.20 stays 4.20
	case i >= 0 && l.losesRemarks(i, one.Value == nil):
		return nil, s.refuse(one.Key, "there are remarks within the value of "+one.Key+", which would be lost", "change it by hand")
	case one.Value == nil:
		return l.takeOut(i), nil
	}
	return l.put(one.Key, value), nil
}
