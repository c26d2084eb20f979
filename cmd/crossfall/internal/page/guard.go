package page

import (
	"fmt"
	"io"
	"log"
	"mime"
	"net/http"
	"net/netip"
	"net/url"
	"runtime/debug"
	"slices"
	"strings"
)

// MostBody is the greatest body of a request, bytes.
const MostBody = 1 << 20

// policy lets the page load what this server gives and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

// paperPolicy is for the report and the plan, which carry their style within and
// no script.
const paperPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guard stands before every request: whom the page answers to, from where it
// may be changed, how much it takes, and who has keyed in the code.
func (s *Server) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer recovered(w, r)
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !slices.Contains(s.opt.Hosts, strings.ToLower(r.Host)):
			refuse(w, http.StatusMisdirectedRequest, "wrong-host", fmt.Sprintf("this page does not answer to the name %q; open the address that was printed", r.Host))
			return
		case r.Method != http.MethodGet && r.Method != http.MethodHead && !sameOrigin(r):
			refuse(w, http.StatusForbidden, "wrong-origin", "the request came from another page")
			return
		case s.opt.Code != nil && !s.opt.Code.known(r) && !openWithoutCode(r) && !(s.opt.OwnOpen && fromHere(r)):
			if strings.HasPrefix(r.URL.Path, "/api/") {
				refuse(w, http.StatusUnauthorized, "code-needed", "key in the code that the laptop shows")
				return
			}
			http.Redirect(w, r, "/code", http.StatusSeeOther)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, MostBody)
		next.ServeHTTP(w, r)
	})
}

// openWithoutCode are the pages that a device without the code may see.
func openWithoutCode(r *http.Request) bool {
	return r.URL.Path == "/code" || r.URL.Path == "/style.css"
}

// fromHere tells whether a request comes from this machine.
func fromHere(r *http.Request) bool {
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	return err == nil && from.Addr().Unmap().IsLoopback()
}

// sameOrigin tells whether a request was made by a page of this server. A
// browser names the origin of every request that is not a GET.
func sameOrigin(r *http.Request) bool {
	if site := r.Header.Get("Sec-Fetch-Site"); site != "" && site != "same-origin" && site != "none" {
		return false
	}
	origin, err := url.Parse(r.Header.Get("Origin"))
	if err != nil || origin.Scheme != "http" || !strings.EqualFold(origin.Host, r.Host) {
		return false
	}
	if r.URL.Path == "/code" { // a plain form
		return true
	}
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	return err == nil && kind == "application/json"
}

// recovered turns a panic, which is always a fault of the program, into a plain
// message.
func recovered(w http.ResponseWriter, r *http.Request) {
	p := recover()
	if p == nil || p == http.ErrAbortHandler {
		return
	}
	log.Printf("crossfall: this is a fault in Crossfall, not in your input: %v at %s\n%s", p, r.URL.Path, debug.Stack())
	refuse(w, http.StatusInternalServerError, "own-fault", "this is a fault in Crossfall, not in your input, and nothing was changed")
}

// drain reads what is left of a body, so that the connection can be used again.
func drain(r *http.Request) { _, _ = io.Copy(io.Discard, r.Body) }
