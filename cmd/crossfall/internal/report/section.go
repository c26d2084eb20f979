package report

import (
	"bytes"
	"errors"
	"html/template"

	"crossfall/siting"
	"crossfall/siting/plan"
)

// section is the cut through a bed as SVG; empty where nothing is built.
func section(b siting.Bed, name string, opt Options) (template.HTML, error) {
	var out bytes.Buffer
	err := plan.SectionSVG(&out, b, name, plan.Options{Units: opt.Units})
	if errors.Is(err, plan.ErrNoSection) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	// The drawing escapes every text it takes from the assessment.
	return template.HTML(out.String()), nil
}

// currencyOf is the money of the prices; empty where none was given.
func currencyOf(a *siting.Assessment) string {
	if a.Quantities.Cost == nil {
		return ""
	}
	return a.Quantities.Cost.Currency
}
