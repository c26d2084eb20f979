package page

import (
	"crypto/sha256"
	"encoding/hex"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// stepsView is one part of the setting-out sheet.
type stepsView struct {
	section
	Steps []stepView `json:"steps,omitempty"`
}

// stepView is one task. Its id is made of its words, so that a task that has
// become another is not taken for done.
type stepView struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

func stepsOf(w words.Words, a *siting.Assessment) []stepsView {
	out := []stepsView{}
	metric := words.Words{} // the id of a task does not hang on the units it is shown in
	same := metric.SetOutSheet(a, words.Taping{})
	for i, p := range w.SetOutSheet(a, words.Taping{}) {
		v := stepsView{section: section{ID: "set-out", Title: p.Title, Items: p.Items, Lines: p.Lines, Heads: p.Heads, Rows: p.Rows}}
		for k, task := range p.Tasks {
			sum := sha256.Sum256([]byte(same[i].Title + "\x00" + same[i].Tasks[k]))
			v.Steps = append(v.Steps, stepView{ID: hex.EncodeToString(sum[:12]), Text: task})
		}
		out = append(out, v)
	}
	return out
}
