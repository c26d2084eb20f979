package heightgrid

import "strings"

// wktNode is a keyword of well-known text with what stands in its brackets:
// texts and numbers as words, further keywords as kids.
type wktNode struct {
	name  string // in capitals
	words []string
	kids  []wktNode
}

// Limits on well-known text. Defaults of ours.
const (
	deepestWKT = 50
	longestWKT = 256 << 10
)

// parseWKT reads one or more keywords with their brackets. ok is false when the
// text is not of that kind.
func parseWKT(text string) (roots []wktNode, ok bool) {
	if len(text) > longestWKT {
		return nil, false
	}
	p := wktParser{rest: strings.TrimRight(text, "\x00 \t\r\n")}
	top := wktNode{}
	if !p.items(&top, 0) || p.rest != "" || len(top.kids) == 0 {
		return nil, false
	}
	return top.kids, true
}

// wktParser reads from the start of rest.
type wktParser struct{ rest string }

// items reads what stands between brackets: items parted by commas.
func (p *wktParser) items(into *wktNode, depth int) bool {
	for depth < deepestWKT {
		p.rest = strings.TrimLeft(p.rest, " \t\r\n\uFEFF")
		if strings.HasPrefix(p.rest, `"`) {
			p.rest = p.rest[1:]
			word, after, closed := strings.Cut(p.rest, `"`)
			if !closed {
				return false
			}
			into.words, p.rest = append(into.words, word), after
		} else if !p.keyword(into, depth) {
			return false
		}
		p.rest = strings.TrimLeft(p.rest, " \t\r\n")
		if !strings.HasPrefix(p.rest, ",") {
			return true
		}
		p.rest = p.rest[1:]
	}
	return false
}

// keyword reads a bare word or number, or a keyword with its brackets.
func (p *wktParser) keyword(into *wktNode, depth int) bool {
	end := strings.IndexAny(p.rest, ",[](){}\" \t\r\n")
	if end < 0 {
		end = len(p.rest)
	}
	word := p.rest[:end]
	p.rest = strings.TrimLeft(p.rest[end:], " \t\r\n")
	if word == "" {
		return false
	}
	if !strings.HasPrefix(p.rest, "[") && !strings.HasPrefix(p.rest, "(") {
		into.words = append(into.words, word)
		return true
	}
	kid := wktNode{name: strings.ToUpper(word)}
	p.rest = p.rest[1:]
	if !p.items(&kid, depth+1) {
		return false
	}
	if !strings.HasPrefix(p.rest, "]") && !strings.HasPrefix(p.rest, ")") {
		return false
	}
	p.rest = p.rest[1:]
	into.kids = append(into.kids, kid)
	return true
}
