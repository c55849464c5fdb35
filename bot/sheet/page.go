// Package sheet is a page of shapes and texts, and PNG, SVG and PDF of it. It knows how wide a text is and
// finds room for labels, and knows nothing of rooms.
package sheet

import (
	"math"
	"slices"
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

// Point is a point of a page, in pixels from its upper left corner.
type Point struct{ X, Y float64 }

// Box is a rectangle of a page.
type Box struct{ X0, Y0, X1, Y1 float64 }

func (b Box) hits(o Box) bool { return b.X0 < o.X1 && o.X0 < b.X1 && b.Y0 < o.Y1 && o.Y0 < b.Y1 }

// In reports whether b is within o.
func (b Box) In(o Box) bool {
	return b.X0 >= o.X0 && b.X1 <= o.X1 && b.Y0 >= o.Y0 && b.Y1 <= o.Y1
}

// Grown returns b with its sides moved out.
func (b Box) Grown(by float64) Box { return Box{b.X0 - by, b.Y0 - by, b.X1 + by, b.Y1 + by} }

// Middle returns the centre of b.
func (b Box) Middle() Point { return Point{(b.X0 + b.X1) / 2, (b.Y0 + b.Y1) / 2} }
func (b Box) corners() []Point {
	return []Point{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}}
}

// Ink is a colour, 0xRRGGBB.
type Ink uint32

const (
	Black Ink = 0x000000
	White Ink = 0xffffff
	None  Ink = 0xffffffff // transparent

	StrapInk  Ink = 0xe9e2d2
	CentreInk Ink = 0x8f8468
	HatchInk  Ink = 0x8e98a2
	BoardInk  Ink = 0x4a5560
	DimInk    Ink = 0x1d4f91
	HiddenInk Ink = 0xa3181b
	RunInk    Ink = 0x7a3d9a
	GreyInk   Ink = 0x555555
)

// inks names every ink, for the custom properties with which a web page sets its own
// colours.
var inks = map[Ink]string{
	White: "sheet", Black: "line", StrapInk: "support", CentreInk: "centre", HatchInk: "hatch",
	BoardInk: "board", DimInk: "dim", HiddenInk: "hidden", RunInk: "run", GreyInk: "quiet",
}

// Pen is a line style: colour, width, and the lengths of dashes and gaps in turn.
type Pen struct {
	Ink  Ink
	W    float64
	Dash []float64
}

var (
	Dashes = []float64{10, 6}       // a hidden edge
	Chain  = []float64{26, 6, 4, 6} // a centre line
)

// Shape is a line, or a closed figure.
type Shape struct {
	Points []Point
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

// Box is the box that is the point.
func (p Point) Box() Box { return Box{p.X, p.Y, p.X, p.Y} }

// Box is the bounding box of the text.
func (t Text) Box() Box {
	if t.Up {
		return Box{t.X - above*t.Size, t.Y - TextWidth(t.S, t.Size, t.Bold), t.X + below*t.Size, t.Y}
	}
	return Box{t.X, t.Y - above*t.Size, t.X + TextWidth(t.S, t.Size, t.Bold), t.Y + below*t.Size}
}

// Line draws a line through points.
func (p *Page) Line(pen Pen, points ...Point) {
	p.Shapes = append(p.Shapes, Shape{Points: points, Pen: pen, Fill: None})
}

// Area draws a closed figure.
func (p *Page) Area(fill Ink, pen Pen, points ...Point) {
	p.Shapes = append(p.Shapes, Shape{Points: points, Closed: true, Pen: pen, Fill: fill})
}

// Rect draws a rectangle.
func (p *Page) Rect(fill Ink, pen Pen, b Box) { p.Area(fill, pen, b.corners()...) }

// Circle draws a circle of radius r.
func (p *Page) Circle(fill Ink, pen Pen, at Point, r float64) {
	points := make([]Point, 40)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(points)))
		points[i] = Point{at.X + r*cos, at.Y + r*sin}
	}
	p.Shapes = append(p.Shapes, Shape{Points: points, Radius: r, Closed: true, Pen: pen, Fill: fill})
}

// Arrow draws a filled arrowhead at tip, pointing away from from.
func (p *Page) Arrow(ink Ink, tip, from Point) {
	d := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	if d == 0 {
		return
	}
	const long, half = 13.0, 4.0
	ux, uy := (tip.X-from.X)/d, (tip.Y-from.Y)/d
	bx, by := tip.X-long*ux, tip.Y-long*uy
	p.Area(ink, Pen{}, tip, Point{bx - half*uy, by + half*ux}, Point{bx + half*uy, by - half*ux})
}

// Hatch fills a box with lines at 45 degrees, rising to the right or, if back is set,
// falling. step is their spacing along a side of the box.
func (p *Page) Hatch(pen Pen, b Box, step float64, back bool) {
	w, h := b.X1-b.X0, b.Y1-b.Y0
	for c := step / 2; c < w+h; c += step {
		// the line x + y = c, from the box's upper left corner
		from, to := Point{math.Min(c, w), math.Max(c-w, 0)}, Point{math.Max(c-h, 0), math.Min(c, h)}
		if back {
			from.Y, to.Y = h-from.Y, h-to.Y
		}
		p.Line(pen, Point{b.X0 + from.X, b.Y0 + from.Y}, Point{b.X0 + to.X, b.Y0 + to.Y})
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

// TextWidth returns how wide a text is, without kerning.
func TextWidth(s string, size float64, bold bool) (w float64) {
	i := 0
	if bold {
		i = 1
	}
	for _, r := range s {
		w += glyphOf(r).wide[i]
	}
	return w * size
}

// Printable replaces line ends and tabs by spaces, and characters that the fonts lack by
// "?".
func Printable(s string) string {
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

// Fitted cuts s to a width, with an ellipsis.
func Fitted(s string, size float64, bold bool, wide float64) string {
	s = Printable(s)
	if TextWidth(s, size, bold) <= wide {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		if c := strings.TrimRight(string(runes[:n]), " ") + "…"; TextWidth(c, size, bold) <= wide {
			return c
		}
	}
	return ""
}

// Wrapped breaks s at spaces into lines of at most a width.
func Wrapped(s string, size float64, bold bool, wide float64) (lines []string) {
	line := ""
	for _, w := range strings.Fields(Printable(s)) {
		switch {
		case line == "":
			line = w
		case TextWidth(line+" "+w, size, bold) <= wide:
			line += " " + w
		default:
			lines, line = append(lines, Fitted(line, size, bold, wide)), w
		}
	}
	return append(lines, Fitted(line, size, bold, wide))
}

// Text draws a text with its upper edge at y, cut to a width.
func (p *Page) Text(x, y, size float64, bold bool, ink Ink, s string, wide float64) {
	if s = Fitted(s, size, bold, wide); s != "" {
		p.Texts = append(p.Texts, Text{X: x, Y: y + above*size, Size: size, Bold: bold, Ink: ink, S: s})
	}
}

// Inset draws another page on this one reduced by scale, its upper left corner at a point.
func (p *Page) Inset(q *Page, at Point, scale float64) {
	to := func(v Point) Point { return Point{at.X + scale*v.X, at.Y + scale*v.Y} }
	for _, s := range q.Shapes {
		s.Points = slices.Clone(s.Points)
		for i, v := range s.Points {
			s.Points[i] = to(v)
		}
		s.Radius *= scale
		s.Pen.W *= scale
		s.Pen.Dash = slices.Clone(s.Pen.Dash)
		for i := range s.Pen.Dash {
			s.Pen.Dash[i] *= scale
		}
		p.Shapes = append(p.Shapes, s)
	}
	for _, t := range q.Texts {
		v := to(Point{t.X, t.Y})
		t.X, t.Y, t.Size = v.X, v.Y, t.Size*scale
		p.Texts = append(p.Texts, t)
	}
}
