package plotfolder_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func bookOne(t testing.TB, dir, id string, r plotfolder.NewReading) (again bool) {
	t.Helper()
	again, err := plotfolder.BookHeight(dir, id, geodata.Site{}, r)
	require.NoError(t, err)
	return again
}

func journalOf(t testing.TB, dir string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, ".crossfall", "readings.jsonl"))
	if err != nil {
		require.ErrorIs(t, err, os.ErrNotExist)
	}
	return string(data)
}

// state is a plot folder as a crash may leave it.
type state struct{ journal, table string }

func (s state) put(t testing.TB, dir, name string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, ".crossfall"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".crossfall", "readings.jsonl"), []byte(s.journal), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(s.table), 0o600))
}

func TestBookHeightMakesTheFile(t *testing.T) {
	for unit, want := range map[string]string{
		"":   "name,x (m),y (m),z (m),note\nr1,1.5,2,29.12,\"low, wet\"\n",
		"ft": "name,x (ft),y (ft),z (ft),note\nr1,4.9213,6.5617,95.5381,\"low, wet\"\n", // over 0.3048
	} {
		dir := t.TempDir()
		again, err := plotfolder.BookHeight(dir, "id-1", geodata.Site{Units: unit}, plotfolder.NewReading{Name: "r1", X: 1.5, Y: 2, Z: 29.12, Note: "low, wet"})
		require.NoError(t, err)
		assert.False(t, again)
		assert.Equal(t, want, content(t, filepath.Join(dir, "heights.csv")))
		assert.Equal(t, []string{".crossfall", "heights.csv"}, names(t, dir))
	}
}

func TestBookHeightKeepsToTheFile(t *testing.T) {
	for _, c := range []struct{ name, before, row string }{
		{"Heights.CSV", "z (mm);y;x\n1000;0;0\n", "1250;2;1\n"},
		{"heights.txt", "name,x,y,z", "\nr,1,2,1.25\n"},
		{"heights.csv", "# remarks alone", "\nname,x (m),y (m),z (m),note\nr,1,2,1.25,\n"},
		{"heights.csv", "", "name,x (m),y (m),z (m),note\nr,1,2,1.25,\n"},
	} {
		dir := folder(t, files{c.name: c.before})
		bookOne(t, dir, "id-1", plotfolder.NewReading{Name: "r", X: 1, Y: 2, Z: 1.25})
		assert.Equal(t, c.before+c.row, content(t, filepath.Join(dir, c.name)))
	}
}

func TestBookHeightOnceForEachID(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	r := plotfolder.NewReading{Name: "r", X: 1, Y: 2, Z: 29.25}
	assert.False(t, bookOne(t, dir, "id-1", r))
	assert.True(t, bookOne(t, dir, "id-1", r))
	assert.False(t, bookOne(t, dir, "id-2", r), "the same figures, another reading")
	r.Z = 29.5
	assert.True(t, bookOne(t, dir, "id-1", r))
	assert.Equal(t, sound+"r,1,2,29.25\nr,1,2,29.25\n", content(t, filepath.Join(dir, "heights.csv")))
	keyed, err := plotfolder.Keyed(dir)
	require.NoError(t, err)
	assert.Equal(t, []plotfolder.KeyedReading{{"id-1", "heights.csv", "r,1,2,29.25", true}, {"id-2", "heights.csv", "r,1,2,29.25", true}}, keyed)
}

func TestBookRefusesAndWritesNothing(t *testing.T) {
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		fs   files
		r    plotfolder.NewReading
		said string
	}{
		"another format":  {files{"heights.gpx": "<gpx/>"}, plotfolder.NewReading{}, "heights of this folder are in heights.gpx"},
		"two files":       {files{"heights.csv": sound, "heights.txt": sound}, plotfolder.NewReading{}, "more than one file of heights"},
		"no header":       {files{"heights.csv": "1,2,3\n"}, plotfolder.NewReading{}, "no header row"},
		"degrees":         {files{"heights.csv": "lon,lat,z\n1,2,3\n"}, plotfolder.NewReading{}, "longitude and latitude"},
		"no such ground":  {files{"heights.csv": sound}, plotfolder.NewReading{Z: 9999}, "no ground has this height"},
		"no such place":   {files{"heights.csv": sound}, plotfolder.NewReading{X: inf, Z: 29}, "this is no place"},
		"UTF-16":          {files{"heights.csv": "\xff\xfex\x00,\x00y\x00,\x00z\x00\n\x00"}, plotfolder.NewReading{Z: 29}, "UTF-16"},
		"journal spoiled": {files{"heights.csv": sound, ".crossfall": "a file"}, plotfolder.NewReading{Z: 29}, "readings.jsonl"},
	} {
		dir := folder(t, c.fs)
		_, err := plotfolder.BookHeight(dir, "id-1", geodata.Site{}, c.r)
		assert.ErrorContains(t, err, c.said, name)
		for file, text := range c.fs {
			assert.Equal(t, text, content(t, filepath.Join(dir, file)), name)
		}
		assert.Len(t, names(t, dir), len(c.fs), name)
	}
	_, err := plotfolder.BookHeight(t.TempDir(), "", geodata.Site{}, plotfolder.NewReading{})
	assert.Error(t, err, "no id")
	_, err = plotfolder.BookHeight(filepath.Join(t.TempDir(), "none"), "id-1", geodata.Site{}, plotfolder.NewReading{})
	assert.Error(t, err, "no folder")
}

func TestBookLeavesLinksAlone(t *testing.T) {
	away := folder(t, files{"real.csv": sound})
	dir := t.TempDir()
	require.NoError(t, os.Symlink(filepath.Join(away, "real.csv"), filepath.Join(dir, "heights.csv")))
	_, err := plotfolder.BookHeight(dir, "id-1", geodata.Site{}, plotfolder.NewReading{Z: 29})
	assert.ErrorIs(t, err, plotfolder.ErrLink)
	other := folder(t, files{"heights.csv": sound})
	require.NoError(t, os.Symlink(away, filepath.Join(other, ".crossfall")))
	_, err = plotfolder.BookHeight(other, "id-1", geodata.Site{}, plotfolder.NewReading{Z: 29})
	assert.ErrorIs(t, err, plotfolder.ErrLink)
	assert.Equal(t, []string{"real.csv"}, names(t, away))
	assert.Equal(t, sound, content(t, filepath.Join(away, "real.csv")))
}

// A journal is an open file: what it says of files that are no tables is passed
// over, as are lines that are no records.
func TestJournalLeadsNowhereElse(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound, "site.toml": "x"})
	state{"{\"id\":\"a\",\"file\":\"../x\",\"offset\":0,\"row\":\"r\"}\n{\"id\":\"b\",\"file\":\"site.toml\",\"offset\":0,\"row\":\"xy\"}\nnonsense\n{}\n", sound}.put(t, dir, "heights.csv")
	assert.False(t, bookOne(t, dir, "a", plotfolder.NewReading{Name: "r", Z: 29}))
	assert.Equal(t, "x", content(t, filepath.Join(dir, "site.toml")))
	assert.Equal(t, sound+"r,0,0,29\n", content(t, filepath.Join(dir, "heights.csv")))
}

// cuts are the states that a loss of power during one booking may leave, with the
// journal and the table before and after it: the journal is flushed with what
// will be written before the table is touched, and that before it is told as
// done. Room that was made in the table and not filled is zeros.
func cuts(before, after state) (out []state) {
	added := strings.TrimPrefix(after.journal, before.journal)
	intent, told, _ := strings.Cut(added, "\n")
	intent += "\n"
	for k := range len(intent) + 1 {
		out = append(out, state{before.journal + intent[:k], before.table})
	}
	text := strings.TrimPrefix(after.table, before.table)
	for k := range len(text) + 1 {
		out = append(out, state{before.journal + intent, before.table + text[:k]})
		if k < len(text) {
			out = append(out, state{before.journal + intent, before.table + text[:k] + strings.Repeat("\x00", len(text)-k)})
		}
	}
	for k := range len(told) + 1 {
		out = append(out, state{before.journal + intent + told[:k], after.table})
	}
	return out
}

// booking is one reading of any kind.
type booking func(dir, id string) (again bool, err error)

func metres(v float64) *float64 { return &v }

var bookings = map[string]booking{
	"heights.csv": func(dir, id string) (bool, error) {
		return plotfolder.BookHeight(dir, id, geodata.Site{}, plotfolder.NewReading{Name: "name of " + id, X: 1, Y: 2, Z: 29.25, Note: "a \"note\", with both"})
	},
	"levels.csv": func(dir, id string) (bool, error) {
		return plotfolder.BookLevel(dir, id, geodata.Site{}, plotfolder.NewLevel{Station: id, Back: metres(1.476)})
	},
	"ties.csv": func(dir, id string) (bool, error) {
		return plotfolder.BookTie(dir, id, geodata.Site{}, plotfolder.NewTie{Point: id, Method: levelbook.TapeTie, From: "shed", To: "gate", A: 8, B: 6, Side: "left"})
	},
}

// stride spares the disk: every byte is tried for the heights, every seventh for
// what is written by the same means.
func stride(name string) int {
	if name == "heights.csv" {
		return 1
	}
	return 7
}

// After a crash at any byte, sending a reading again gives a table that is to the
// byte what it would have been without the crash.
func TestBookingSurvivesACrashAtEveryByte(t *testing.T) {
	for name, book := range bookings {
		for _, last := range []string{"", "# a remark without an end of line"} {
			if last != "" && name != "heights.csv" {
				continue
			}
			t.Run(name+last, func(t *testing.T) {
				dir := t.TempDir()
				send := func(id string) bool {
					again, err := book(dir, id)
					require.NoError(t, err)
					return again
				}
				now := func() state { return state{journalOf(t, dir), content(t, filepath.Join(dir, name))} }
				send("one")
				if last != "" {
					(state{now().journal, now().table + last}).put(t, dir, name)
				}
				before := now()
				send("two")
				after := now()
				send("three")
				end := now()
				for i, s := range cuts(before, after) {
					if i%stride(name+last) != 0 {
						continue
					}
					s.put(t, dir, name)
					_, err := plotfolder.Keyed(dir)
					require.NoError(t, err)
					require.Equal(t, s, now(), "looking changes nothing")

					send("two")
					require.Equal(t, after.table, now().table, "crash %d, sent again: %q", i, s)
					require.True(t, send("two") && send("one"), "crash %d", i)
					require.False(t, send("three"))
					require.Equal(t, end.table, now().table, "crash %d, and another: %q", i, s)

					if i%8 != 0 { // enough of these
						continue
					}
					s.put(t, dir, name)
					send("three")
					send("two")
					require.True(t, send("one") && send("two") && send("three"))
					for _, id := range []string{"one", "two", "three"} {
						rows := keyedRow(t, dir, id)
						require.Equal(t, 1, strings.Count(now().table, rows+"\n"), "crash %d, another first: %q of %q", i, rows, now().table)
					}
				}
			})
		}
	}
}

// keyedRow is the row of an id, which must stand.
func keyedRow(t *testing.T, dir, id string) string {
	t.Helper()
	keyed, err := plotfolder.Keyed(dir)
	require.NoError(t, err)
	for _, k := range keyed {
		if k.ID == id {
			require.True(t, k.Stands, id)
			return k.Row
		}
	}
	require.Fail(t, "not keyed", id)
	return ""
}

func TestUnbookSurvivesACrashAtEveryByte(t *testing.T) {
	for name, book := range bookings {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			now := func() state { return state{journalOf(t, dir), content(t, filepath.Join(dir, name))} }
			for _, id := range []string{"one", "two", "three"} {
				_, err := book(dir, id)
				require.NoError(t, err)
			}
			row := keyedRow(t, dir, "two")
			before := now()
			removed, err := plotfolder.Unbook(dir, "two")
			require.NoError(t, err)
			assert.Equal(t, row, removed)
			after := now()
			assert.Equal(t, strings.Replace(before.table, row+"\n", "", 1), after.table)
			assert.Equal(t, before.table, content(t, filepath.Join(dir, name+".before")))

			added := strings.TrimPrefix(after.journal, before.journal)
			intent, told, _ := strings.Cut(added, "\n")
			intent += "\n"
			var states []state
			for k := range len(intent) + 1 {
				states = append(states, state{before.journal + intent[:k], before.table})
			}
			for k := range len(told) + 1 {
				states = append(states, state{before.journal + intent + told[:k], after.table})
			}
			for i, s := range states {
				if i%stride(name) != 0 {
					continue
				}
				s.put(t, dir, name)
				removed, err := plotfolder.Unbook(dir, "two")
				require.NoError(t, err, "crash %d: %q", i, s)
				require.Equal(t, row, removed)
				require.Equal(t, after.table, now().table)
				again, err := book(dir, "two")
				require.NoError(t, err)
				require.True(t, again, "one that was taken back is not booked by being sent late")
				require.Equal(t, after.table, now().table)
			}
		})
	}
}

func TestUnbookRefusesARowThatWasChanged(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	bookOne(t, dir, "id-1", plotfolder.NewReading{Name: "r", X: 1, Y: 2, Z: 29.25})
	path := filepath.Join(dir, "heights.csv")
	changed := strings.Replace(content(t, path), "29.25", "29.52", 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o600))
	_, err := plotfolder.Unbook(dir, "id-1")
	assert.ErrorIs(t, err, plotfolder.ErrRowChanged)
	_, err = plotfolder.Unbook(dir, "id-2")
	assert.ErrorIs(t, err, plotfolder.ErrNotKeyed)
	assert.Equal(t, changed, content(t, path))
	keyed, err := plotfolder.Keyed(dir)
	require.NoError(t, err)
	assert.Equal(t, []plotfolder.KeyedReading{{"id-1", "heights.csv", "r,1,2,29.25", false}}, keyed)
	assert.True(t, bookOne(t, dir, "id-1", plotfolder.NewReading{}), "a person changed it: it is not booked over again")
}

// A person edits between a crash and the next reading: the row is found wherever
// it stands now.
func TestBookingFindsARowThatMoved(t *testing.T) {
	dir := folder(t, files{"heights.csv": sound})
	r := plotfolder.NewReading{Name: "r", X: 1, Y: 2, Z: 29.25}
	bookOne(t, dir, "id-1", r)
	intent, _, _ := strings.Cut(journalOf(t, dir), "\n")
	for _, table := range []string{
		"# a remark above\n" + sound + "r,1,2,29.25\n",
		"name,x (m),y (m),z (m)\nr,1,2,29.25\n",
		strings.ReplaceAll(sound+"r,1,2,29.25\n", "\n", "\r\n"),
	} {
		state{intent + "\n", table}.put(t, dir, "heights.csv")
		assert.True(t, bookOne(t, dir, "id-1", r))
		assert.Equal(t, table, content(t, filepath.Join(dir, "heights.csv")))
	}
	state{intent + "\n", "name,x (m),y (m),z (m)\n"}.put(t, dir, "heights.csv")
	assert.False(t, bookOne(t, dir, "id-1", r), "it is nowhere")
}

func TestBookLevelKeepsToTheBook(t *testing.T) {
	line := plotfolder.NewLevel{Station: "C", Back: metres(3.048), Fore: metres(1.524), Note: "a change point"}
	for _, c := range []struct{ name, before, after string }{
		{"feet", "station,bs (ft),is (ft),fs (ft),remark\nBM,1,,,\n", "C,10,,5,a change point\n"},
		{"decimal comma", "Remark;Fore;Back;Station\nfirst;;1,5;BM\n", "a change point;1,524;3,048;C\n"},
	} {
		dir := folder(t, files{"levels.csv": c.before})
		_, err := plotfolder.BookLevel(dir, "id-1", geodata.Site{}, line)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.before+c.after, content(t, filepath.Join(dir, "levels.csv")))
	}
	dir := folder(t, files{"levels.csv": "station,back\nBM,1\n"})
	_, err := plotfolder.BookLevel(dir, "id-1", geodata.Site{}, line)
	assert.ErrorIs(t, err, plotfolder.ErrColumns)
	_, err = plotfolder.BookLevel(dir, "id-1", geodata.Site{}, plotfolder.NewLevel{Back: metres(1)})
	assert.ErrorContains(t, err, "the station has no name")
	assert.Equal(t, "station,back\nBM,1\n", content(t, filepath.Join(dir, "levels.csv")))
}

// What is keyed in on a walk gives the heights that the same figures give by the
// arithmetic of a level book: 49.872 + 2.191 - 2.507 = 49.556, and a place by two
// tapes of 3 and 4 from marks 5 apart: 3*3/5 = 1.8 along and 3*4/5 = 2.4 off.
func TestAKeyedSurveyIsRead(t *testing.T) {
	dir := folder(t, files{
		"site.toml":    "coordinates = \"local\"\n",
		"features.csv": "kind,name,x,y\nmark,shed,0,0\nmark,gate,5,0\n",
	})
	site := geodata.Site{}
	level := func(id string, l plotfolder.NewLevel) {
		_, err := plotfolder.BookLevel(dir, id, site, l)
		require.NoError(t, err)
	}
	level("l1", plotfolder.NewLevel{Station: "BM", Back: metres(2.191), Level: metres(49.872)})
	for i, station := range []string{"P", "Q", "R", "S"} {
		level("l"+station, plotfolder.NewLevel{Station: station, Inter: metres(2.507 + 0.1*float64(i))})
	}
	level("l9", plotfolder.NewLevel{Station: "BM", Fore: metres(2.191), Level: metres(49.872)})
	_, err := plotfolder.BookTie(dir, "t1", site, plotfolder.NewTie{Point: "P", Method: levelbook.TapeTie, From: "shed", To: "gate", A: 3, B: 4, Side: "left"})
	require.NoError(t, err)
	_, err = plotfolder.BookTie(dir, "t2", site, plotfolder.NewTie{Point: "Q", Method: levelbook.OffsetTie, From: "shed", To: "gate", A: 4, B: -1, Note: "right of it"})
	require.NoError(t, err)
	for i, station := range []string{"R", "S"} {
		again, err := plotfolder.BookPlace(dir, station, site, station, 10, 7*float64(i))
		require.NoError(t, err)
		require.False(t, again)
	}
	p, err := plotfolder.Read(dir, plotfolder.Options{})
	require.NoError(t, err)
	got := map[string][3]float64{}
	for _, s := range p.Spots {
		got[s.Name] = [3]float64{s.At[0], s.At[1], s.Height}
	}
	want := map[string][3]float64{"P": {1.8, 2.4, 49.556}, "Q": {4, -1, 49.456}, "R": {10, 0, 49.356}, "S": {10, 7, 49.256}}
	require.Len(t, got, 4)
	for name, v := range want {
		for i := range v {
			assert.InDelta(t, v[i], got[name][i], 1e-6, "%s %d", name, i)
		}
	}
	assert.Equal(t, "R,10,0,,\nS,10,7,,\n", strings.SplitAfterN(content(t, filepath.Join(dir, "heights.csv")), "\n", 2)[1])
	_, err = plotfolder.BookTie(dir, "t3", site, plotfolder.NewTie{Point: "P", Method: levelbook.TapeTie, From: "P", To: "gate", A: 3, B: 4})
	assert.ErrorContains(t, err, "from and point are one station")
	_, err = plotfolder.BookTie(dir, "t3", site, plotfolder.NewTie{Point: "P", Method: levelbook.GridTie})
	assert.ErrorContains(t, err, "is not booked here")
}

// Devices that all send their readings twice, at the same time.
func TestManyDevicesAtOnce(t *testing.T) {
	dir := t.TempDir()
	var all sync.WaitGroup
	for d := range 4 {
		all.Go(func() {
			for i := range 10 {
				for range 2 {
					_, err := plotfolder.BookHeight(dir, fmt.Sprintf("device-%d-%d", d, i), geodata.Site{}, plotfolder.NewReading{Name: fmt.Sprintf("d%d-%d", d, i), X: float64(i), Y: float64(d), Z: 1})
					assert.NoError(t, err)
				}
			}
		})
	}
	all.Wait()
	text := content(t, filepath.Join(dir, "heights.csv"))
	assert.Equal(t, 1+40, strings.Count(text, "\n"))
	for d := range 4 {
		for i := range 10 {
			assert.Equal(t, 1, strings.Count(text, fmt.Sprintf("d%d-%d,%d,%d,1,\n", d, i, i, d)))
		}
	}
	for line := range strings.Lines(journalOf(t, dir)) {
		assert.True(t, json.Valid([]byte(line)), line)
	}
}

// Any order of booking, sending again, taking back and losing power keeps the
// table at what was acknowledged, with what a person typed in between.
func TestBookingAgainstAModel(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "plot")
		require.NoError(rt, err)
		path := filepath.Join(dir, "heights.csv")
		require.NoError(rt, os.WriteFile(path, []byte("name,x,y,z\n"), 0o600))
		rows := []string{"name,x,y,z"}
		dealt := map[string]string{} // id to its row; empty once taken back
		for step := range rapid.IntRange(1, 12).Draw(rt, "steps") {
			id := fmt.Sprint(rapid.IntRange(0, 5).Draw(rt, "id"))
			row := fmt.Sprintf("same,0,0,%d", rapid.IntRange(1, 2).Draw(rt, "z"))
			switch rapid.SampledFrom([]string{"book", "book", "crash", "unbook", "type"}).Draw(rt, "what") {
			case "book", "crash":
				z := float64(row[len(row)-1] - '0')
				before := state{journalOf(t, dir), content(t, path)}
				again, err := plotfolder.BookHeight(dir, id, geodata.Site{}, plotfolder.NewReading{Name: "same", Z: z})
				require.NoError(rt, err)
				_, known := dealt[id]
				require.Equal(rt, known, again, "step %d", step)
				if known {
					continue
				}
				dealt[id], rows = row, append(rows, row)
				if rapid.Bool().Draw(rt, "crash") {
					all := cuts(before, state{journalOf(t, dir), content(t, path)})
					all[rapid.IntRange(0, len(all)-1).Draw(rt, "at")].put(t, dir, "heights.csv")
					_, err := plotfolder.BookHeight(dir, id, geodata.Site{}, plotfolder.NewReading{Name: "same", Z: z})
					require.NoError(rt, err)
				}
			case "unbook":
				was, known := dealt[id]
				removed, err := plotfolder.Unbook(dir, id)
				if !known {
					require.ErrorIs(rt, err, plotfolder.ErrNotKeyed)
					continue
				}
				require.NoError(rt, err)
				if was != "" {
					require.Equal(rt, was, removed)
					dealt[id] = ""
					for i, r := range rows { // which of equal rows does not matter
						if r == was {
							rows = append(rows[:i:i], rows[i+1:]...)
							break
						}
					}
				}
			case "type":
				typed := fmt.Sprintf("typed,0,0,%d", step)
				require.NoError(rt, plotfolder.AppendRow(path, ',', strings.Split(typed, ",")))
				rows = append(rows, typed)
			}
			require.ElementsMatch(rt, rows, strings.Split(strings.TrimSuffix(content(t, path), "\n"), "\n"))
		}
	})
}
