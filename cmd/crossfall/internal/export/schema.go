package export

import _ "embed"

// schema is the JSON Schema (draft 2020-12) of assessment.json, made from the types
// of the assessment and their comments by the test that compares it with them.
//
//go:embed assessment.schema.json
var schema []byte

// Schema is the JSON Schema (draft 2020-12) of assessment.json: every key with what
// it means and, where it has one, its unit.
func Schema() []byte { return schema }
