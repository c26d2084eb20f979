package report

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"crossfall/cmd/crossfall/internal/words"
)

//go:embed report.html.tmpl
var page string

//go:embed report.css
var style string

// parsed is the template, read at the first use.
var parsed = sync.OnceValues(func() (*template.Template, error) {
	return template.New("report").Funcs(template.FuncMap{
		"whole": words.Whole, "drawn": drawn, "style": styleOf,
		"stop": func(mark string) bool { return mark == "STOP" },
	}).Parse(page)
})

// writePage writes a document as an HTML page.
func writePage(w io.Writer, d document) error {
	tmpl, err := parsed()
	if err != nil {
		return fmt.Errorf("read the report's template: %w", err)
	}
	var b bytes.Buffer
	if err := tmpl.Execute(&b, d); err != nil {
		return fmt.Errorf("fill the report: %w", err)
	}
	if _, err := b.WriteTo(w); err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	return nil
}

// drawn is a figure as SVG, which escapes every text it takes.
func drawn(f figure) (template.HTML, error) {
	var b bytes.Buffer
	err := f.SVG(&b, f.Name)
	return template.HTML(b.String()), err
}

// onScreen is how much larger than on paper a sheet is shown at the least, so
// that its lettering can be read; a narrower screen scrolls it sideways.
const onScreen = 1.25

// styleOf is the style sheet, with a printed page for the plan as large as it.
func styleOf(d document) template.CSS {
	var b strings.Builder
	b.WriteString(style)
	for _, p := range d.Parts {
		for _, k := range p.Blocks {
			if f := k.Figure; f != nil && f.Sheet {
				fmt.Fprintf(&b, "@page %[1]s { size: %.0[2]fmm %.0[3]fmm; margin: 0; }\n#%[1]s { page: %[1]s; }\n@media screen { #%[1]s figure svg { min-width: %.0[4]fmm; } }\n",
					p.ID, f.Width, f.Height, onScreen*f.Width)
			}
		}
	}
	return template.CSS(b.String())
}
