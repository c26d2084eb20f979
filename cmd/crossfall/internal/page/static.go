package page

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"strings"
	"time"
)

// shelf is one of the page's own files, ready to be sent.
type shelf struct {
	plain, packed []byte
	kind, tag     string
}

// static serves the page's own files. They are packed once, and a device may keep
// them for half a day, so that it can come back to the page out of reach of the
// laptop; a page of another version than the server's is fetched anew.
func static(shell fs.FS, version string) http.Handler {
	files := map[string]shelf{}
	err := fs.WalkDir(shell, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		f, err := shelve(shell, name)
		files["/"+name] = f
		return err
	})
	if err != nil {
		panic(err) // the files are part of the program
	}
	files["/"] = files["/index.html"]
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f, ok := files[path.Clean(r.URL.Path)]
		if !ok {
			refuse(w, http.StatusNotFound, "not-there", "there is nothing at this address")
			return
		}
		h := w.Header()
		h.Set("Content-Type", f.kind)
		h.Set("Cache-Control", "private, max-age=43200")
		h.Set("ETag", f.tag)
		h.Add("Vary", "Accept-Encoding")
		body := f.plain
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.Set("Content-Encoding", "gzip")
			body = f.packed
		}
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(body))
	})
}

func shelve(shell fs.FS, name string) (shelf, error) {
	plain, err := fs.ReadFile(shell, name)
	if err != nil {
		return shelf{}, err
	}
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return shelf{}, err
	}
	if _, err := io.Copy(z, bytes.NewReader(plain)); err != nil {
		return shelf{}, err
	}
	if err := z.Close(); err != nil {
		return shelf{}, err
	}
	sum := sha256.Sum256(plain)
	return shelf{plain: plain, packed: b.Bytes(), kind: kindOfFile(name), tag: `"` + hex.EncodeToString(sum[:8]) + `"`}, nil
}

// kindOfFile is the media type; the usual ones are named here, since a system's
// own table may not have them.
func kindOfFile(name string) string {
	switch path.Ext(name) {
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".html":
		return "text/html; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".svg":
		return "image/svg+xml"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return mime.TypeByExtension(path.Ext(name))
}
