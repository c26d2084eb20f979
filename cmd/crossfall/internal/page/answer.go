package page

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
)

// problem is the answer to a request that could not be done.
type problem struct {
	Code    string         `json:"code"` // stable
	Message string         `json:"message"`
	Field   string         `json:"field,omitempty"` // of the request
	Faults  geodata.Faults `json:"faults,omitempty"`
}

// fieldError is what is wrong with one field of a request.
type fieldError struct{ field, message string }

func (e fieldError) Error() string { return e.field + ": " + e.message }

// refuse answers with a problem.
func refuse(w http.ResponseWriter, status int, code, message string) {
	write(w, status, problem{Code: code, Message: message})
}

// fail answers with what went wrong.
func fail(w http.ResponseWriter, err error) {
	var (
		faults  geodata.Faults
		field   fieldError
		tooMuch *http.MaxBytesError
		syntax  *json.SyntaxError
		kind    *json.UnmarshalTypeError
	)
	switch {
	case errors.As(err, &faults):
		write(w, http.StatusUnprocessableEntity, problem{Code: "faults", Message: "the plot's files cannot be read whole", Faults: told(faults)})
	case errors.As(err, &field):
		write(w, http.StatusUnprocessableEntity, problem{Code: "wrong-entry", Field: field.field, Message: field.message})
	case errors.Is(err, plotfolder.ErrChanged):
		refuse(w, http.StatusConflict, "changed", "the plot's files were changed elsewhere; nothing was written: look at them anew and say it again")
	case errors.Is(err, plotfolder.ErrNotKeyed), errors.Is(err, plotfolder.ErrRowChanged):
		refuse(w, http.StatusConflict, "not-taken-back", err.Error())
	case errors.As(err, &tooMuch):
		refuse(w, http.StatusRequestEntityTooLarge, "too-large", fmt.Sprintf("a request may hold %d KiB at most", MostBody>>10))
	case errors.As(err, &syntax), errors.As(err, &kind):
		refuse(w, http.StatusBadRequest, "not-understood", "the request is not the JSON that was expected: "+err.Error())
	default:
		refuse(w, http.StatusInternalServerError, "failed", err.Error())
	}
}

// mostFaults is the number of faults told at once.
const mostFaults = 20

func told(faults geodata.Faults) geodata.Faults { return faults[:min(len(faults), mostFaults)] }

// write answers with a value as JSON.
func write(w http.ResponseWriter, status int, v any) {
	text, err := jsonText(v)
	if err != nil {
		status, text = http.StatusInternalServerError, []byte(`{"code":"own-fault","message":"the answer could not be written"}`)
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(text) // the device has gone: nothing to be done
}

func jsonText(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}

// take reads a request's JSON; keys that are not known are refused.
func take(r *http.Request, v any) error {
	defer drain(r)
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		var syntax *json.SyntaxError
		var kind *json.UnmarshalTypeError
		var tooMuch *http.MaxBytesError
		if errors.As(err, &syntax) || errors.As(err, &kind) || errors.As(err, &tooMuch) {
			return err
		}
		return fieldError{"", "the request is not understood: " + err.Error()}
	}
	return nil
}

// unitsAsked are the units that an answer is wanted in.
func unitsAsked(r *http.Request, own geodata.Units) (geodata.Units, error) {
	switch u := r.URL.Query().Get("units"); u {
	case "":
		return own, nil
	case "m", "ft":
		return geodata.Units(u), nil
	default:
		return "", fieldError{"units", fmt.Sprintf("%q is not m or ft", u)}
	}
}
