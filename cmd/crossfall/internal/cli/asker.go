package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// errAnswersEnded is the end of input in the middle of the questions.
var errAnswersEnded = errors.New("the answers ended before the last question; nothing was written")

// asker puts questions and reads one line for each answer. Once reading has
// failed it asks nothing more and err keeps the cause, so that a row of
// questions needs one look at the end.
type asker struct {
	next func() (line string, err error)
	out  io.Writer
	err  error
}

// newAsker reads lines from in until it ends or ctx is cancelled. Reading runs
// beside the questions, because a read from a terminal cannot be cancelled.
func newAsker(ctx context.Context, in io.Reader, out io.Writer) *asker {
	lines := make(chan string)
	go func() {
		defer close(lines)
		scanner := bufio.NewScanner(in)
		for scanner.Scan() {
			select {
			case lines <- scanner.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return &asker{out: out, next: func() (string, error) {
		select {
		case <-ctx.Done():
			return "", ctx.Err()
		case line, ok := <-lines:
			switch {
			case ctx.Err() != nil: // both were ready: the interrupt counts
				return "", ctx.Err()
			case !ok:
				return "", errAnswersEnded
			}
			return strings.TrimSpace(strings.ToValidUTF8(line, "?")), nil
		}
	}}
}

// say writes a line that asks nothing.
func (a *asker) say(format string, v ...any) {
	if a.err == nil {
		fmt.Fprintf(a.out, format+"\n", v...)
	}
}

// ask repeats a question until take accepts the answer. Enter alone takes what
// is shown in brackets and leaves take uncalled. take's error says what would
// be right.
func (a *asker) ask(question, shown string, take func(answer string) error) {
	for a.err == nil {
		if shown != "" {
			fmt.Fprintf(a.out, "%s [%s]: ", question, shown)
		} else {
			fmt.Fprintf(a.out, "%s: ", question)
		}
		var answer string
		if answer, a.err = a.next(); a.err != nil {
			fmt.Fprintln(a.out)
			return
		}
		if answer == "" {
			return
		}
		err := take(answer)
		if err == nil {
			return
		}
		a.say("  %q will not do: %v", answer, err)
	}
}

// must repeats a question that has no default until it is answered.
func (a *asker) must(question string) string {
	got := ""
	for a.err == nil && got == "" {
		a.ask(question, "", func(answer string) error {
			got = answer
			return nil
		})
		if got == "" {
			a.say("  this needs an answer; an interrupt (Ctrl-C) leaves without writing anything")
		}
	}
	return got
}

// option is one of the answers to choose from.
type option struct {
	word string // what is kept, and may be typed
	said string // what is shown after the word; may be empty
}

// choose offers numbered options and gives the chosen word, or byDefault.
func (a *asker) choose(question string, options []option, shown, byDefault string) string {
	a.say("%s", question)
	for i, o := range options {
		line := o.word
		if o.said != "" {
			line += ": " + o.said
		}
		a.say("  %d  %s", i+1, line)
	}
	chosen := byDefault
	a.ask("  your choice", shown, func(answer string) error {
		for i, o := range options {
			if answer == strconv.Itoa(i+1) || strings.EqualFold(answer, o.word) {
				chosen = o.word
				return nil
			}
		}
		return fmt.Errorf("answer with a number from 1 to %d, or with the words", len(options))
	})
	return chosen
}
