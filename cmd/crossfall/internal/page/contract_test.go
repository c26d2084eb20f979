package page_test

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAnswersKeepTheContract holds what is answered to its description.
func TestAnswersKeepTheContract(t *testing.T) {
	text, err := os.ReadFile("openapi.json")
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	compiler := jsonschema.NewCompiler()
	require.NoError(t, compiler.AddResource("page.json", doc))
	check := func(name string, answer []byte) {
		t.Helper()
		schema, err := compiler.Compile("page.json#/components/schemas/" + name)
		require.NoError(t, err)
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(answer))
		require.NoError(t, err)
		assert.NoError(t, schema.Validate(v), name)
	}

	s := serve(t, options(plotOf(t, "hillside")))
	body := func(answer *http.Response, err error) []byte {
		t.Helper()
		require.NoError(t, err)
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		return text
	}
	for path, name := range map[string]string{
		"/api/plot": "Plot", "/api/survey?units=ft": "Survey", "/api/ground?nodes=12": "Ground", "/api/storm": "Storm", "/api/done": "Done", "/api/ground?nodes=x": "Problem",
	} {
		check(name, body(http.Get(s.url+path)))
	}
	sent := func(path, request string, v any) []byte {
		t.Helper()
		text, err := json.Marshal(v)
		require.NoError(t, err)
		check(request, text)
		return body(http.DefaultClient.Do(s.request(path, string(text))))
	}
	trial := map[string]any{"beds": []any{bed("one", 9, 15, 100)}, "units": "ft"}
	check("Assessment", sent("/api/try", "Trial", trial))
	check("Booked", sent("/api/readings", "Height", reading("contract-reading", "8.3", "11.2", "27.25"))) // doubted
	check("Revision", sent("/api/beds", "Beds", map[string]any{"revision": s.revision(), "beds": []any{bed("one", 9, 15, 100)}}))
	check("Problem", sent("/api/beds", "Beds", map[string]any{"revision": "of yesterday", "beds": []any{}}))
	for _, event := range streamed(t, s, "/api/assessment?units=ft") {
		name, data, _ := strings.Cut(event, "\n")
		if strings.TrimPrefix(name, "event: ") == "assessment" {
			check("Assessment", []byte(strings.TrimPrefix(data, "data: ")))
			return
		}
	}
	assert.Fail(t, "the stream ended without an assessment")
}

// streamed are the events of a stream that ends.
func streamed(t *testing.T, s *served, path string) []string {
	t.Helper()
	answer, err := http.Get(s.url + path)
	require.NoError(t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return strings.Split(strings.TrimSpace(string(text)), "\n\n")
}

// TestStagesAreTold has an assessment tell how far it is before it answers.
func TestStagesAreTold(t *testing.T) {
	s := serve(t, options(plotOf(t, "hillside")))
	events := streamed(t, s, "/api/assessment")
	require.Greater(t, len(events), 1)
	assert.Contains(t, events[0], "event: stage")
	assert.Contains(t, events[len(events)-1], "event: assessment")
}
