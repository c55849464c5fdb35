package sketch_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"strapline/bot/say"
	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/work"
)

var update = flag.Bool("update", false, "draw the golden pictures anew")

const in, ft = length.Inch, length.Foot

// flat folds bodies into the state of a job.
func flat(t testing.TB, bodies ...event.Body) *site.State {
	t.Helper()
	st := site.New()
	for i, b := range bodies {
		at := time.Date(2026, 5, 4, 8, i%60, 0, 0, time.UTC).UnixMilli()
		if err := st.Apply(event.Event{Seq: uint64(i + 1), Who: "lead", Sent: at, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return st
}

func off(l length.Length, w place.Wall) place.Fix {
	return place.Fix{How: place.OffWall, Said: length.Said{L: l}, Wall: w}
}

func thing(name, what string, size place.Size, west, north length.Length) event.Thing {
	return event.Thing{Room: "kitchen", Name: name, What: what, Surface: place.Ceiling, Size: size, New: true,
		Fixes: []place.Fix{off(west, place.West), off(north, place.North)}, Point: place.Point{X: west, Y: north}}
}

// kitchen has one of everything that a picture shows.
func kitchen() []event.Body {
	return []event.Body{
		event.JobTitle{Title: "larkspur upper flat"},
		event.RoomSize{Room: "kitchen", EW: 160*in + in/2, NS: 141 * in, Less: []event.Notch{{EW: 36 * in, NS: 24 * in, Corner: "ne"}}},
		event.Supports{Room: "kitchen", Surface: place.Ceiling, What: place.Straps, Run: place.EW, From: place.North,
			At: []length.Length{14 * in, 30 * in, 46 * in, 62 * in, 78 * in, 94 * in, 110 * in, 126 * in}},
		event.Board{Thick: in / 2, Wide: 48 * in, Lengths: []length.Length{8 * ft, 10 * ft, 12 * ft}},
		thing("over sink", "light", place.Size{A: 6 * in}, 26*in, 41*in),
		thing("l1", "light", place.Size{A: 6 * in}, 61*in, 105*in),
		thing("v1", "vent", place.Size{A: 4 * in, B: 10 * in}, 110*in, 70*in),
		event.Thing{Room: "kitchen", Name: "box 1", What: "box", Surface: "north", Size: place.Size{A: 2 * in, B: 4 * in}, New: true,
			Fixes: []place.Fix{off(52*in, place.West), {How: place.UpFrom, Said: length.Said{L: 16 * in}}}, Point: place.Point{X: 52 * in, Y: 16 * in}},
		event.MarkSet{Room: "kitchen", Name: "a", Surface: place.Ceiling, Fixes: []place.Fix{off(22*in, place.West), off(30*in, place.North)}, Point: place.Point{X: 22 * in, Y: 30 * in}},
		event.Route{Room: "kitchen", Name: "p1", What: "pipe", Surface: place.Ceiling, Size: in, How: "depth", Depth: 3 * in / 4,
			Points: [][]place.Fix{{off(136*in, place.West), off(40*in, place.North)}, {off(136*in, place.West), off(120*in, place.North)}},
			At:     []place.Point{{X: 136 * in, Y: 40 * in}, {X: 136 * in, Y: 120 * in}}},
		event.Plates{Room: "kitchen", Run: "p1", What: place.Straps, N: []int{4, 5}},
		event.PlanPick{Room: "kitchen", Pick: 1, Said: true},
		event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 1, Run: place.NS, Pieces: []place.Rect{{X1: 48 * in, Y1: 141 * in}}},
		event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 2, Run: place.NS, Pieces: []place.Rect{{X0: 48 * in, X1: 96 * in, Y1: 141 * in}}},
		event.Opened{Room: "kitchen", Names: []string{"l1"}},
	}
}

func plans(st *site.State) *inforce.Plans {
	return &inforce.Plans{State: st, Kept: new(inforce.Kept), Work: &inforce.Work{Budget: work.Budget{Steps: inforce.MessageSteps}, Here: true}}
}

func sceneOf(t testing.TB, st *site.State, up bool) scene.Scene {
	t.Helper()
	speech := say.Speech{Units: st.Units(), Loc: time.UTC, Now: time.Date(2026, 5, 4, 16, 0, 0, 0, time.UTC)}
	s, err := scene.Room(st, plans(st), "kitchen", place.Ceiling, speech, up)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestScene(t *testing.T) {
	s := sceneOf(t, flat(t, kitchen()...), false)
	if s.Job != "larkspur upper flat" || s.EW != 160*in+in/2 || s.NS != 141*in || len(s.Notches) != 1 || len(s.Supports) != 8 || s.Entry != 15 {
		t.Errorf("scene %+v", s)
	}
	states := map[string]site.Standing{}
	for _, th := range s.Things {
		states[th.Name] = th.State
	}
	for name, want := range map[string]site.Standing{"over sink": site.Covered, "l1": site.Open, "v1": site.Noted, "box 1": site.Noted} {
		if states[name] != want {
			t.Errorf("%s is %q, want %q", name, states[name], want)
		}
	}
	sink := s.Things[0].From
	if len(sink) != 2 || sink[0] != (scene.Dim{Ref: "west", Dist: 26 * in}) || sink[1] != (scene.Dim{Ref: "north", Axis: place.Y, Dist: 41 * in}) {
		t.Errorf("light over sink: %+v", sink)
	}
	// Measured off the south wall, which is nearer.
	if l1 := s.Things[1].From; l1[1] != (scene.Dim{Ref: "south", Axis: place.Y, Wall: 141 * in, Dist: 36 * in}) {
		t.Errorf("l1: %+v", l1)
	}
	if r := s.Runs[0]; r.Keep != in/2+in || len(r.Plates) != 2 { // half the pipe and an inch beside it
		t.Errorf("run %+v", r)
	}
	var area length.Length
	hung := 0
	for _, p := range s.Pieces {
		area += (p.Rect.X1 - p.Rect.X0) / in * ((p.Rect.Y1 - p.Rect.Y0) / in)
		if p.Hung {
			hung++
		}
	}
	if hung < 2 || len(s.ToCut) == 0 {
		t.Errorf("%d pieces hang, %d boards to cut: %+v", hung, len(s.ToCut), s.Pieces)
	}
	for _, c := range s.ToCut { // no piece that hangs is still to be cut
		for _, st := range c.Strips {
			for _, id := range st.Pieces {
				for _, p := range s.Pieces {
					if p.ID == id && p.Hung {
						t.Errorf("%s hangs and is to be cut", id)
					}
				}
			}
		}
	}
}

// texts returns all texts of a page in one string.
func texts(p *sheet.Page) string {
	var all []string
	for _, t := range p.Texts {
		all = append(all, t.S)
	}
	return strings.Join(all, "\n")
}

func where(t *testing.T, p *sheet.Page, s string) (x float64) {
	t.Helper()
	for _, tx := range p.Texts {
		if tx.S == s {
			return tx.X
		}
	}
	t.Fatalf("no text %q in\n%s", s, texts(p))
	return 0
}

func TestPlanSays(t *testing.T) {
	p, rest := sketch.Plan(sceneOf(t, flat(t, kitchen()...), false), 4000)
	if rest != 0 {
		t.Errorf("%d things left out", rest)
	}
	all := texts(p)
	for _, want := range []string{
		"kitchen ceiling", "larkspur upper flat", "4 May 2026 16:00, entry 15", "Seen from above: looking up it is mirrored.",
		"north", "east", "south", "west", "1", "8", "over sink", "l1", "v1", "a", "pipe p1", "26\"", "41\"", "36\"", "11' 9\"",
		"row 1, not cut", "open", "noted", "covered, not cut", "no screws in this strip", "plate", "0 to 4 ft", "north wall: 52\" off west, 16\" up",
		"Distances: to the centre, off the studs.",
		"Only what was noted. No pipe or wire drawn is not none: look before you screw.",
	} {
		if !strings.Contains("\n"+all+"\n", "\n"+want+"\n") {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
}

// A boarded wall is measured from its board, a finished one from its face, and the picture says so.
func TestBoardedWall(t *testing.T) {
	p, _ := sketch.Plan(sceneOf(t, flat(t, append(kitchen(), event.Boarded{Room: "kitchen", Wall: place.West, Thick: in / 2},
		event.Boarded{Room: "kitchen", Wall: place.East, Finished: true})...), false), 4000)
	for _, want := range []string{"25-1/2\" off west", "Distances: to the centre, off the studs, or a boarded wall's board, or a finished wall's face."} {
		if !strings.Contains(strings.ReplaceAll(texts(p), "\n", " "), want) {
			t.Errorf("no %q in\n%s", want, texts(p))
		}
	}
}

// Looking up, east is on the left, with everything near it; north stays on top.
func TestLookingUp(t *testing.T) {
	st := flat(t, kitchen()...)
	down, _ := sketch.Plan(sceneOf(t, st, false), 4000)
	up, _ := sketch.Plan(sceneOf(t, st, true), 4000)
	if !strings.Contains(texts(up), "Seen looking up: east and west have changed sides.") {
		t.Error("it does not say so")
	}
	if where(t, down, "west") > where(t, down, "east") || where(t, up, "west") < where(t, up, "east") {
		t.Error("walls on the wrong side")
	}
	const middle = sheet.Width / 2
	if where(t, down, "over sink") > middle || where(t, up, "over sink") < middle || where(t, down, "v1") < middle || where(t, up, "v1") > middle {
		t.Error("things on the wrong side")
	}
}

func TestSheetsOfPDF(t *testing.T) {
	s := sceneOf(t, flat(t, kitchen()...), false)
	lists := sketch.Lists(s, 1440, 0)
	all := texts(lists[0])
	for _, want := range []string{"Cut list: ", "1 covered, not cut", "over sink 6\": 26\" off west, 41\" off north, under row 1 since 08:12"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
	for _, c := range s.ToCut {
		for _, st := range c.Strips {
			for _, id := range st.Pieces {
				if !strings.Contains(all, id) {
					t.Errorf("piece %s is not in the cut list", id)
				}
			}
		}
	}
	// A low sheet holds less of the list; the rest goes on the next.
	var bodies []event.Body
	bodies = append(bodies, kitchen()...)
	for i := range 40 {
		bodies = append(bodies, thing(fmt.Sprintf("x%d", i), "light", place.Size{A: 4 * in}, length.Length(10+i)*in, 60*in))
	}
	s = sceneOf(t, flat(t, bodies...), false)
	plan, left := sketch.Plan(s, 1440)
	if left == 0 || plan.H > 1440 {
		t.Fatalf("%d left over, %v high", left, plan.H)
	}
	got := texts(plan)
	for _, p := range sketch.Lists(s, 1440, left) {
		if p.H > 1440 {
			t.Errorf("a list %v high", p.H)
		}
		got += "\n" + texts(p)
	}
	for i := range 40 {
		if !strings.Contains(got, fmt.Sprintf("x%d light 4\"", i)) {
			t.Errorf("x%d is in neither list", i)
		}
	}
}

// Golden pictures are compared at a third of their size, which tolerates slight differences
// in shade but not a missing line.
func TestGolden(t *testing.T) {
	st := flat(t, kitchen()...)
	for _, up := range []bool{false, true} {
		s := sceneOf(t, st, up)
		for name, cuts := range map[string]bool{"plan": false, "lists": true} {
			if up && cuts {
				continue
			}
			if up {
				name += "-up"
			}
			golden(t, s, name, cuts)
		}
	}
}

// golden compares a picture with the stored one.
func golden(t *testing.T, s scene.Scene, name string, cuts bool) {
	t.Helper()
	var buf bytes.Buffer
	if err := sketch.Write(&buf, s, ".png", cuts); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&buf)
	if err != nil {
		t.Fatal(err)
	}
	got := third(img)
	path := filepath.Join("testdata", name+".png")
	if *update {
		var out bytes.Buffer
		if err := png.Encode(&out, got); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	want, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != got.Bounds() {
		t.Fatalf("%s: %v, want %v", name, got.Bounds(), want.Bounds())
	}
	differ := 0
	for i := range got.Pix {
		w := want.(*image.Gray).Pix[i]
		if d := int(got.Pix[i]) - int(w); d > 16 || d < -16 {
			differ++
		}
	}
	if differ > len(got.Pix)/5000 {
		t.Errorf("%s: %d of %d pixels differ; draw it anew with -update and look at it", name, differ, len(got.Pix))
	}
}

// third scales a picture to a third of its size, in grey.
func third(img image.Image) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx()/3, b.Dy()/3))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sum := 0
			for i := range 9 {
				sum += int(color.GrayModel.Convert(img.At(3*x+i%3, 3*y+i/3)).(color.Gray).Y)
			}
			out.Pix[y*out.Stride+x] = uint8(sum / 9)
		}
	}
	return out
}

func TestTextOfSVG(t *testing.T) {
	s := sceneOf(t, flat(t, append(kitchen(), thing(`<&"> ☃`, "light", place.Size{}, 100*in, 120*in))...), false)
	plan, _ := sketch.Plan(s, 4000)
	var buf, again bytes.Buffer
	if err := sketch.Write(&buf, s, ".svg", false); err != nil {
		t.Fatal(err)
	}
	if err := sketch.Write(&again, s, ".svg", false); err != nil || !bytes.Equal(buf.Bytes(), again.Bytes()) {
		t.Error("drawn again it differs", err)
	}
	var got []string
	in := false
	for d := xml.NewDecoder(&buf); ; {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if in = tok.Name.Local == "text"; in {
				got = append(got, "")
			}
		case xml.EndElement:
			in = false
		case xml.CharData:
			if in {
				got[len(got)-1] += string(tok)
			}
		}
	}
	if strings.Join(got, "\n") != texts(plan) || !strings.Contains(texts(plan), `<&"> ?`) {
		t.Errorf("read back:\n%s\nwant:\n%s", strings.Join(got, "\n"), texts(plan))
	}
}

// The PDF's text is read back with pdftotext of the Poppler project.
func TestTextOfPDF(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	for _, units := range []length.Units{length.Imperial, length.Metric} {
		s := sceneOf(t, flat(t, append(kitchen(), event.UnitsSet{Units: units})...), true)
		var buf bytes.Buffer
		if err := sketch.Write(&buf, s, ".pdf", false); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(tool, "-raw", "-", "-")
		cmd.Stdin = &buf
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		sheets := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
		high := 1440.0 // 720 pt on US Letter, where Width is 540 pt
		if units == length.Metric {
			high = 769.89 / 523.28 * sheet.Width // A4
		}
		plan, left := sketch.Plan(s, high)
		pages := append([]*sheet.Page{plan}, sketch.Lists(s, high, left)...)
		if len(sheets) != len(pages) {
			t.Fatalf("%d sheets, want %d", len(sheets), len(pages))
		}
		for i, p := range pages {
			sheet := strings.Join(strings.Fields(sheets[i]), "")
			for _, tx := range p.Texts {
				if !strings.Contains(sheet, strings.Join(strings.Fields(tx.S), "")) {
					t.Errorf("sheet %d has no %q:\n%s", i+1, tx.S, sheets[i])
				}
			}
		}
	}
}

func TestNoSuchRoom(t *testing.T) {
	st := flat(t, kitchen()...)
	for name, on := range map[string]place.Surface{"attic": place.Ceiling, "kitchen": "floor"} {
		if _, err := scene.Room(st, plans(st), name, on, say.Speech{}, false); !errors.Is(err, scene.ErrNone) {
			t.Errorf("the %s of the %s was drawn: %v", on, name, err)
		}
	}
	if err := sketch.Write(io.Discard, sceneOf(t, st, false), ".gif", false); err == nil {
		t.Error("a .gif was written")
	}
}
