package textfile

import (
	"fmt"

	"crossfall/geodata"
)

// MostFaults is how many faults of one severity are kept; the rest are counted.
const MostFaults = 200

// Faults gathers what a reader finds. The zero value is ready to use.
type Faults struct {
	list geodata.Faults
	seen [3]int // faults of each severity, kept or not
	last geodata.Pos
}

// Add keeps a fault, or counts it when there are too many of its severity.
func (fs *Faults) Add(f geodata.Fault) {
	f.Read = Short(f.Read)
	fs.seen[f.Severity]++
	if fs.seen[f.Severity] > MostFaults {
		fs.last = f.Pos
		return
	}
	fs.list.Add(f)
}

// Problem adds what stops the work.
func (fs *Faults) Problem(pos geodata.Pos, code, read, message, want string) {
	fs.Add(geodata.Fault{Code: code, Pos: pos, Read: read, Message: message, Want: want})
}

// Warn adds what is to be told beside the result.
func (fs *Faults) Warn(pos geodata.Pos, code, read, message, want string) {
	fs.Add(geodata.Fault{Code: code, Severity: geodata.Warning, Pos: pos, Read: read, Message: message, Want: want})
}

// Note adds what a person should know.
func (fs *Faults) Note(pos geodata.Pos, code, message string) {
	fs.Add(geodata.Fault{Code: code, Severity: geodata.Note, Pos: pos, Message: message})
}

// Problems counts the faults that stop the work, kept or not.
func (fs *Faults) Problems() int { return fs.seen[geodata.Problem] }

// NotNumber adds the fault of a text that should be a number.
func (fs *Faults) NotNumber(pos geodata.Pos, read, what string) {
	fs.Problem(pos, "not-a-number", read, what+" is not a number", Advice(read))
}

// Finish hands over points and faults: a file comes out whole or not at all,
// so with a problem there are no points. A file that gives no point and no
// reason for it is itself a problem.
func (fs *Faults) Finish(file geodata.Pos, points geodata.RawPoints, wantPoints string) (geodata.RawPoints, geodata.Faults) {
	if len(points.Points) == 0 && fs.Problems() == 0 {
		fs.Problem(file, "no-points", "", "the file holds no points that can be taken", wantPoints)
	}
	for severity, n := range fs.seen {
		if n > MostFaults {
			fs.list.Add(geodata.Fault{
				Code: "more-faults", Severity: geodata.Severity(severity), Pos: geodata.Pos{File: fs.last.File},
				Message: Count(n-MostFaults, "more "+geodata.Severity(severity).String()) + " not listed",
			})
		}
	}
	fs.list.Sort()
	if fs.Problems() > 0 {
		points = geodata.RawPoints{}
	}
	return points, fs.list
}

// TooMany adds the fault of a file over geodata.MostPoints.
func (fs *Faults) TooMany(pos geodata.Pos) {
	fs.Problem(pos, "too-many-points", "", fmt.Sprintf("the file holds more than %d points", geodata.MostPoints), "give the part around the plot")
}

// Count is a number with its word, in the plural unless it is one.
func Count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
