package term

import (
	"bufio"
	"io"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/siting"
)

// Storm writes what the storms played over the plot did.
func Storm(w io.Writer, s *siting.Storm, opt Options) error {
	b := bufio.NewWriter(w)
	p := &printer{w: b, width: opt.width(), color: opt.Color, words: words.Words{Units: opt.Units}}
	for _, played := range s.Storms {
		p.items("The storm over the plot", p.words.StormItems(played))
		if rows := p.words.StormBoardRows(played); len(rows) > 0 {
			p.blank()
			p.table(p.words.StormBoardHeads(), rows)
		}
	}
	p.items("What the storm says and does not", p.words.StormClaims(s))
	return b.Flush()
}
