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

// kind is one file that a set may hold.
type kind struct {
	name  string
	write func(io.Writer, *siting.Assessment, geodata.Units) error
}

// AssessmentFile is the name of the file of a set that holds the whole answer. It is
// in every set, so that a folder with it is known for one of ours.
const AssessmentFile = "assessment.json"

// kinds are the files of a set, those that a person opens first coming first.
func kinds() []kind {
	return []kind{
		{"report.html", func(w io.Writer, a *siting.Assessment, u geodata.Units) error {
			return report.Write(w, a, report.Options{Units: u})
		}},
		{"report.pdf", func(w io.Writer, a *siting.Assessment, u geodata.Units) error {
			return report.PDF(w, a, report.Options{Units: u})
		}},
		{"plan.svg", func(w io.Writer, a *siting.Assessment, u geodata.Units) error {
			return plan.SVG(w, a, plan.Options{Units: u})
		}},
		{"plan.png", func(w io.Writer, a *siting.Assessment, u geodata.Units) error {
			return plan.PNG(w, a, plan.Options{Units: u})
		}},
		{"plan.dxf", func(w io.Writer, a *siting.Assessment, _ geodata.Units) error { return DXF(w, a) }},
		{"plot-result.geojson", func(w io.Writer, a *siting.Assessment, _ geodata.Units) error { return GeoJSON(w, a) }},
		{"setout.csv", SetOut},
		{"cutlist.csv", func(w io.Writer, a *siting.Assessment, u geodata.Units) error { return CutList(w, a.Quantities, u) }},
		{"buying.csv", func(w io.Writer, a *siting.Assessment, u geodata.Units) error { return Buying(w, a.Quantities, u) }},
		{"waypoints.gpx", func(w io.Writer, a *siting.Assessment, u geodata.Units) error {
			return PointsGPX(w, a.Name, a.Frame, Points(a, u))
		}},
		{AssessmentFile, func(w io.Writer, a *siting.Assessment, _ geodata.Units) error { return JSON(w, a) }},
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
func Set(a *siting.Assessment, units geodata.Units) (files []File, leftOut []string, err error) {
	for _, k := range kinds() {
		var b bytes.Buffer
		switch err := k.write(&b, a, units); {
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
