package main

import (
	"errors"
	"os/exec"
	"strconv"

	"github.com/rogpeppe/go-internal/testscript"
)

// wantCode runs a program and wants this exit code: code 3 crossfall assess plot.
// With ! the code must be any other. A script can then look at the output with
// stdout and stderr, as after exec.
func wantCode(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 {
		ts.Fatalf("usage: code N program [word...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s did not run: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if (got == want) == neg {
		ts.Fatalf("exit code %d, want %s%d", got, map[bool]string{true: "any but "}[neg], want)
	}
}
