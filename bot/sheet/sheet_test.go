package sheet_test

import (
	"bytes"
	"image/png"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"strapline/bot/sheet"
)

// Labels are never set over one another, over what is taken, or off the sheet.
func TestLabelsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		page := &sheet.Page{}
		p := sheet.Placer{Page: page, Sheet: sheet.Box{X1: 300, Y1: 200}, Taken: []sheet.Box{{X0: 100, Y0: 80, X1: 160, Y1: 120}}}
		at := rapid.Float64Range(-20, 320)
		for range rapid.IntRange(1, 12).Draw(t, "labels") {
			c := sheet.Point{X: at.Draw(t, "x"), Y: at.Draw(t, "y")}
			p.Place(sheet.OneLine("strap 4", 22, false, sheet.Black), append([]sheet.Point{c}, sheet.PositionsAround(c, 9, 80, 24)...)...)
		}
		for i, a := range page.Texts {
			b := a.Box()
			if !b.In(p.Sheet) || b.X0 < 160 && 100 < b.X1 && b.Y0 < 120 && 80 < b.Y1 {
				t.Fatalf("%+v is off the sheet or over what is taken", b)
			}
			for _, o := range page.Texts[:i] {
				if c := o.Box(); b.X0 < c.X1 && c.X0 < b.X1 && b.Y0 < c.Y1 && c.Y0 < b.Y1 {
					t.Fatalf("%+v over %+v", b, c)
				}
			}
		}
	})
}

// A page is written in each format, with characters that the fonts lack, and the same each time.
func TestFormats(t *testing.T) {
	page := &sheet.Page{H: 120}
	page.Rect(sheet.White, sheet.Pen{Ink: sheet.Black, W: 2}, sheet.Box{X0: 10, Y0: 10, X1: 200, Y1: 100})
	page.Text(20, 20, 22, true, sheet.Black, "row 2 <\u2603> & rip", 400)
	write := map[string]func(*bytes.Buffer) error{
		"png": func(b *bytes.Buffer) error { return page.PNG(b) },
		"svg": func(b *bytes.Buffer) error { return page.SVG(b) },
		"pdf": func(b *bytes.Buffer) error {
			return sheet.PDF(b, "Letter", "kitchen", time.Unix(0, 0), func(float64) []*sheet.Page { return []*sheet.Page{page} })
		},
	}
	for format, do := range write {
		var a, b bytes.Buffer
		if err := do(&a); err != nil {
			t.Fatalf("%s: %v", format, err)
		}
		if err := do(&b); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: not the same again (%v)", format, err)
		}
		switch format {
		case "png":
			if img, err := png.Decode(&a); err != nil || img.Bounds().Dx() != sheet.Width || img.Bounds().Dy() != 120 {
				t.Errorf("png: %v", err)
			}
		case "svg":
			if !strings.Contains(a.String(), "row 2 &lt;?&gt; &amp; rip") {
				t.Errorf("svg: %s", a.String())
			}
		}
	}
}
