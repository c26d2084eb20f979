package export

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// File is one file of a set, ready to be written.
type File struct {
	Name    string
	Content []byte
}

// Made is what stands on the files of a set that are read by people.
type Made struct {
	Units   geodata.Units // "m" (default) or "ft"
	Date    string        // of the input, as it is printed; empty: none
	Version string        // of the program; empty: none
	Page    string        // of the report, as report.Options has it
}

func (m Made) report() report.Options {
	return report.Options{Units: m.Units, Date: m.Date, Version: m.Version, Page: m.Page}
}

func (m Made) plan() plan.Options {
	return plan.Options{Units: m.Units, Date: m.Date, Version: m.Version}
}

// kind is one file that a set may hold.
type kind struct {
	name  string
	write func(io.Writer, *siting.Assessment, Made) error
}

// AssessmentFile is the name of the file of a set that holds the whole answer. It is
// in every set, so that a folder with it is known for one of ours.
const AssessmentFile = "assessment.json"

// kinds are the files of a set, those that a person opens first coming first.
func kinds() []kind {
	return []kind{
		{"report.html", func(w io.Writer, a *siting.Assessment, m Made) error { return report.Write(w, a, m.report()) }},
		{"report.pdf", func(w io.Writer, a *siting.Assessment, m Made) error { return report.PDF(w, a, m.report()) }},
		{"plan.svg", func(w io.Writer, a *siting.Assessment, m Made) error { return plan.SVG(w, a, m.plan()) }},
		{"plan.png", func(w io.Writer, a *siting.Assessment, m Made) error { return plan.PNG(w, a, m.plan()) }},
		{"plan.dxf", func(w io.Writer, a *siting.Assessment, _ Made) error { return DXF(w, a) }},
		{"plot-result.geojson", func(w io.Writer, a *siting.Assessment, _ Made) error { return GeoJSON(w, a) }},
		{"setout.csv", func(w io.Writer, a *siting.Assessment, m Made) error { return SetOut(w, a, m.Units) }},
		{"cutlist.csv", func(w io.Writer, a *siting.Assessment, m Made) error { return CutList(w, a.Quantities, m.Units) }},
		{"buying.csv", func(w io.Writer, a *siting.Assessment, m Made) error { return Buying(w, a.Quantities, m.Units) }},
		{"waypoints.gpx", func(w io.Writer, a *siting.Assessment, m Made) error {
			return PointsGPX(w, a.Name, a.Frame, Points(a, m.Units))
		}},
		{AssessmentFile, func(w io.Writer, a *siting.Assessment, _ Made) error { return JSON(w, a) }},
	}
}

// Names are the names of every file that a set may hold.
func Names() []string {
	var out []string
	for _, k := range kinds() {
		out = append(out, k.name)
	}
	return out
}

// Set makes all files of an assessment. Those that cannot be made of this plot are
// left out, and leftOut says for each which and why.
func Set(a *siting.Assessment, made Made) (files []File, leftOut []string, err error) {
	for _, k := range kinds() {
		var b bytes.Buffer
		switch err := k.write(&b, a, made); {
		case errors.Is(err, ErrNoPlace):
			leftOut = append(leftOut, fmt.Sprintf("%s was left out: %v; give the plot or two of its marks in longitude and latitude", k.name, err))
		case err != nil:
			return nil, nil, fmt.Errorf("make %s: %w", k.name, err)
		default:
			files = append(files, File{k.name, b.Bytes()})
		}
	}
	return files, leftOut, nil
}

// JSON writes the whole answer as JSON, as its schema tells: SI units and degrees.
func JSON(w io.Writer, a *siting.Assessment) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(a)
}
