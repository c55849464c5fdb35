package sketch

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// SVG writes a page as a drawing (SVG 1.1) whose text stays text.
func (p *Page) SVG(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %s" width="%d" height="%s">`+"\n", Width, num(p.H), Width, num(p.H))
	fmt.Fprintf(out, `<rect width="%d" height="%s" fill="#fff"/>`+"\n", Width, num(p.H))
	for _, s := range p.Shapes {
		var d strings.Builder
		for i, q := range s.Points {
			d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + num(q.X) + " " + num(q.Y))
		}
		if s.Closed {
			d.WriteString("Z")
		}
		fmt.Fprintf(out, `<path d="%s" fill="%s"`, d.String(), s.Fill.css())
		if s.Pen.W > 0 {
			fmt.Fprintf(out, ` stroke="%s" stroke-width="%s"`, s.Pen.Ink.css(), num(s.Pen.W))
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
	for _, t := range p.Texts {
		weight := ""
		if t.Bold {
			weight = ` font-weight="bold"`
		}
		// The length as measured keeps the text in its place in any font.
		fmt.Fprintf(out, `<text x="%s" y="%s" font-family="Go, Arial, sans-serif" font-size="%s"%s fill="%s" textLength="%s" lengthAdjust="spacingAndGlyphs">`,
			num(t.X), num(t.Y), num(t.Size), weight, t.Ink.css(), num(textWidth(t.S, t.Size, t.Bold)))
		if err := xml.EscapeText(out, []byte(t.S)); err != nil {
			return err
		}
		out.WriteString("</text>\n")
	}
	out.WriteString("</svg>\n")
	return out.Flush()
}

func num(v float64) string { return strconv.FormatFloat(float64(int(v*100+.5))/100, 'f', -1, 64) }

func (i Ink) css() string {
	if i == none {
		return "none"
	}
	return fmt.Sprintf("#%06x", uint32(i))
}
