package page

import (
	"crypto/rand"
	"crypto/subtle"
	_ "embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"math/big"
	"net/http"
	"strings"
	"sync"
	"time"
)

// Code lets other devices in: each code is taken once, and a device that keyed it
// in holds a cookie until the page is closed.
type Code struct {
	mu     sync.Mutex
	now    string
	wrong  int             // since the code was made
	known_ map[string]bool // cookies given out
	say    func(code string)
}

// mostWrong is how often a code may be missed before another takes its place.
const mostWrong = 5

const cookieName = "crossfall"

// NewCode makes the first code and says it; say is told of every later one.
func NewCode(say func(code string)) *Code {
	c := &Code{known_: map[string]bool{}, say: say}
	c.renew()
	return c
}

// renew makes a new code of eight digits, in two groups.
func (c *Code) renew() {
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		panic(err) // the system has no randomness: nothing can be kept from anyone
	}
	digits := fmt.Sprintf("%08d", n)
	c.now, c.wrong = digits[:4]+" "+digits[4:], 0
	c.say(c.now)
}

// known tells whether a request comes from a device that keyed a code in.
func (c *Code) known(r *http.Request) bool {
	cookie, err := r.Cookie(cookieName)
	if err != nil {
		return false
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.known_[cookie.Value]
}

// take exchanges the code for a cookie; "" when it is not the code.
func (c *Code) take(typed string) string {
	c.mu.Lock()
	defer c.mu.Unlock()
	strip := func(t string) string { return strings.Join(strings.Fields(t), "") }
	if subtle.ConstantTimeCompare([]byte(strip(typed)), []byte(strip(c.now))) != 1 {
		c.wrong++
		if c.wrong >= mostWrong {
			c.renew()
		}
		return ""
	}
	secret := make([]byte, 24)
	if _, err := rand.Read(secret); err != nil {
		return ""
	}
	cookie := hex.EncodeToString(secret)
	c.known_[cookie] = true
	c.renew()
	return cookie
}

// codePage asks for the code. It is a plain form, so that it works before
// anything else does.
//
//go:embed code.html.tmpl
var codePage string

// codeTemplate is read when it is first wanted.
var codeTemplate = sync.OnceValues(func() (*template.Template, error) { return template.New("code").Parse(codePage) })

func (s *Server) askCode(w http.ResponseWriter, r *http.Request) { s.showCode(w, "") }

func (s *Server) showCode(w http.ResponseWriter, wrong string) {
	page, err := codeTemplate()
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	if wrong != "" {
		w.WriteHeader(http.StatusForbidden)
	}
	_ = page.Execute(w, wrong) // the device has gone: nothing to be done
}

// wrongWait is how long a wrong code keeps its device waiting.
const wrongWait = 500 * time.Millisecond

func (s *Server) takeCode(w http.ResponseWriter, r *http.Request) {
	if s.opt.Code == nil {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	cookie := s.opt.Code.take(r.FormValue("code"))
	if cookie == "" {
		select {
		case <-time.After(wrongWait):
		case <-r.Context().Done():
		}
		s.showCode(w, "That is not the code, or it has been used. Each code lets one device in; look at the laptop for the newest.")
		return
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: cookie, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
}
