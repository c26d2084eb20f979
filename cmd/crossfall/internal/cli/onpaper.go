package cli

import (
	"io"
	"path/filepath"
	"runtime/debug"
	"strings"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/cmd/crossfall/internal/report"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/plan"
)

// Endings of the files that reports and plans may go to.
var (
	reportEndings = []string{".html", ".htm", ".pdf"}
	planEndings   = []string{".svg", ".pdf", ".png"}
)

// madeOf are the date of the input of a plot and the version of the program, as
// they stand on paper; empty where they are not known.
func madeOf(plot string) (date, version string) {
	if at, err := plotfolder.LastChange(plot); err == nil && !at.IsZero() {
		date = at.Format("2 January 2006")
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "(devel)" {
		version = info.Main.Version
	}
	return date, version
}

// made is what stands on every file of a set.
func made(o assessOptions) export.Made {
	m := export.Made{Units: o.units}
	m.Date, m.Version = madeOf(o.plot)
	if o.units == geodata.FeetAndInch { // where people use them it is the usual paper: a default of ours
		m.Page = "Letter"
	}
	return m
}

// writeReport writes the report in the format that the ending of its file says.
func writeReport(w io.Writer, a *siting.Assessment, o assessOptions) error {
	m := made(o)
	opt := report.Options{Units: m.Units, Date: m.Date, Version: m.Version, Page: m.Page}
	if ending(o.report) == ".pdf" {
		return report.PDF(w, a, opt)
	}
	return report.Write(w, a, opt)
}

// writePlan writes the plan in the format that the ending of its file says.
func writePlan(w io.Writer, a *siting.Assessment, path string, o assessOptions) error {
	opt := plan.Options{Units: o.units}
	opt.Date, opt.Version = madeOf(o.plot)
	switch ending(path) {
	case ".pdf":
		return plan.PDF(w, a, opt)
	case ".png":
		return plan.PNG(w, a, opt)
	}
	return plan.SVG(w, a, opt)
}

func ending(path string) string { return strings.ToLower(filepath.Ext(path)) }
