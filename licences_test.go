package crossfall_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the lists of this package anew")

// licences are those that modules we use may have, each with words that stand in
// its text and in no other's.
var licences = []struct{ name, words string }{
	{"Apache-2.0", "Apache License Version 2.0"},
	{"MPL-2.0", "Mozilla Public License Version 2.0"},
	{"BSD-3-Clause", "Neither the name of"},
	{"BSD-2-Clause", "Redistributions in binary form must reproduce"},
	{"ISC", "Permission to use, copy, modify, and/or distribute this software for any purpose"},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
}

// licenceOf finds the licence of a module in its folder; "" for one not known.
func licenceOf(t *testing.T, dir string) string {
	t.Helper()
	for _, pattern := range []string{"LICEN[SC]E*", "COPYING*", "[Ll]icen[sc]e*"} {
		paths, err := filepath.Glob(filepath.Join(dir, pattern))
		require.NoError(t, err)
		for _, path := range paths {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			whole := strings.Join(strings.Fields(string(text)), " ")
			for _, l := range licences {
				if strings.Contains(strings.ToLower(whole), strings.ToLower(l.words)) {
					return l.name
				}
			}
		}
	}
	return ""
}

// linked lists the modules that code or tests are built from on any system, with
// the folder of each. A module that only a tool needs is none.
func linked(t *testing.T, args ...string) map[string]string {
	t.Helper()
	dirs := map[string]string{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		list := exec.Command("go", append([]string{"list", "-deps", "-json=Module"}, args...)...)
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := list.Output()
		require.NoError(t, err)
		for d := json.NewDecoder(strings.NewReader(string(out))); ; {
			var p struct {
				Module *struct {
					Path, Version, Dir string
					Main               bool
				}
			}
			err := d.Decode(&p)
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err)
			if p.Module != nil && !p.Module.Main {
				dirs[p.Module.Path+" "+p.Module.Version] = p.Module.Dir
			}
		}
	}
	return dirs
}

// Every module that is built into the program or its tests has a licence that
// lets it be passed on, and stands in testdata/licences.csv.
func TestLicencesAreListed(t *testing.T) {
	program := linked(t, "./cmd/crossfall")
	var rows []string
	for name, dir := range linked(t, "-test", "./...") {
		licence := licenceOf(t, dir)
		assert.NotEmpty(t, licence, "%s has no licence that is known here", name)
		use := "tests"
		if _, ok := program[name]; ok {
			use = "program"
		}
		path, version, _ := strings.Cut(name, " ")
		rows = append(rows, fmt.Sprintf("%s,%s,%s,%s\n", path, version, licence, use))
	}
	current(t, filepath.Join("testdata", "licences.csv"), "module,version,licence,used in\n"+sorted(rows))
}

// current asks that a list made by a test is the one that is kept.
func current(t *testing.T, path, want string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(want), 0o644))
	}
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.True(t, string(got) == want, "%s is not current: run go test . -update and look at what changed", path)
}

func sorted(rows []string) string {
	slices.Sort(rows)
	return strings.Join(rows, "")
}
