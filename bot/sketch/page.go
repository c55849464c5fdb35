package sketch

import (
	"math"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Width is the width of every page, in pixels. All sizes on a page are in these pixels,
// which a phone shows at about a third of the size.
const Width = 1080

// Page is a drawn page: its shapes, in drawing order, and the texts on top of them.
type Page struct {
	H      float64
	Shapes []Shape
	Texts  []Text
}

type pt struct{ X, Y float64 }

// box is a rectangle of a page.
type box struct{ X0, Y0, X1, Y1 float64 }

func (b box) hits(o box) bool { return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1 }
func (b box) in(o box) bool {
	return b.X0 >= o.X0 && b.X1 <= o.X1 && b.Y0 >= o.Y0 && b.Y1 <= o.Y1
}
func (b box) grown(by float64) box { return box{b.X0 - by, b.Y0 - by, b.X1 + by, b.Y1 + by} }
func (b box) middle() pt           { return pt{(b.X0 + b.X1) / 2, (b.Y0 + b.Y1) / 2} }
func (b box) corners() []pt {
	return []pt{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}}
}

// Ink is a colour, 0xRRGGBB.
type Ink uint32

const (
	black Ink = 0x000000
	white Ink = 0xffffff
	none  Ink = 0xffffffff // transparent

	strapInk  Ink = 0xe9e2d2
	centreInk Ink = 0x8f8468
	hatchInk  Ink = 0x8e98a2
	boardInk  Ink = 0x4a5560
	dimInk    Ink = 0x1d4f91
	hiddenInk Ink = 0xa3181b
	runInk    Ink = 0x7a3d9a
	greyInk   Ink = 0x555555
)

// inks names every ink, for the custom properties with which a web page sets its own
// colours.
var inks = map[Ink]string{
	white: "sheet", black: "line", strapInk: "support", centreInk: "centre", hatchInk: "hatch",
	boardInk: "board", dimInk: "dim", hiddenInk: "hidden", runInk: "run", greyInk: "quiet",
}

// Pen is a line style: colour, width, and the lengths of dashes and gaps in turn.
type Pen struct {
	Ink  Ink
	W    float64
	Dash []float64
}

var (
	dashes = []float64{10, 6}       // a hidden edge
	chain  = []float64{26, 6, 4, 6} // a centre line
)

// Shape is a line, or a closed figure.
type Shape struct {
	Points []pt
	Radius float64 // of a circle, whose first point is its rightmost; else 0
	Closed bool
	Pen    Pen // no line if its width is 0
	Fill   Ink
}

// Text is one line of text, with its left end at X and its baseline at Y. If Up is set it
// is turned around that point by 90 degrees counterclockwise.
type Text struct {
	X, Y float64
	Size float64
	Bold bool
	Up   bool
	Ink  Ink
	S    string
}

// The share of the letter size above and below the baseline.
const (
	above = 0.78
	below = 0.22
)

// Box is the bounding box of the text.
func (t Text) Box() box {
	if t.Up {
		return box{t.X - above*t.Size, t.Y - textWidth(t.S, t.Size, t.Bold), t.X + below*t.Size, t.Y}
	}
	return box{t.X, t.Y - above*t.Size, t.X + textWidth(t.S, t.Size, t.Bold), t.Y + below*t.Size}
}

func (p *Page) line(pen Pen, points ...pt) {
	p.Shapes = append(p.Shapes, Shape{Points: points, Pen: pen, Fill: none})
}

func (p *Page) area(fill Ink, pen Pen, points ...pt) {
	p.Shapes = append(p.Shapes, Shape{Points: points, Closed: true, Pen: pen, Fill: fill})
}

func (p *Page) rect(fill Ink, pen Pen, b box) { p.area(fill, pen, b.corners()...) }

func (p *Page) circle(fill Ink, pen Pen, at pt, r float64) {
	points := make([]pt, 40)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(points)))
		points[i] = pt{at.X + r*cos, at.Y + r*sin}
	}
	p.Shapes = append(p.Shapes, Shape{Points: points, Radius: r, Closed: true, Pen: pen, Fill: fill})
}

// arrow draws a filled arrowhead at tip, pointing away from from.
func (p *Page) arrow(ink Ink, tip, from pt) {
	d := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	if d == 0 {
		return
	}
	const long, half = 13.0, 4.0
	ux, uy := (tip.X-from.X)/d, (tip.Y-from.Y)/d
	bx, by := tip.X-long*ux, tip.Y-long*uy
	p.area(ink, Pen{}, tip, pt{bx - half*uy, by + half*ux}, pt{bx + half*uy, by - half*ux})
}

// hatch fills a box with lines at 45 degrees, rising to the right or, if back is set,
// falling. step is their spacing along a side of the box.
func (p *Page) hatch(pen Pen, b box, step float64, back bool) {
	w, h := b.X1-b.X0, b.Y1-b.Y0
	for c := step / 2; c < w+h; c += step {
		// the line x + y = c, from the box's upper left corner
		from, to := pt{math.Min(c, w), math.Max(c-w, 0)}, pt{math.Max(c-h, 0), math.Min(c, h)}
		if back {
			from.Y, to.Y = h-from.Y, h-to.Y
		}
		p.line(pen, pt{b.X0 + from.X, b.Y0 + from.Y}, pt{b.X0 + to.X, b.Y0 + to.Y})
	}
}

// faces are the two fonts that all pages use.
var faces = sync.OnceValue(func() [2]*sfnt.Font {
	var out [2]*sfnt.Font
	for i, ttf := range [2][]byte{goregular.TTF, gobold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err) // the fonts are compiled in
		}
		out[i] = f
	}
	return out
})

func face(bold bool) *sfnt.Font {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// glyph says whether the fonts have a character, and how wide it is in regular and bold,
// for a letter size of 1.
type glyph struct {
	has  bool
	wide [2]float64
}

var glyphs sync.Map // rune -> glyph

func glyphOf(r rune) glyph {
	if g, ok := glyphs.Load(r); ok {
		return g.(glyph)
	}
	var g glyph
	for i, f := range faces() {
		n, err := f.GlyphIndex(nil, r)
		em := fixed.I(int(f.UnitsPerEm()))
		adv, err2 := f.GlyphAdvance(nil, n, em, font.HintingNone)
		g.has = err == nil && err2 == nil && n != 0
		g.wide[i] = float64(adv) / float64(em)
	}
	if g.has { // so the cache cannot grow beyond the fonts
		glyphs.Store(r, g)
	}
	return g
}

func textWidth(s string, size float64, bold bool) (w float64) {
	i := 0
	if bold {
		i = 1
	}
	for _, r := range s {
		w += glyphOf(r).wide[i]
	}
	return w * size
}

// printable replaces line ends and tabs by spaces, and characters that the fonts lack by
// "?".
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r > ' ' && glyphOf(r).has {
			return r
		}
		if r == '\n' || r == '\t' || r == '\u00a0' {
			return ' '
		}
		return '?'
	}, s)
}

// fitted cuts s to a width, with an ellipsis.
func fitted(s string, size float64, bold bool, wide float64) string {
	s = printable(s)
	if textWidth(s, size, bold) <= wide {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		if c := strings.TrimRight(string(runes[:n]), " ") + "…"; textWidth(c, size, bold) <= wide {
			return c
		}
	}
	return ""
}

// wrapped breaks s at spaces into lines of at most a width.
func wrapped(s string, size float64, bold bool, wide float64) (lines []string) {
	line := ""
	for _, w := range strings.Fields(printable(s)) {
		switch {
		case line == "":
			line = w
		case textWidth(line+" "+w, size, bold) <= wide:
			line += " " + w
		default:
			lines, line = append(lines, fitted(line, size, bold, wide)), w
		}
	}
	return append(lines, fitted(line, size, bold, wide))
}
