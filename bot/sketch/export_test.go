package sketch

import (
	"strapline/bot/scene"
	"strapline/bot/sheet"
)

// RunWidth is the line width of a run, which no other line has.
const RunWidth = runWidth

// SoughtWidth is the line width of the ring around the thing that was looked for.
const SoughtWidth = soughtWidth

// Sheets are the pages of a PDF whose sheets are most pixels high.
func Sheets(s scene.Scene, most float64) []*sheet.Page { return sheets(s, most) }
