package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain makes the program itself a command of the scripts.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"crossfall": main})
}

// TestScripts runs one user's story after another. Set UPDATE=1 to write what
// the program now says into the files that the stories compare with.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		UpdateScripts:       os.Getenv("UPDATE") != "",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"code": wantCode,
		},
	})
}
