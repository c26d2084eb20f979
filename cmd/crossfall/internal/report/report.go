// Package report writes an Assessment as one self-contained HTML document: its
// style and its drawing are inside it, it asks nothing of a network and needs
// no script. It prints on A4 or Letter, the plan on a sheet of its own at true
// scale. It computes nothing.
package report

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"io"
	"sync"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// Options for the report; the zero value works.
type Options struct {
	Units geodata.Units // "m" (default) or "ft"
	Paper string        // of the plan, "A4" or "A3"; default as plan.Lay chooses
	Date  string        // printed as given; default none
}

//go:embed report.html.tmpl
var page string

//go:embed report.css
var style string

// parsed is the template, read at the first use.
var parsed = sync.OnceValues(func() (*template.Template, error) {
	return template.New("report").Funcs(template.FuncMap{"whole": words.Whole}).Parse(page)
})

// Write writes the whole report.
func Write(w io.Writer, a *siting.Assessment, opt Options) error {
	tmpl, err := parsed()
	if err != nil {
		return fmt.Errorf("read the report's template: %w", err)
	}
	m, err := newModel(a, opt)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := tmpl.Execute(&b, m); err != nil {
		return fmt.Errorf("fill the report: %w", err)
	}
	if _, err := b.WriteTo(w); err != nil {
		return fmt.Errorf("write the report: %w", err)
	}
	return nil
}

// onScreen is how much larger than on paper the plan is shown at the least, so
// that its lettering can be read; a narrower screen scrolls it sideways.
const onScreen = 1.25

// drawn is the plan as SVG and the page it prints on; an assessment without a
// boundary has none.
func drawn(a *siting.Assessment, opt Options) (svg template.HTML, pageSize template.CSS, err error) {
	po := plan.Options{Units: opt.Units, Paper: opt.Paper}
	sheet, err := plan.Lay(a, po)
	if errors.Is(err, plan.ErrNothingToDraw) {
		return "", "", nil
	}
	if err != nil {
		return "", "", err
	}
	var b bytes.Buffer
	if err := plan.SVG(&b, a, po); err != nil {
		return "", "", err
	}
	size := fmt.Sprintf("@page plan { size: %.0fmm %.0fmm; margin: 0; }\n@media screen { .drawing figure svg { min-width: %.0fmm; } }",
		sheet.Width, sheet.Height, onScreen*sheet.Width)
	// The plan escapes every text it takes from the assessment.
	return template.HTML(b.String()), template.CSS(size), nil
}

// model is what the template shows: texts only.
type model struct {
	Name, Date  string
	Style       template.CSS
	PageSize    template.CSS
	Frame, Axis string
	Decision    []string
	Stops       []words.Caution
	Plan        template.HTML

	BedHeads    []string
	BedRows     [][]string
	Beds        []bed
	SetOutHeads []string
	SetOutNote  string

	Water                 waterPart
	Sun                   grid
	SunSaid               []words.Item
	Buying                []words.Item
	Cuts                  []cuts
	Cautions              []words.Caution
	Assumptions           []string
	Uncertainty, Suspects []words.Item
	NextReading           string
	Findings              []string
	Working               []words.Work
}

// bed is the part about one bed.
type bed struct {
	Name                   string
	Decided, Ground, Build []words.Item
	Section                template.HTML // the cut through it; empty where nothing is built
	EdgeHeads              []string
	EdgeRows               [][]string
	EdgeReasons, Depends   []words.Item
	Pegs                   []string
	Corners                [][]string
	SetOut                 []words.Item
}

// cuts is how the boards of one section are cut.
type cuts struct {
	Head  string
	Lines []string
}

func newModel(a *siting.Assessment, opt Options) (model, error) {
	svg, size, err := drawn(a, opt)
	if err != nil {
		return model{}, err
	}
	w := words.Words{Units: opt.Units}
	m := model{
		Name: a.Name, Date: opt.Date, Style: template.CSS(style), PageSize: size, Plan: svg,
		Frame: w.Frame(a.Frame), Axis: w.AxisSaid(a.Frame), Decision: w.Decision(a),
		BedHeads: words.BedHeads(), SetOutHeads: words.SetOutHeads(), SetOutNote: w.Prose(a.SettingOut.Note),
		Sun: grid{words.LightHeads(a), words.LightRows(a)}, SunSaid: w.LightSaid(a),
		Water: waterOf(w, a), Buying: w.Buying(a.Quantities), Cautions: w.Cautions(a),
		Uncertainty: w.Uncertainty(a), Suspects: w.Suspects(a.Ground), NextReading: w.NextReading(a.Ground),
		Working: w.Working(a.Working),
	}
	if m.Name == "" {
		m.Name = "Plot"
	}
	for _, c := range m.Cautions {
		if c.Mark == "STOP" {
			m.Stops = append(m.Stops, c)
		}
	}
	for _, b := range a.Beds {
		m.BedRows = append(m.BedRows, w.BedRow(b))
		part := bedPart(w, b, a)
		if part.Section, err = section(b, fmt.Sprintf("section-%d", len(m.Beds)+1), opt); err != nil {
			return model{}, err
		}
		m.Beds = append(m.Beds, part)
	}
	for _, b := range a.Quantities.Boards {
		if lines := w.Cuts(b); len(lines) > 0 {
			m.Cuts = append(m.Cuts, cuts{w.CutHead(b), lines})
		}
	}
	for _, s := range a.Assumptions {
		m.Assumptions = append(m.Assumptions, w.Assumed(s))
	}
	for _, f := range a.Findings {
		m.Findings = append(m.Findings, f.Severity.String()+": "+f.Error())
	}
	return m, nil
}

func bedPart(w words.Words, b siting.Bed, a *siting.Assessment) bed {
	out := bed{Name: b.Name, Decided: w.Decided(b), Ground: w.Ground(b), Build: w.BuildList(b), Pegs: w.PegPlaces(b)}
	out.EdgeRows, out.EdgeReasons, out.Depends = w.EdgeRows(b, currencyOf(a)), w.EdgeReasons(b), w.Sensitivity(b)
	if len(out.EdgeRows) > 0 {
		out.EdgeHeads = words.EdgeHeads(b)
	}
	for _, s := range a.SettingOut.Beds {
		if s.Name != b.Name || b.Build == nil {
			continue
		}
		for _, c := range s.Corners {
			out.Corners = append(out.Corners, w.SetOutRow(c))
		}
		out.SetOut = w.SetOutNotes(s)
	}
	return out
}
