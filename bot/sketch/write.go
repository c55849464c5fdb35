package sketch

import (
	"fmt"
	"io"

	"strapline/bot/scene"
	"strapline/bot/sheet"
)

// PDF writes the plan on the first sheet, with its slopes and bulkheads below it, and the lists on the
// following ones. The paper is US Letter, or A4 in a metric job.
func PDF(w io.Writer, s scene.Scene) error {
	return sheet.PDF(w, s.Units.Pick("Letter", "A4"), s.Room+" "+s.Surface.Name(), s.Now, func(most float64) []*sheet.Page { return sheets(s, most) })
}

// Highest is the height limit of a picture, in pixels. What does not fit is in the lists.
const Highest = 4000

// Formats are the file extensions that [Write] supports.
var Formats = []string{".png", ".svg", ".pdf"}

// Write writes the scene in the format of a file extension. A PDF has the plan on its
// first sheet and the lists on the others; a picture has only the plan or, with cuts, only
// the first page of the lists. The same scene always gives the same bytes.
func Write(w io.Writer, s scene.Scene, format string, cuts bool) error {
	if format == ".pdf" {
		return PDF(w, s)
	}
	page, left := Plan(s, Highest)
	if cuts {
		page = Lists(s, Highest, left)[0]
	}
	switch format {
	case ".png":
		return page.PNG(w)
	case ".svg":
		return page.SVG(w)
	}
	return fmt.Errorf("a sketch is a .png, a .svg or a .pdf, not %q", format)
}
