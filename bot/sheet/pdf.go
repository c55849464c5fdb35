package sheet

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// margin is the margin on all sides of a sheet, in points: half an inch.
const margin = 36.0

// PDF writes pages on paper of that size, "Letter" or "A4", as a document of that title and time. pages lays them
// out on sheets of at most that many pixels high.
func PDF(w io.Writer, paper, title string, made time.Time, pages func(most float64) []*Page) error {
	doc := fpdf.New("P", "pt", paper, "")
	doc.SetTitle(Printable(title), true)
	doc.SetCreator("Strapline", true)
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetCatalogSort(true) // the same drawing gives the same bytes
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes("go", "", goregular.TTF)
	doc.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	wide, high := doc.GetPageSize()
	scale := (wide - 2*margin) / Width
	for _, p := range pages((high - 2*margin) / scale) {
		doc.AddPage()
		p.onto(doc, min(scale, (high-2*margin)/p.H))
	}
	return doc.Output(w)
}

// onto draws the page on a sheet.
func (p *Page) onto(doc *fpdf.Fpdf, scale float64) {
	x := func(v float64) float64 { return margin + v*scale }
	for _, s := range p.Shapes {
		doc.SetLineWidth(s.Pen.W * scale)
		doc.SetDrawColor(s.Pen.Ink.parts())
		var dash []float64
		for _, d := range s.Pen.Dash {
			dash = append(dash, d*scale)
		}
		doc.SetDashPattern(dash, 0)
		doc.SetLineCapStyle("square")
		if len(dash) > 0 {
			doc.SetLineCapStyle("butt")
		}
		for i, q := range s.Points {
			if i == 0 {
				doc.MoveTo(x(q.X), x(q.Y))
			} else {
				doc.LineTo(x(q.X), x(q.Y))
			}
		}
		if s.Closed {
			doc.ClosePath()
		}
		how := "D"
		if s.Fill != None {
			doc.SetFillColor(s.Fill.parts())
			if how = "F"; s.Pen.W > 0 {
				how = "FD"
			}
		}
		doc.DrawPath(how)
	}
	for _, t := range p.Texts {
		style := ""
		if t.Bold {
			style = "B"
		}
		doc.SetFont("go", style, t.Size*scale)
		doc.SetTextColor(t.Ink.parts())
		if t.Up {
			doc.TransformBegin()
			doc.TransformRotate(90, x(t.X), x(t.Y))
		}
		doc.Text(x(t.X), x(t.Y), t.S)
		if t.Up {
			doc.TransformEnd()
		}
	}
}

func (i Ink) parts() (r, g, b int) { return int(i >> 16 & 0xff), int(i >> 8 & 0xff), int(i & 0xff) }
