package export_test

import (
	"bytes"
	"encoding"
	"encoding/json"
	"flag"
	"os"
	"path"
	"reflect"
	"slices"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/siting"

	reflected "github.com/invopop/jsonschema"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write assessment.schema.json anew")

const schemaFile = "assessment.schema.json"

// The schema is made anew from the types and compared with what is published.
func TestSchemaIsThatOfTheTypes(t *testing.T) {
	made := makeSchema(t)
	if *update {
		require.NoError(t, os.WriteFile(schemaFile, made, 0o644))
		return
	}
	assert.True(t, bytes.Equal(made, export.Schema()),
		"the types of the assessment, or their comments, have changed: run\n\tgo test ./cmd/crossfall/internal/export -run Schema -update\nlook at the difference and commit %s", schemaFile)
}

// makeSchema reflects the assessment. Descriptions are the comments of types and
// fields, units the endings of keys.
func makeSchema(t *testing.T) []byte {
	t.Helper()
	seen := map[string]reflect.Type{}
	r := &reflected.Reflector{
		Anonymous: true, AllowAdditionalProperties: true, // keys may be added without a new schema_version
		Namer: func(t reflect.Type) string {
			name := schemaName(t)
			if t.Kind() == reflect.Struct {
				seen[name] = t
			}
			return name
		},
		Mapper: func(t reflect.Type) *reflected.Schema {
			if t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
				return &reflected.Schema{Type: "string"}
			}
			return nil
		},
	}
	t.Chdir("../../../..")
	for _, folder := range []string{"geodata", "siting"} {
		require.NoError(t, r.AddGoComments("crossfall", folder, reflected.WithFullComment()))
	}
	for key, text := range r.CommentMap {
		r.CommentMap[key] = strings.Join(strings.Fields(text), " ")
	}
	s := r.Reflect(&siting.Assessment{})
	t.Chdir("cmd/crossfall/internal/export")
	s.Title = "An assessment of a plot for raised beds"
	for name, of := range seen {
		if def := s.Definitions[name]; def != nil {
			finish(def, of)
		}
	}
	text, err := json.MarshalIndent(s, "", "  ")
	require.NoError(t, err)
	return append(text, '\n')
}

// schemaName is the name of a type among the definitions: with its package, because
// several have a Bed.
func schemaName(t reflect.Type) string {
	if t.Name() == "" || t.PkgPath() == "" {
		return ""
	}
	return path.Base(t.PkgPath()) + "." + t.Name()
}

// finish lets null stand where a field may be nil, and names units.
func finish(def *reflected.Schema, of reflect.Type) {
	for i := range of.NumField() {
		f := of.Field(i)
		if f.Anonymous {
			finish(def, f.Type)
			continue
		}
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		p, ok := def.Properties.Get(key)
		if !ok {
			continue
		}
		if f.Type.Kind() == reflect.Pointer && slices.Contains(def.Required, key) {
			plain := *p
			plain.Description = ""
			p = &reflected.Schema{Description: p.Description, AnyOf: []*reflected.Schema{&plain, {Type: "null"}}}
			def.Properties.Set(key, p)
		}
		if unit := unitOf(key); unit != "" {
			p.Extras = map[string]any{"unit": unit}
		}
	}
}

// unitOf is the unit that the ending of a key names.
func unitOf(key string) string {
	for _, u := range []struct{ ending, unit string }{
		{"_litres_per_s", "litres/s"}, {"_mm_per_h", "mm/h"}, {"_kg_m3", "kg/m3"}, {"_t_per_ha", "t/ha"}, {"t_per_ha", "t/ha"},
		{"_m2", "m2"}, {"_m3", "m3"}, {"_mm", "mm"}, {"_m", "m"}, {"_kg", "kg"}, {"_percent", "%"}, {"_degrees", "degrees"},
		{"_newtons", "N"}, {"_years", "years"}, {"_litres", "litres"}, {"_hours", "hours"}, {"_minutes", "minutes"},
	} {
		if strings.HasSuffix(key, u.ending) {
			return u.unit
		}
	}
	return ""
}

// compiled is the published schema.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	if *update {
		t.Skip("the schema in this program is the one before")
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(export.Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource(schemaFile, doc))
	s, err := c.Compile(schemaFile)
	require.NoError(t, err)
	return s
}

func TestAssessmentsFollowTheSchema(t *testing.T) {
	s := compiled(t)
	for _, plot := range plots {
		a := assessed(t, plot)
		for _, a := range []*siting.Assessment{a, onEarth(a)} {
			var b bytes.Buffer
			require.NoError(t, export.JSON(&b, a))
			doc, err := jsonschema.UnmarshalJSON(&b)
			require.NoError(t, err)
			assert.NoError(t, s.Validate(doc), plot)
		}
	}
}

func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	var b bytes.Buffer
	require.NoError(t, export.JSON(&b, assessed(t, "hillside")))
	for _, c := range []struct{ what, from, to string }{
		{"a bed without its name", `"name": "bed 1"`, `"nom": "bed 1"`},
		{"text for a figure", `"schema_version": 1`, `"schema_version": "one"`},
		{"null for a list", `"cautions": [`, `"cautions": null, "were": [`},
	} {
		require.Contains(t, b.String(), c.from)
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(strings.Replace(b.String(), c.from, c.to, 1)))
		require.NoError(t, err)
		assert.Error(t, s.Validate(doc), c.what)
	}
}
