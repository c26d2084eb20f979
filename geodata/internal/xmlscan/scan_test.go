package xmlscan_test

import (
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ended lists the elements that end, as name=text@line:column of the text.
func ended(t *testing.T, data string) (out []string, codes []string) {
	t.Helper()
	var fs textfile.Faults
	s, ok := xmlscan.New("f.xml", []byte(data), &fs)
	for ok {
		e, ends := s.Next()
		if e == nil {
			break
		}
		if ends {
			pos := s.TextPos(e)
			pos.File = e.Name + "=" + e.Text + "@"
			out = append(out, pos.String())
		}
	}
	_, list := fs.Finish(geodata.Pos{File: "f.xml"}, geodata.RawPoints{Points: make([]geodata.RawPoint, 1)}, "")
	for _, f := range list {
		codes = append(codes, f.Code)
	}
	return out, codes
}

func TestElementsAndPlaces(t *testing.T) {
	got, codes := ended(t, "<?xml version='1.0'?>\r\n<x:a xmlns:x='u'>\r\n <b>\r\n  é one<!-- no -->two</b>\r\n <c><![CDATA[ <z> ]]></c><d/><e>&amp;&nbsp;</e>\r\n</x:a>")
	assert.Empty(t, codes)
	assert.Equal(t, []string{
		"b=é onetwo@:4:3", "c=<z> @:5:15", "d=@:5:26", "e=&\u00a0@:5:33", "a=@:2:1",
	}, got)
}

func TestBrokenFiles(t *testing.T) {
	for _, c := range []struct{ name, data, code string }{
		{"empty", "", "empty-file"},
		{"blank", " \n", "empty-file"},
		{"binary", "<a>\x00</a>", "not-text"},
		{"no element", "just words", "not-xml"},
		{"cut", "<a><b>", "not-xml"},
		{"crossed", "<a><b></a></b>", "not-xml"},
		{"unknown entity", "<a>&bomb;</a>", "not-xml"},
		{"encoding", "<?xml version='1.0' encoding='EBCDIC-X'?><a>\xe4</a>", "encoding-unknown"},
		{"deep", strings.Repeat("<a>", 200), "nested-too-deeply"},
	} {
		_, codes := ended(t, c.data)
		assert.Equal(t, []string{c.code}, codes, c.name)
	}
}

// A file that defines entities upon entities stays as small as it is.
func TestEntitiesOfTheFileAreNotExpanded(t *testing.T) {
	_, codes := ended(t, `<!DOCTYPE a [<!ENTITY x "lol"><!ENTITY y "&x;&x;&x;">]><a>&y;</a>`)
	assert.Equal(t, []string{"not-xml"}, codes)
}

func TestEncodings(t *testing.T) {
	got, codes := ended(t, "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><a>B\xf6schung</a>")
	assert.Empty(t, codes)
	assert.Equal(t, []string{"a=Böschung@:1:47"}, got)

	wide := "\xff\xfe"
	for _, r := range "<?xml version=\"1.0\" encoding=\"UTF-16\"?><a>b</a>" {
		wide += string([]byte{byte(r), 0})
	}
	got, codes = ended(t, wide)
	assert.Empty(t, codes)
	assert.Equal(t, []string{"a=b@:1:43"}, got)
	assert.Equal(t, "a", xmlscan.Root([]byte(wide)))
	assert.Equal(t, "a", xmlscan.Root([]byte(wide)[:len(wide)-1]))
}

func TestRoot(t *testing.T) {
	assert.Equal(t, "gpx", xmlscan.Root([]byte("\xef\xbb\xbf<?xml version='1.0'?><!-- x --><q:gpx a='1'>")))
	for _, no := range []string{"", "x,y,z\n", "{}", "PK\x03\x04", "<", "<!-- <gpx>"} {
		assert.Empty(t, xmlscan.Root([]byte(no)), "%q", no)
	}
}

// Nothing in the scan may grow with the square of the file.
func TestLongFilesInOneLine(t *testing.T) {
	var b strings.Builder
	b.WriteString("<a>")
	for range 200_000 {
		b.WriteString("x<!---->")
	}
	b.WriteString("</a>")
	got, codes := ended(t, b.String())
	require.Empty(t, codes)
	assert.Len(t, got, 1)
}

func BenchmarkScan1MB(b *testing.B) {
	data := []byte("<a>" + strings.Repeat("<p id='1'>1 2 3</p>", 50_000) + "</a>")
	for b.Loop() {
		var fs textfile.Faults
		s, _ := xmlscan.New("f.xml", data, &fs)
		for {
			if e, _ := s.Next(); e == nil {
				break
			}
		}
		if fs.Problems() > 0 {
			b.Fatal("problems")
		}
	}
}
