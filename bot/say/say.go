// Package say puts lengths, places, times and lists into the crew's words: all
// that a reply prints of them goes through here.
package say

import (
	"fmt"
	"strings"
	"time"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Speech is how one job is spoken of: in its units, its time zone, and on the
// day of the message.
type Speech struct {
	Units length.Units
	Loc   *time.Location
	Now   time.Time // when the message was sent: a clock of another day gets its date
}

// Len is a length in facts.
type Len struct {
	MM   float64 `json:"mm"`
	Text string  `json:"text"`
}

// Fact turns a length into a fact.
func (s Speech) Fact(l length.Length) Len { return Len{MM: length.MM(l), Text: s.Len(l)} }

// Len prints a length.
func (s Speech) Len(l length.Length) string { return length.Format(l, s.Units) }

// Said prints a length with the bit over or under that was said of it.
func (s Speech) Said(l length.Said) string {
	if l.Tag == length.Exact {
		return s.Len(l.L)
	}
	return s.Len(l.L) + " " + string(l.Tag)
}

// Near prints a position to the nearest 1/16 in or 1 mm.
func (s Speech) Near(l length.Length) string { return s.Len(length.RoundNearest(l, s.Units)) }

// Thick prints a thickness: in a metric job with its half or tenth of a millimetre.
func (s Speech) Thick(l length.Length) string {
	if s.Units == length.Metric && l%length.Millimetre != 0 && l%(length.Millimetre/10) == 0 {
		return fmt.Sprintf("%g mm", length.MM(l))
	}
	return s.Len(l)
}

// Tape prints a length as a tape shows it, in inches alone: for a drawing, where one number has to do.
func (s Speech) Tape(l length.Length) string {
	if s.Units == length.Metric {
		return s.Len(l)
	}
	return length.Canon(length.RoundNearest(l, s.Units))
}

// Fine prints a small distance exactly, where rounding to 1/16 would hide it.
func (s Speech) Fine(l length.Length) string {
	if s.Units == length.Metric {
		return fmt.Sprintf("%.1f mm", length.MM(l))
	}
	return length.Canon(l)
}

// Clock prints a time of day in unix milliseconds, with its date when it is not the day of the message.
func (s Speech) Clock(ms int64) string {
	at, now := time.UnixMilli(ms).In(s.Loc), s.Now.In(s.Loc)
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return at.Format("15:04")
	}
	return at.Format("Jan 2 15:04")
}

// Stamp is a time in facts, RFC 3339.
func (s Speech) Stamp(ms int64) string { return time.UnixMilli(ms).In(s.Loc).Format(time.RFC3339) }

// ByWhen is who said an entry and when.
func (s Speech) ByWhen(e *site.Entry) string { return e.Who + ", " + s.Clock(e.Sent) }

// Fix is a distance as the crew says it. The face it was held to is said for all of them together.
func (s Speech) Fix(f place.Fix) string {
	if f.How != place.UpFrom { // which floor is said with the height
		f.Face = ""
	}
	f.Main = false
	return f.Text(s.Said)
}

// Fixes are distances as the crew says them, one after another.
func (s Speech) Fixes(fixes []place.Fix) string {
	parts := make([]string, len(fixes))
	for i, f := range fixes {
		parts[i] = s.Fix(f)
	}
	return strings.Join(parts, ", ")
}

// Coords is a place on a surface, to the framing.
func (s Speech) Coords(on place.Surface, p place.Point) string {
	y := s.Near(p.Y)
	switch part, w := on.BulkheadOf(); {
	case on.Upright():
		y += " up"
	case on.SlopeTo() != "":
		y += " up the slope"
	case part != "":
		y += " in from its " + string(w) + " edge"
	default:
		y += " off north"
	}
	return fmt.Sprintf("%s off %s, %s", s.Near(p.X), on.Start(place.X), y)
}

// Size is a thing's size behind its name, "" when none was said.
func (s Speech) Size(z place.Size) string {
	if z.A == 0 {
		return ""
	}
	return " " + z.Text(s.Len)
}

// Board is a stock length: whole feet, or metres.
func (s Speech) Board(l length.Length) string {
	if s.Units == length.Imperial && l%length.Foot == 0 {
		return fmt.Sprintf("%d'", l/length.Foot)
	}
	return s.Len(l)
}

// Area prints square metres: whole square feet, or tenths of a square metre.
func (s Speech) Area(m2 float64) string {
	if s.Units == length.Metric {
		return fmt.Sprintf("%.1f m2", m2)
	}
	return fmt.Sprintf("%.0f sq ft", m2/0.09290304) // 0.3048 m squared, exact
}

// Run is the direction of boards or supports.
func Run(r place.Run) string {
	switch r {
	case place.EW:
		return "east-west"
	case place.NS:
		return "north-south"
	}
	return string(r)
}

// BoardsRun is the direction of boards on a surface: level or standing where it stands.
func BoardsRun(on place.Surface, r place.Run) string {
	switch {
	case !on.Upright():
		return Run(r)
	case on.Lie(r) == place.X:
		return "level"
	}
	return "standing"
}

// Where is the room, and the surface when it is not the ceiling.
func Where(room string, on place.Surface) string {
	if on == place.Ceiling {
		return room
	}
	return room + " " + on.Name()
}

// RowsFrom is where the rows of a surface start: "" is the top.
func RowsFrom(on place.Surface, w place.Wall) string {
	switch {
	case w == "" && on.IsWall():
		return "the ceiling down"
	case w == "":
		return "the top down"
	}
	return "the " + string(w) + " wall"
}

// Piece is what hangs: row 2, the north wall.
func Piece(p *site.Piece) string {
	h, _ := p.Entry.Body.(site.Hung)
	switch {
	case p.Row > 0 && h.Surface != place.Ceiling:
		return fmt.Sprintf("%s row %d", h.Surface.Name(), p.Row)
	case p.Row > 0:
		return fmt.Sprintf("row %d", p.Row)
	}
	return "the " + h.Surface.Name()
}

// Plural is the word for n of it.
func Plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// Ranges lists numbers in order, three and more in a row as "3 to 12".
func Ranges(ns []int) string {
	var parts []string
	for i := 0; i < len(ns); {
		k := i
		for k+1 < len(ns) && ns[k+1] == ns[k]+1 {
			k++
		}
		if k > i+1 {
			parts = append(parts, fmt.Sprintf("%d to %d", ns[i], ns[k]))
		} else {
			for _, n := range ns[i : k+1] {
				parts = append(parts, fmt.Sprint(n))
			}
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// longestQuote is how much of somebody's words is quoted, in runes: two lines on a phone.
const longestQuote = 160

// FirstLine is a text cut to its first line, and to what a phone shows.
func FirstLine(s string) string {
	line, _, more := strings.Cut(s, "\n")
	if r := []rune(line); len(r) > longestQuote {
		line, more = strings.TrimRight(string(r[:longestQuote]), " "), true
	}
	if more {
		line += " …"
	}
	return line
}

// Most cuts a list to n for a phone and says how many more there are.
func Most(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	return append(list[:n:n], fmt.Sprintf("and %d more", len(list)-n))
}

// MostLines cuts an answer of many lines to what a phone shows, and says how to see the rest.
func MostLines(lines []string, how string) []string {
	const most = 25
	if len(lines) <= most {
		return lines
	}
	return append(lines[:most:most], fmt.Sprintf("%d more: %s", len(lines)-most, how))
}
