package page

import (
	"net/http"
	"path/filepath"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting/soil"

	"github.com/paulmach/orb"
)

// plotView is what is known of the plot before anything is decided.
type plotView struct {
	Revision string        `json:"revision"`
	Version  string        `json:"version"`
	Folder   string        `json:"folder"` // its name alone
	Is       bool          `json:"is_plot"`
	Name     string        `json:"name"`
	Units    geodata.Units `json:"units"`
	Readable bool          `json:"readable"` // all of it could be read
	// Faults say why not, or what reading noticed.
	Faults   geodata.Faults            `json:"faults"`
	Site     siteView                  `json:"site"`
	Boundary []orb.Point               `json:"boundary"`
	Drawn    bool                      `json:"boundary_drawn"`
	Fixtures []fixtureView             `json:"fixtures"`
	Spots    []spotView                `json:"spots"`
	Keyed    []plotfolder.KeyedReading `json:"keyed"`
	Words    wordLists                 `json:"words"`
}

// siteView is the part of site.toml that the page asks for. Lengths are in the
// units of their keys there; null where nothing was said.
type siteView struct {
	Latitude   *float64                   `json:"place.latitude"`
	Thumb      string                     `json:"ground.thumb"`
	Cover      string                     `json:"ground.cover"`
	Count      *int                       `json:"beds.count"`
	Length     *float64                   `json:"beds.length_m"`
	Width      *float64                   `json:"beds.width_m"`
	Depth      *float64                   `json:"beds.depth_mm"`
	Path       *float64                   `json:"beds.path_m"`
	Boards     []float64                  `json:"boards.lengths_m"`
	Heights    []float64                  `json:"boards.heights_mm"`
	Thickness  []float64                  `json:"boards.thicknesses_mm"`
	BoardPrice *float64                   `json:"boards.price_per_m"`
	PegPrice   *float64                   `json:"pegs.price_each"`
	Compost    *float64                   `json:"compost.price_per_m3"`
	Currency   string                     `json:"compost.currency"`
	Load       *float64                   `json:"carrying.load_litres"`
	Services   map[geodata.Carrier]string `json:"services"`
}

// fixtureView is one drawn thing. Lengths are metres, 0 where nothing was said.
type fixtureView struct {
	Kind      geodata.Kind    `json:"kind"`
	Name      string          `json:"name"`
	Shape     string          `json:"shape"` // "point", "line" or "area"
	Points    []orb.Point     `json:"points"`
	What      string          `json:"what"`
	Height    float64         `json:"height_m"`
	Stem      float64         `json:"stem_diameter_m"`
	Evergreen bool            `json:"evergreen"`
	Carries   geodata.Carrier `json:"carries"`
	Overhead  bool            `json:"overhead"`
	Located   string          `json:"located"`
	Depth     float64         `json:"depth_m"`
	Pinned    bool            `json:"pinned"`
}

// spotView is one spot height.
type spotView struct {
	Name   string    `json:"name"`
	At     orb.Point `json:"at"`
	Height float64   `json:"height_m"`
}

// wordLists are the words that the forms offer.
type wordLists struct {
	Thumb    []choice          `json:"thumb"`
	Cover    []string          `json:"cover"`
	Carriers []geodata.Carrier `json:"carriers"`
	Kinds    []geodata.Kind    `json:"kinds"`
	Obstacle []string          `json:"obstacles"`
}

// choice is one answer with what it means.
type choice struct {
	Word string `json:"word"`
	Said string `json:"said"`
}

func lists() wordLists {
	l := wordLists{
		Cover:    []string{"turf", "rough grass", "bare", "dug"},
		Carriers: geodata.Carriers(),
		Kinds:    geodata.Kinds(),
		Obstacle: []string{"hedge", "fence", "wall", "shed", "polytunnel"},
	}
	for _, word := range soil.Words() {
		ground, _ := soil.Named(word)
		l.Thumb = append(l.Thumb, choice{word, ground.FieldTest})
	}
	return l
}

func (s *Server) getPlot(w http.ResponseWriter, r *http.Request) {
	dir := s.garden.folder()
	v := plotView{
		Version: s.opt.Version, Folder: filepath.Base(dir), Is: isPlot(dir), Units: geodata.Metric, Faults: geodata.Faults{},
		Fixtures: []fixtureView{}, Spots: []spotView{}, Keyed: []plotfolder.KeyedReading{}, Boundary: []orb.Point{}, Words: lists(),
	}
	if !v.Is {
		write(w, http.StatusOK, v)
		return
	}
	plot, revision, err := s.garden.read()
	v.Revision = revision
	if err != nil {
		v.Faults = told(faultsOf(err))
		plot = s.garden.inPart(dir)
	} else {
		v.Readable, v.Faults = true, told(plot.Notes)
	}
	v.fill(plot)
	if keyed, err := plotfolder.Keyed(dir); err == nil && keyed != nil {
		v.Keyed = keyed
	}
	write(w, http.StatusOK, v)
}

// fill puts a plot into the view.
func (v *plotView) fill(p *geodata.Plot) {
	v.Name = p.Name
	if p.Site.Units == string(geodata.FeetAndInch) {
		v.Units = geodata.FeetAndInch
	}
	v.Site = siteOf(p.Site)
	v.Drawn = p.BoundaryDrawn
	if len(p.Boundary) > 0 {
		v.Boundary = p.Boundary[0]
	}
	for _, f := range p.Fixtures {
		v.Fixtures = append(v.Fixtures, viewOf(f))
	}
	for _, h := range p.Spots {
		v.Spots = append(v.Spots, spotView{h.Name, h.At, h.Height})
	}
}

func siteOf(s geodata.Site) siteView {
	return siteView{
		Latitude: s.Place.Latitude, Thumb: s.Ground.Thumb, Cover: s.Ground.Cover,
		Count: s.Beds.Count, Length: s.Beds.Length, Width: s.Beds.Width, Depth: s.Beds.Depth, Path: s.Beds.Path,
		Boards: s.Boards.Lengths, Heights: s.Boards.Heights, Thickness: s.Boards.Thicknesses, BoardPrice: s.Boards.PricePerM,
		PegPrice: s.Pegs.Price, Compost: s.Compost.PricePerM3, Currency: s.Compost.Currency, Load: s.Carrying.Load,
		Services: s.Services,
	}
}

func viewOf(f geodata.Fixture) fixtureView {
	v := fixtureView{
		Kind: f.Kind, Name: f.Name, What: f.What, Height: f.TopHeight, Stem: f.StemDiameter, Evergreen: f.Evergreen,
		Carries: f.Carries, Overhead: f.Overhead, Located: f.Located, Depth: f.Depth, Pinned: f.Pinned,
	}
	switch shape := f.Shape.(type) {
	case orb.Point:
		v.Shape, v.Points = "point", []orb.Point{shape}
	case orb.LineString:
		v.Shape, v.Points = "line", shape
	case orb.Polygon:
		v.Shape = "area"
		if len(shape) > 0 {
			v.Points = shape[0][:max(0, len(shape[0])-1)]
		}
	}
	return v
}

// beginning is what is needed to begin a plot.
type beginning struct {
	Name    string        `json:"name"`
	Units   geodata.Units `json:"units"`
	Example bool          `json:"example"`
}

// begin makes a plot folder within the folder the page was opened on, and goes on
// with it.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) {
	var b beginning
	if err := take(r, &b); err != nil {
		fail(w, err)
		return
	}
	parent := s.garden.folder()
	if isPlot(parent) {
		refuse(w, http.StatusConflict, "is-plot", "this folder is a plot already")
		return
	}
	name, err := folderName(b)
	if err != nil {
		fail(w, err)
		return
	}
	dir := filepath.Join(parent, name)
	if b.Example {
		err = s.opt.Example(dir)
	} else {
		err = s.opt.Begin(dir, b.Name, b.Units)
	}
	if err != nil {
		refuse(w, http.StatusConflict, "cannot-begin", err.Error())
		return
	}
	s.garden.move(dir)
	write(w, http.StatusOK, map[string]string{"folder": name})
}

// folderName makes the name of a folder of a plot's name: letters, digits and
// hyphens, so that it means the same on every system and cannot lead elsewhere.
func folderName(b beginning) (string, error) {
	if b.Example {
		return "example", nil
	}
	if b.Units != geodata.Metric && b.Units != geodata.FeetAndInch {
		return "", fieldError{"units", "say m or ft"}
	}
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		case r == ' ', r == '-', r == '_':
			return '-'
		}
		return -1
	}, strings.TrimSpace(b.Name))
	name = strings.Trim(name, "-")
	if name == "" || len(name) > 60 {
		return "", fieldError{"name", "give the plot a name with a letter or a digit in it, of 60 letters at most"}
	}
	return name, nil
}
