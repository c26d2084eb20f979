package page

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting/soil"
)

// keyedSite changes site.toml: the keys to set, null to take one out.
type keyedSite struct {
	Revision string                     `json:"revision"`
	Set      map[string]json.RawMessage `json:"set"`
}

// siteKeys are the settings that the page may change, with what each holds.
var siteKeys = map[string]string{
	"name": "text", "units": "text",
	"place.latitude": "number", "place.north": "text", "place.y_axis_bearing_degrees": "number",
	"ground.thumb": "text", "ground.cover": "text",
	"beds.count": "count", "beds.length_m": "number", "beds.width_m": "number", "beds.depth_mm": "number", "beds.path_m": "number",
	"boards.lengths_m": "numbers", "boards.heights_mm": "numbers", "boards.thicknesses_mm": "numbers", "boards.price_per_m": "number",
	"pegs.price_each": "number", "compost.price_per_m3": "number", "compost.currency": "text", "carrying.load_litres": "number",
}

// kindOf is what a setting holds; "" for one that is not changed here.
func kindOf(key string) string {
	if carrier, ok := strings.CutPrefix(key, "services."); ok && slices.Contains(geodata.Carriers(), geodata.Carrier(carrier)) {
		return "text"
	}
	return siteKeys[key]
}

func (s *Server) postSite(w http.ResponseWriter, r *http.Request) {
	var k keyedSite
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	set, err := settingsOf(k.Set)
	if err != nil {
		fail(w, err)
		return
	}
	s.answerChanged(w, func(dir string) error { return plotfolder.EditSite(dir, k.Revision, set) })
}

// settingsOf are the settings in order of their keys.
func settingsOf(set map[string]json.RawMessage) ([]plotfolder.Setting, error) {
	var out []plotfolder.Setting
	for key, raw := range set {
		value, err := settingOf(key, raw)
		if err != nil {
			return nil, err
		}
		out = append(out, plotfolder.Setting{Key: key, Value: value})
	}
	slices.SortFunc(out, func(a, b plotfolder.Setting) int { return strings.Compare(a.Key, b.Key) })
	return out, nil
}

func settingOf(key string, raw json.RawMessage) (any, error) {
	kind := kindOf(key)
	if kind == "" {
		return nil, fieldError{key, "this setting is not changed here; write it into site.toml"}
	}
	if string(raw) == "null" {
		return nil, nil
	}
	wrong := func(want string) error { return fieldError{key, fmt.Sprintf("%s is not %s", raw, want)} }
	switch kind {
	case "count":
		var v int64
		if json.Unmarshal(raw, &v) != nil {
			return nil, wrong("a whole number")
		}
		return v, nil
	case "number":
		var v float64
		if json.Unmarshal(raw, &v) != nil {
			return nil, wrong("a number")
		}
		return v, nil
	case "numbers":
		var v []float64
		if json.Unmarshal(raw, &v) != nil {
			return nil, wrong("a list of numbers")
		}
		return v, nil
	}
	var v string
	if json.Unmarshal(raw, &v) != nil {
		return nil, wrong("a text")
	}
	if _, known := soil.Named(v); key == "ground.thumb" && !known {
		return nil, wrong("one of the words for the ground: " + strings.Join(soil.Words(), "; "))
	}
	return oneLine(v), nil
}

// answerChanged changes files and answers with the new revision.
func (s *Server) answerChanged(w http.ResponseWriter, do func(dir string) error) {
	if err := s.garden.change(do); err != nil {
		fail(w, err)
		return
	}
	write(w, http.StatusOK, map[string]string{"revision": s.garden.revision()})
}

// keyedAcknowledgement says that somebody has read a caution.
type keyedAcknowledgement struct {
	Revision string `json:"revision"`
	Caution  string `json:"caution"`
	By       string `json:"by"`
	Date     string `json:"date"`
}

func (s *Server) acknowledge(w http.ResponseWriter, r *http.Request) {
	var k keyedAcknowledgement
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	if oneLine(k.By) == "" {
		fail(w, fieldError{"by", "say who has read it"})
		return
	}
	s.answerChanged(w, func(dir string) error {
		return plotfolder.Acknowledge(dir, k.Revision, geodata.Acknowledgement{Caution: oneLine(k.Caution), By: oneLine(k.By), Date: k.Date})
	})
}
