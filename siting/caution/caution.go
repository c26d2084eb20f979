// Package caution finds what can hurt someone or something: services near
// pegs and trenches, retained height, trees, standing water, neighbours'
// ground, heavy loads. Every caution defers to the local code and to people
// licensed for the work.
//
// Shapes are plan metres, heights metres, forces newtons. An id is built as
// kind.bed.fixture in lower case with hyphens, so that the same plot gives the
// same ids; names that differ only in capitals or punctuation share an id.
package caution

import (
	"github.com/paulmach/orb"
)

// Severity of a caution.
type Severity string

// A Stop takes the work away until the plan changes; a Warning asks for care
// or advice; a Note informs.
const (
	Stop    Severity = "stop"
	Warning Severity = "warning"
	Note    Severity = "note"
)

// Caution is one thing to heed.
type Caution struct {
	ID       string     `json:"id"` // stable and readable, such as service-conflict.bed-2.power-to-shed
	Severity Severity   `json:"severity"`
	Kind     string     `json:"kind"` // "service", "retained height", "tree", "ponding", ...
	Text     string     `json:"text"`
	At       *orb.Point `json:"at"` // null: the whole plot
	Bed      string     `json:"bed,omitempty"`
	Source   string     `json:"source"`
	// AcknowledgedBy and AcknowledgedOn come from site.toml; they silence the
	// exit code and restore nothing.
	AcknowledgedBy string `json:"acknowledged_by,omitempty"`
	AcknowledgedOn string `json:"acknowledged_on,omitempty"`
}
