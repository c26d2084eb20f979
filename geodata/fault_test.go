package geodata_test

import (
	"errors"
	"testing"

	"crossfall/geodata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func fault(file string, line int, severity geodata.Severity, message string) geodata.Fault {
	return geodata.Fault{Code: "x", Severity: severity, Pos: geodata.Pos{File: file, Line: line}, Message: message}
}

func TestFaultsAreSortedByPlace(t *testing.T) {
	fs := geodata.Faults{
		fault("b.csv", 1, geodata.Problem, "later"), fault("a.csv", 9, geodata.Note, "third"),
		fault("a.csv", 2, geodata.Warning, "second"), fault("a.csv", 2, geodata.Problem, "first"),
	}
	fs.Sort()
	var order []string
	for _, f := range fs {
		order = append(order, f.Message)
	}
	assert.Equal(t, []string{"first", "second", "third", "later"}, order)
}

func TestOnlyProblemsAreErrors(t *testing.T) {
	var fs geodata.Faults
	require.NoError(t, fs.Err())
	fs.Add(fault("a.csv", 1, geodata.Warning, "odd"))
	fs.Add(fault("a.csv", 2, geodata.Note, "told"))
	require.NoError(t, fs.Err())
	fs.Add(fault("a.csv", 3, geodata.Problem, "wrong"))
	err := fs.Err()
	require.Error(t, err)
	assert.Equal(t, 1, fs.Problems())
	var one geodata.Fault
	require.True(t, errors.As(err, &one))
	assert.Equal(t, "odd", one.Message, "the first in order")
}

func TestFaultTellsPlaceTextAndAdvice(t *testing.T) {
	f := geodata.Fault{Pos: geodata.Pos{File: "heights.csv", Line: 3, Col: 7}, Read: "ten", Message: "z is not a number", Want: "write a number"}
	assert.Equal(t, `heights.csv:3:7: z is not a number (read "ten"); write a number`, f.Error())
	assert.Equal(t, "heights.csv:3", geodata.Pos{File: "heights.csv", Line: 3}.String())
	assert.Equal(t, "heights.csv", geodata.Pos{File: "heights.csv"}.String())
	text, err := geodata.Warning.MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "warning", string(text))
}

func TestEstimateTimes(t *testing.T) {
	e := geodata.Estimate{Value: 2, Low: 1, High: 4}
	assert.Equal(t, geodata.Estimate{Value: 4, Low: 2, High: 8}, e.Times(2))
	assert.Equal(t, geodata.Estimate{Value: -2, Low: -4, High: -1}, e.Times(-1), "low stays under high")
	assert.Equal(t, geodata.Estimate{Value: 3, Low: 3, High: 3}, geodata.Exactly(3))
}
