package sheet

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"html"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// SVG writes the page as SVG 1.1, with text as text.
func (p *Page) SVG(w io.Writer) error {
	return p.svg(w, fmt.Sprintf(`width="%d" height="%s"`, Width, num(p.H)), Ink.css)
}

// Inline writes the page as SVG to embed in a web page. Each ink is a custom property such
// as --ink-line, which the web page may set; the default is our own colour. For screen
// readers it is an image with a title and a description.
func (p *Page) Inline(w io.Writer, title, about string) error {
	attr := fmt.Sprintf(`role="img"><title>%s</title><desc>%s</desc`, html.EscapeString(Printable(title)), html.EscapeString(Printable(about)))
	return p.svg(w, attr, func(i Ink) string {
		if i == None {
			return i.css()
		}
		return "var(--ink-" + inks[i] + "," + i.css() + ")"
	})
}

func (p *Page) svg(w io.Writer, attr string, ink func(Ink) string) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %s" %s>`+"\n", Width, num(p.H), attr)
	fmt.Fprintf(out, `<rect width="%d" height="%s" fill="%s"/>`+"\n", Width, num(p.H), ink(White))
	for i := 0; i < len(p.Shapes); i++ {
		s := p.Shapes[i]
		d := s.path()
		for s.open() && i+1 < len(p.Shapes) && p.Shapes[i+1].open() && p.Shapes[i+1].Pen.equal(s.Pen) { // join the lines of a hatch into one path
			i++
			d += p.Shapes[i].path()
		}
		fmt.Fprintf(out, `<path d="%s" fill="%s"`, d, ink(s.Fill))
		if s.Pen.W > 0 {
			fmt.Fprintf(out, ` stroke="%s" stroke-width="%s"`, ink(s.Pen.Ink), num(s.Pen.W))
			if len(s.Pen.Dash) > 0 {
				var dash []string
				for _, v := range s.Pen.Dash {
					dash = append(dash, num(v))
				}
				fmt.Fprintf(out, ` stroke-dasharray="%s"`, strings.Join(dash, " "))
			} else {
				out.WriteString(` stroke-linecap="square"`)
			}
		}
		out.WriteString("/>\n")
	}
	out.WriteString(`<g font-family="Go, Arial, sans-serif">` + "\n")
	for _, t := range p.Texts {
		how := ""
		if t.Bold {
			how = ` font-weight="bold"`
		}
		if t.Up {
			how += fmt.Sprintf(` transform="rotate(-90 %s %s)"`, num(t.X), num(t.Y))
		}
		// textLength keeps the text's width in any font.
		fmt.Fprintf(out, `<text x="%s" y="%s" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs">`,
			num(t.X), num(t.Y), num(t.Size), how, ink(t.Ink), num(TextWidth(t.S, t.Size, t.Bold)))
		if err := xml.EscapeText(out, []byte(t.S)); err != nil {
			return err
		}
		out.WriteString("</text>\n")
	}
	out.WriteString("</g>\n</svg>\n")
	return out.Flush()
}

// open reports whether the shape is only a line.
func (s Shape) open() bool { return !s.Closed && s.Fill == None }

func (p Pen) equal(o Pen) bool { return p.Ink == o.Ink && p.W == o.W && slices.Equal(p.Dash, o.Dash) }

func (s Shape) path() string {
	if s.Radius > 0 {
		return fmt.Sprintf("M%[1]s %[2]sa%[3]s %[3]s 0 1 1 -%[4]s 0a%[3]s %[3]s 0 1 1 %[4]s 0Z", num(s.Points[0].X), num(s.Points[0].Y), num(s.Radius), num(2*s.Radius))
	}
	var d strings.Builder
	for i, q := range s.Points {
		d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + num(q.X) + " " + num(q.Y))
	}
	if s.Closed {
		d.WriteString("Z")
	}
	return d.String()
}

// num prints a length to a tenth of a pixel.
func num(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

func (i Ink) css() string {
	if i == None {
		return "none"
	}
	return fmt.Sprintf("#%06x", uint32(i))
}
