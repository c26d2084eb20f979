package crossfall_test

import (
	"go/ast"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A wrong clock changes no answer, because nothing that makes one looks at it:
// only waiting for another program's lock and the progress of long work do.
func TestNoAnswerKnowsTheTime(t *testing.T) {
	allowed := map[string]bool{
		"geodata/plotfolder/lock.go":             true,
		"cmd/crossfall/internal/cli/storm.go":    true,
		"cmd/crossfall/internal/cli/progress.go": true,
	}
	seen := 0
	for _, s := range sources(t) {
		if s.isTest() {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if pkg, ok := sel.X.(*ast.Ident); ok && pkg.Name == "time" && (sel.Sel.Name == "Now" || sel.Sel.Name == "Since" || sel.Sel.Name == "Until") {
				seen++
				assert.True(t, allowed[s.path], "%s asks for the time", s.path)
			}
			return true
		})
	}
	assert.NotZero(t, seen, "the test found no use of the clock at all")
}
