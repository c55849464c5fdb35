// Package say puts lengths, places, times and lists into the crew's words. Replies
// print them through this package only.
package say

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
)

// Speech is how a reply speaks of a job: its units, its time zone and the time of the
// message.
type Speech struct {
	Units length.Units
	Loc   *time.Location
	Now   time.Time // when the message was sent; times on other days are printed with the date
}

// Len is a length in the facts of a reply.
type Len struct {
	MM   float64 `json:"mm"`
	Text string  `json:"text"`
}

// Fact turns a length into a fact.
func (s Speech) Fact(l length.Length) Len { return Len{MM: length.MM(l), Text: s.Len(l)} }

// Len prints a length.
func (s Speech) Len(l length.Length) string { return length.Format(l, s.Units) }

// Said prints a length with its tag, such as "strong" or "shy".
func (s Speech) Said(l length.Said) string {
	if l.Tag == length.Exact {
		return s.Len(l.L)
	}
	return s.Len(l.L) + " " + string(l.Tag)
}

// Near prints a position to the nearest 1/16 in or 1 mm.
func (s Speech) Near(l length.Length) string { return s.Len(length.RoundNearest(l, s.Units)) }

// Thick prints a thickness. In a metric job it keeps tenths of a millimetre, such as 12.7 mm.
func (s Speech) Thick(l length.Length) string {
	if s.Units == length.Metric && l%length.Millimetre != 0 && l%(length.Millimetre/10) == 0 {
		return fmt.Sprintf("%g mm", length.MM(l))
	}
	return s.Len(l)
}

// Tape prints a length in inches only, to the nearest 1/16, for drawings. In a metric job
// it is the same as [Speech.Len].
func (s Speech) Tape(l length.Length) string {
	return s.Units.Pick(length.Canon(length.RoundNearest(l, s.Units)), s.Len(l))
}

// Fine prints a small distance that rounding to 1/16 in would hide: exactly, or in a
// metric job to 0.1 mm.
func (s Speech) Fine(l length.Length) string {
	return s.Units.Pick(length.Canon(l), fmt.Sprintf("%.1f mm", length.MM(l)))
}

// Clock prints a time, given in Unix milliseconds, as hours and minutes, with the date
// unless it is the day of the message.
func (s Speech) Clock(ms int64) string {
	at, now := time.UnixMilli(ms).In(s.Loc), s.Now.In(s.Loc)
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return at.Format("15:04")
	}
	return at.Format("Jan 2 15:04")
}

// Stamp is a time in facts: RFC 3339, from Unix milliseconds.
func (s Speech) Stamp(ms int64) string { return time.UnixMilli(ms).In(s.Loc).Format(time.RFC3339) }

// ByWhen says who sent an entry, and when.
func (s Speech) ByWhen(e *site.Entry) string { return e.Who + ", " + s.Clock(e.Sent) }

// Fix is a distance as the crew says it, without the face it was measured to, which is
// stated once for all the distances of a place.
func (s Speech) Fix(f place.Fix) string {
	if f.How != place.UpFrom { // for a height the face is the floor it is measured from
		f.Face = ""
	}
	f.Main = false
	return f.Text(s.Said)
}

// Fixes are distances as the crew says them, separated by commas.
func (s Speech) Fixes(fixes []place.Fix) string {
	parts := make([]string, len(fixes))
	for i, f := range fixes {
		parts[i] = s.Fix(f)
	}
	return strings.Join(parts, ", ")
}

// Coords is a point on a surface by its two distances, measured to the framing.
func (s Speech) Coords(on place.Surface, p place.Point) string {
	y := s.Near(p.Y)
	switch part, w, _ := on.BulkheadOf(); {
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

// Size is a thing's size with a leading space, to follow its name; "" if it has none.
func (s Speech) Size(z place.Size) string {
	if z.A == 0 {
		return ""
	}
	return " " + z.Text(s.Len)
}

// Board is a stock length: in feet if it is a whole number of them, else as [Speech.Len].
func (s Speech) Board(l length.Length) string {
	if s.Units == length.Imperial && l%length.Foot == 0 {
		return fmt.Sprintf("%d'", l/length.Foot)
	}
	return s.Len(l)
}

// Area prints an area given in square metres, to the square foot or 0.1 square metre.
func (s Speech) Area(m2 float64) string {
	return s.Units.Pick(fmt.Sprintf("%.0f sq ft", m2/0.09290304), fmt.Sprintf("%.1f m2", m2)) // (0.3048 m)^2, exact by definition
}

// Start is what places along a run are measured off.
func Start(r place.Direction) string {
	return map[place.Direction]string{place.EW: "west", place.NS: "north", place.Up: "the floor"}[r]
}

// Direction is the direction of boards or supports.
func Direction(r place.Direction) string {
	switch r {
	case place.EW:
		return "east-west"
	case place.NS:
		return "north-south"
	}
	return string(r)
}

// BoardsRun is the direction of the boards on a surface: "level" or "standing" on an
// upright one.
func BoardsRun(on place.Surface, r place.Direction) string {
	switch {
	case !on.Upright():
		return Direction(r)
	case on.Lie(r) == place.X:
		return "level"
	}
	return "standing"
}

// Where is the room, followed by the surface unless it is the ceiling.
func Where(room string, on place.Surface) string {
	if on == place.Ceiling {
		return room
	}
	return room + " " + on.Name()
}

// RowsFrom says where the rows of a surface start; w is "" for the top.
func RowsFrom(on place.Surface, w place.Wall) string {
	switch {
	case w == "" && on.FromFloor():
		return "the ceiling down"
	case w == "":
		return "the top down"
	}
	return "the " + string(w) + " wall"
}

// Piece names what hangs, such as "row 2" or "the north wall".
func Piece(p *frame.Piece) string {
	h, hung := p.Entry.Body.(event.Hung)
	switch {
	case !hung:
		return "board"
	case p.Row > 0 && h.Surface != place.Ceiling:
		return fmt.Sprintf("%s row %d", h.Surface.Name(), p.Row)
	case p.Row > 0:
		return fmt.Sprintf("row %d", p.Row)
	}
	return "the " + h.Surface.Name()
}

// Plural returns word, with an s unless n is 1.
func Plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// Supports counts supports: 1 stud, 3 studs.
func Supports(n int, k place.SupportKind) string {
	return fmt.Sprintf("%d %s", n, Plural(n, strings.TrimSuffix(string(k), "s")))
}

// Ranges lists ascending numbers, with runs of three or more as "3 to 12".
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
			parts = append(parts, Each(ns[i:k+1], strconv.Itoa)...)
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// longestQuote limits a quoted message, in runes: two lines on a phone.
const longestQuote = 160

// FirstLine is the first line of a text, cut to longestQuote.
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

// AnswerSign separates what was said from the answers to what was asked about it, in the text of an entry.
const AnswerSign = " > "

// Answered is the text of an entry that was asked about.
func Answered(said string, answers []string) string {
	return strings.Join(append([]string{said}, answers...), AnswerSign)
}

// Each returns how each of a list is said by f.
func Each[A, B any](list []A, f func(A) B) (out []B) {
	for _, a := range list {
		out = append(out, f(a))
	}
	return out
}

// Most cuts a list to its first n items and says how many more there are.
func Most(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	return append(list[:n:n], fmt.Sprintf("and %d more", len(list)-n))
}

// MostLines cuts an answer to 25 lines, says how many more there are, and how to see them.
func MostLines(lines []string, how string) []string {
	const most = 25
	if len(lines) <= most {
		return lines
	}
	return append(lines[:most:most], fmt.Sprintf("%d more: %s", len(lines)-most, how))
}

// fewWords is how many characters of a message are quoted to call it to mind; the message stands right
// above on the phone.
const fewWords = 44

// FirstWords is the start of a text in whole words, enough to call it to mind.
func FirstWords(s string) string {
	line, _, more := strings.Cut(s, "\n")
	if r := []rune(line); len(r) > fewWords {
		line, more = string(r[:fewWords]), true
		if i := strings.LastIndexByte(line, ' '); i > fewWords/2 {
			line = line[:i]
		}
		line = strings.TrimRight(line, " ,.;:-")
	}
	if more {
		line += " …"
	}
	return line
}
