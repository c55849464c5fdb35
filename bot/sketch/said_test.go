package sketch_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"strapline/bot/sketch"
)

// Every piece has its id, its cut size and its rip on the picture: in it, upward in one
// that is narrow, or below the plan where it has no room.
func TestPiecesSay(t *testing.T) {
	up := 0
	for name, s := range map[string]sketch.Scene{"kitchen": sceneOf(t, flat(t, kitchen()...), false), "hall": hall(t)} {
		p, _ := s.Plan(4000)
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

// What is noted stands in the list below with where it is, runs and marks too.
func TestListBelow(t *testing.T) {
	p, _ := sceneOf(t, flat(t, kitchen()...), false).Plan(4000)
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

// On a web page a drawing has no style of its own, a title and a description, and inks that the page may set.
func TestInline(t *testing.T) {
	p, _ := sceneOf(t, flat(t, kitchen()...), false).Plan(4000)
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

// What was looked for has a ring around it, its two distances, and the first line of the list.
func TestSeek(t *testing.T) {
	s := hall(t)
	rings := func(p *sketch.Page) (n int) {
		for _, sh := range p.Shapes {
			if sh.Radius > 0 && sh.Pen.W == sketch.SoughtWidth {
				n++
			}
		}
		return n
	}
	if p, _ := s.Plan(4000); rings(p) != 0 {
		t.Error("a ring, and nothing was looked for")
	}
	s.Seek("l18")
	p, _ := s.Plan(4000)
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
