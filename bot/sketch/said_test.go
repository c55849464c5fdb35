package sketch_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"strapline/bot/scene"
	"strapline/bot/sheet"
	"strapline/bot/sketch"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
)

// The picture gives every piece's ID, cut size and rip: in the piece, upward if it is
// narrow, or below the plan if there is no room.
func TestPiecesSay(t *testing.T) {
	up := 0
	for name, s := range map[string]scene.Scene{"kitchen": sceneOf(t, flat(t, kitchen()...), false), "hall": hall(t)} {
		p, _ := sketch.Plan(s, 4000)
		all := " " + strings.Join(strings.Fields(texts(p)), " ")
		n := 0
		for _, pc := range s.Pieces {
			if pc.Cut == 0 {
				continue
			}
			n++
			rip := ""
			if pc.Rip {
				rip = " rip " + s.Tape(pc.Width)
			}
			inside, below := pc.ID+" "+s.Tape(pc.Cut)+rip, pc.ID+": "+s.Tape(pc.Cut)+rip
			if !strings.Contains(all, " "+inside) && !strings.Contains(all, " "+below) {
				t.Errorf("%s: piece %s says neither %q nor %q in\n%s", name, pc.ID, inside, below, all)
			}
		}
		if n < 4 {
			t.Errorf("%s: %d planned pieces", name, n)
		}
		for _, tx := range p.Texts {
			if tx.Up {
				up++
			}
		}
	}
	if up == 0 {
		t.Error("no text goes up in a narrow piece")
	}
}

// The list below the plan gives the place of every thing, run and mark.
func TestListBelow(t *testing.T) {
	p, _ := sketch.Plan(sceneOf(t, flat(t, kitchen()...), false), 4000)
	all := texts(p)
	for _, want := range []string{
		"over sink light 6\"\n26\" off west, 41\" off north", "pipe p1\n136\" off west, from 40\" to 120\" off north", "3/4\" deep",
		"mark a\n22\" off west, 30\" off north",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
}

// An inline drawing has no style of its own, a title and a description, and inks that the
// web page may set.
func TestInline(t *testing.T) {
	p, _ := sketch.Plan(sceneOf(t, flat(t, kitchen()...), false), 4000)
	var buf bytes.Buffer
	if err := p.Inline(&buf, "kitchen <ceiling>", "8 straps & 4 things"); err != nil {
		t.Fatal(err)
	}
	svg := buf.String()
	for _, want := range []string{
		`role="img"><title>kitchen &lt;ceiling&gt;</title><desc>8 straps &amp; 4 things</desc>`, `fill="var(--ink-hidden,#a3181b)"`, `stroke="var(--ink-line,#000000)"`, ">over sink</text>",
	} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %s in\n%.2000s", want, svg)
		}
	}
	for _, bad := range []string{"style", "<script", "class=", "url(", "var(--ink-,"} {
		if strings.Contains(svg, bad) {
			t.Errorf("%s in the drawing", bad)
		}
	}
	for d := xml.NewDecoder(&buf); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if len(svg) > 40_000 {
		t.Errorf("%d bytes for a kitchen", len(svg))
	}
}

// The thing that was looked for has a ring, both its dimensions, and the first line of the
// list.
func TestSeek(t *testing.T) {
	s := hall(t)
	rings := func(p *sheet.Page) (n int) {
		for _, sh := range p.Shapes {
			if sh.Radius > 0 && sh.Pen.W == sketch.SoughtWidth {
				n++
			}
		}
		return n
	}
	if p, _ := sketch.Plan(s, 4000); rings(p) != 0 {
		t.Error("a ring, and nothing was looked for")
	}
	s.Seek("l18")
	p, _ := sketch.Plan(s, 4000)
	if rings(p) != 1 {
		t.Errorf("%d rings", rings(p))
	}
	checkTexts(t, p)
	th := s.Things[0]
	if th.Name != "l18" || len(th.From) != 2 {
		t.Fatalf("%+v", th)
	}
	drawing, list, _ := strings.Cut(texts(p), "Distances: ")
	for _, m := range th.From {
		if !strings.Contains(drawing, "\n"+s.Tape(m.Dist)+"\n") {
			t.Errorf("%s off %s is not drawn:\n%s", s.Tape(m.Dist), m.Ref, drawing)
		}
	}
	if at := strings.Index(list, "l18 "); at < 0 || at > strings.Index(list, "l1 ") {
		t.Errorf("not the first of the list:\n%s", list)
	}
}

// Noted, covered and open things differ in their lines, not only in colour.
func TestApartWithoutColour(t *testing.T) {
	drawn := map[string]string{}
	for state, bodies := range map[string][]event.Body{
		"noted":   {},
		"covered": {event.Hung{Room: "kitchen", Surface: place.Ceiling, Row: 1, Run: place.NS, Pieces: []place.Rect{{X1: 48 * in, Y1: 96 * in}}}},
		"open":    {event.Opened{Room: "kitchen", Names: []string{"l1"}}},
	} {
		all := append([]event.Body{event.RoomSize{Room: "kitchen", EW: 96 * in, NS: 96 * in}, thing("l1", "light", place.Size{A: 6 * in}, 24*in, 24*in)}, bodies...)
		p, _ := sketch.Plan(sceneOf(t, flat(t, all...), false), 4000)
		if !strings.Contains(texts(p), "\n"+state) {
			t.Errorf("the list says nothing of %s:\n%s", state, texts(p))
		}
		for _, s := range p.Shapes {
			if s.Radius > 0 && s.Pen.W > 0 {
				drawn[state] = fmt.Sprint(s.Pen.W, s.Pen.Dash)
				break
			}
		}
	}
	if len(drawn) != 3 || drawn["noted"] == drawn["covered"] || drawn["noted"] == drawn["open"] || drawn["covered"] == drawn["open"] {
		t.Errorf("drawn as %v", drawn)
	}
}

// A sheet is US Letter, 8.5 x 11 in, or in a metric job A4, 210 x 297 mm (ISO 216). The box
// is in points.
func TestPaper(t *testing.T) {
	for units, want := range map[length.Units]string{length.Imperial: "/MediaBox [0 0 612.00 792.00]", length.Metric: "/MediaBox [0 0 595.28 841.89]"} {
		var buf bytes.Buffer
		if err := sketch.Write(&buf, sceneOf(t, flat(t, append(kitchen(), event.UnitsSet{Units: units})...), false), ".pdf", false); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(buf.String(), want) {
			t.Errorf("no %s", want)
		}
	}
}

// An upward text runs upward in every format. The PDF is read with pdftotext of the
// Poppler project.
func TestUpward(t *testing.T) {
	s := sceneOf(t, flat(t, kitchen()...), false)
	p, _ := sketch.Plan(s, 1440)
	i := slices.IndexFunc(p.Texts, func(tx sheet.Text) bool { return tx.Up && strings.Contains(tx.S, "rip") })
	if i < 0 {
		t.Fatal("nothing goes up")
	}
	up := p.Texts[i]
	if b := up.Box(); b.Y1 != up.Y || b.Y1-b.Y0 < 4*(b.X1-b.X0) {
		t.Errorf("%q takes %v", up.S, b)
	}
	var svg, pdf bytes.Buffer
	if err := p.SVG(&svg); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(svg.String(), `transform="rotate(-90 `) {
		t.Error("nothing goes up in the SVG")
	}
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	if err := sketch.Write(&pdf, s, ".pdf", false); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(tool, "-bbox", "-l", "1", "-", "-")
	cmd.Stdin = &pdf
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`xMin="([0-9.]+)" yMin="([0-9.]+)" xMax="([0-9.]+)" yMax="([0-9.]+)">116-3/4&quot;<`).FindSubmatch(out)
	if m == nil {
		t.Fatalf("no 116-3/4\" in\n%s", out)
	}
	var v [4]float64
	for i := range v {
		if v[i], err = strconv.ParseFloat(string(m[i+1]), 64); err != nil {
			t.Fatal(err)
		}
	}
	if v[3]-v[1] < v[2]-v[0] {
		t.Errorf("in the PDF it lies level: %v", v)
	}
}
