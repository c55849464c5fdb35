// Package screws answers how many screws a surface takes, of which length, and how far apart.
package screws

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/told"
	"strapline/bot/message"
	"strapline/bot/say"
	"strapline/calc/fasten"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar/hanging"
)

type screwsFacts struct {
	Length      say.Len `json:"length"`
	Count       int     `json:"count"`
	PerCrossing int     `json:"per_crossing"`
	Boxes       int     `json:"boxes,omitempty"`
}

// Count counts the screws of those pieces of a plan, and says by which rule, with which screw, and what is
// uncertain.
func Count(c answer.Ctx, p *inforce.Plan, of func(id string) bool) (fasten.Count, fasten.Rule, fasten.Screw, []fasten.Note) {
	set := c.Room.Bearing(p.Surface)
	where := behind.WhereFixed(c, p.Surface, set)
	rule, notes := fasten.RuleFor(where)
	var pieces []fasten.Piece
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			if !of(pc.ID) {
				continue
			}
			q := p.Rect(pc)
			pieces = append(pieces, fasten.Piece{X: q.X0, Y: q.Y0, W: q.X1 - q.X0, H: q.Y1 - q.Y0})
		}
	}
	screw := behind.ScrewFor(c, where, set[0])
	return fasten.ForPieces(pieces, set, rule), rule, screw, append(notes, screw.Notes...)
}

// Answer counts the screws of a room's plans, hung or not.
func Answer(c answer.Ctx, e hanging.Screws) answer.Reply {
	facts := screwsFacts{}
	var r answer.Reply
	var lines []string
	planes, of := c.Planes(e.Surface), ""
	if e.Row > 0 {
		planes, of = []place.Surface{answer.SurfaceOf(e.Surface)}, fmt.Sprintf(" row %d", e.Row)
	}
	for _, on := range planes {
		if line := asSaid(c, on); line != "" {
			if lines = append(lines, line); !many.MatchString(c.Words) {
				continue
			}
		}
		p, stop := c.Plan(on)
		if stop != nil && stop.Refuse != nil && !stop.Over && len(c.Room.Supports(on)) == 0 {
			lines = append(lines, screwAlone(c, on, stop.Refuse.Want))
			continue
		}
		if stop != nil {
			return *stop
		}
		if e.Row > len(p.Rows) {
			return c.NoRow(p, fmt.Sprint(e.Row))
		}
		bill, rule, screw, notes := Count(c, p, func(id string) bool { return e.Row == 0 || strings.HasPrefix(id, fmt.Sprintf("r%d.", e.Row)) })
		n := bill.Screws()
		facts.Count += n
		per, narrow := perCrossing(c, p, rule)
		facts.Length, facts.PerCrossing = c.Fact(screw.Length), per
		kind := "coarse"
		if bill.Steel > bill.Wood {
			kind = "fine, for steel"
		}
		if board, said := c.Room.BoardFor(on); !said {
			kind += fmt.Sprintf(" for %s board (assumed)", c.Len(board.Thick))
		}
		one := c.Room.Supports(on)[0].Kind.One()
		lines = append(lines, fmt.Sprintf("%s%s: %d screws %s %s, %d where a board crosses a %s%s, %s apart",
			c.Where(on), of, n, c.Len(screw.Length), kind, per, one, narrow, c.Len(rule.Spacing)))
		if edge.MatchString(c.Words) {
			r.Note("check", fmt.Sprintf("at least %s from every edge of a board", c.Len(rule.Edge)))
		}
		for _, n := range notes {
			if s := fastenNote(c, n, screw, one); s != "" && !slices.ContainsFunc(r.Notes, func(o message.Note) bool { return o.Text == s }) {
				r.Note("check", s)
			}
		}
		if !on.Upright() {
			tacks, each := fasten.Tacks(longestPiece(p))
			r.Note("check", fmt.Sprintf("before the lift is taken away: %d in the longest board, %d along each long edge", tacks, each))
		}
	}
	if note := told.Board(c); facts.Count == 0 && len(lines) > 0 {
		if note != "" {
			lines = append(lines, note)
		}
		return answer.Tell("screws", facts, strings.Join(lines, "\n"))
	}
	box := PerBox(c)
	facts.Boxes = fasten.Box{Holds: box, Spare: 10}.Boxes(facts.Count)
	bring := fmt.Sprintf("bring %d %s of %d", facts.Boxes, map[bool]string{true: "box", false: "boxes"}[facts.Boxes == 1], box)
	if len(lines) > 1 {
		lines = append([]string{fmt.Sprintf("%s: %d screws in all; %s", c.Room.Name, facts.Count, bring)}, lines...)
	} else {
		lines[0] += "; " + bring
	}
	r.Kind, r.Facts, r.Text = "screws", facts, strings.Join(lines, "\n")
	return r
}

// layers and thickness match the board that a question about screws is about, if it says so: not the length of the screw.
var (
	steel     = regexp.MustCompile(`(?i)\b(?:steel|metal|channels?|hat track)\b`)
	edge      = regexp.MustCompile(`(?i)\bedges?\b`)
	many      = regexp.MustCompile(`(?i)\b(?:many|count|number|box(?:es)?)\b`)
	layers    = regexp.MustCompile(`(?i)\b(?:2|two|double|second|another)[ -](?:layers?|ply|boards?|sheets?)\b|\bdoubled?(?: up)?\b`)
	thickness = regexp.MustCompile(`(?i)(?:^|[^\d\s/-] ?|\d (?:layers?|ply|boards?|sheets?)(?: of)? )(?:(3/8|1/2|5/8)\b|\b(half)[ -]inch\b|\b(five[ -]eighths?)\b|\b(9\.5|12\.5|12\.7|15|16) ?mm\b)`)
	thick     = map[string]length.Length{"3/8": 3 * length.Inch / 8, "1/2": length.Inch / 2, "half": length.Inch / 2, "5/8": 5 * length.Inch / 8, "five eighth": 5 * length.Inch / 8,
		"9.5": 95 * length.Millimetre / 10, "12.5": 125 * length.Millimetre / 10, "12.7": 127 * length.Millimetre / 10, "15": 15 * length.Millimetre, "16": 16 * length.Millimetre}
)

// asSaid names the screw for the board that the question says, if it is not the board of the job. It returns "" if it is.
func asSaid(c answer.Ctx, on place.Surface) string {
	board, _ := c.Room.BoardFor(on)
	said := board.Thick
	if m := thickness.FindStringSubmatch(c.Words); m != nil {
		said = cmp.Or(thick[strings.ReplaceAll(strings.TrimSuffix(strings.ToLower(m[1]+m[2]+m[3]+m[4]), "s"), "-", " ")], said)
	}
	all, of := said, c.Thick(said)+" board"
	if layers.MatchString(c.Words) {
		all, of = 2*said, "2 layers of "+of
	}
	if all == board.Thick {
		return ""
	}
	set := c.Room.Bearing(on)
	where := behind.WhereFixed(c, on, set)
	where.Board = all
	one := place.Support{}
	if len(set) > 0 {
		one = set[0]
	} else if steel.MatchString(c.Words) {
		one.Kind = place.Channels
	}
	rule, _ := fasten.RuleFor(where)
	return fmt.Sprintf("%s: %s screws, at most %s apart, for %s as you say; the job has %s, and screws are counted for that", c.Where(on), c.Len(fasten.ScrewLength(where, one).Length), c.Len(rule.Spacing), of, c.BoardName(site.Plane{Room: c.Room, Surface: on}))
}

// screwAlone names the screw and its spacing where no support is noted, so that none can be counted.
func screwAlone(c answer.Ctx, on place.Surface, why string) string {
	where, one, framing := behind.WhereFixed(c, on, nil), place.Support{}, "straight on wood"
	if steel.MatchString(c.Words) {
		one.Kind, framing = place.Channels, "on light steel, fine thread (common practice, no source)"
	}
	rule, _ := fasten.RuleFor(where)
	return fmt.Sprintf("%s: %s screws, at most %s apart, for %s board %s; none are counted: %s", c.Where(on), c.Len(behind.ScrewFor(c, where, one).Length), c.Len(rule.Spacing), c.BoardName(site.Plane{Room: c.Room, Surface: on}), framing, why)
}

// perCrossing returns how many screws the widest row takes where it crosses a support, and words for the
// narrower ones, which take fewer.
func perCrossing(c answer.Ctx, p *inforce.Plan, rule fasten.Rule) (per int, narrow string) {
	var widths []length.Length
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			widths = append(widths, pc.Hi-pc.Lo)
		}
	}
	slices.Sort(widths)
	for _, w := range slices.Backward(slices.Compact(widths)) {
		n := fasten.PerCrossing(w, rule.Edge, rule.Spacing)
		if per == 0 {
			per = n
		} else if n < per {
			narrow += fmt.Sprintf(", %d where it is %s wide", n, c.Near(w))
		}
	}
	return per, narrow
}

// fastenNote says what is uncertain about the screws, "" if nothing needs to be said here.
func fastenNote(c answer.Ctx, n fasten.Note, s fasten.Screw, support string) string {
	source := ""
	if n.Source != "" {
		source = " (" + n.Source + ")"
	}
	switch n.Kind {
	case fasten.ListingRules:
		return "fire-rated: the listed design gives length and spacing, not this count; follow it and the local code" + source
	case fasten.BayTooWide:
		return fmt.Sprintf("%ss %s apart, the limit for this board is %s%s", support, c.Near(n.Got), c.Len(n.Limit), source)
	case fasten.NotAllowed:
		return "the code does not allow this board here at any spacing" + source
	case fasten.Unlisted:
		return fmt.Sprintf("no rule for %s board: this is the next thinner one's%s", c.Thick(n.Got), source)
	case fasten.ShortBite, fasten.NoStockLength:
		return fmt.Sprintf("%s bites only %s, %s is needed%s", c.Len(s.Length), c.Len(s.Bite), c.Len(s.Need), source)
	case fasten.ThinSupport:
		return fmt.Sprintf("a %s of %s is thinner than the bite wanted (%s): the screw has to reach what is behind it%s", support, c.Len(n.Got), c.Len(n.Limit), source)
	}
	return ""
}

func longestPiece(p *inforce.Plan) length.Length {
	var most length.Length
	for _, r := range p.Rows {
		for _, pc := range r.Pieces {
			most = max(most, pc.Cut)
		}
	}
	return most
}

// PerBox returns how many screws a box holds.
func PerBox(c answer.Ctx) int {
	if v, set := c.State.SettingNow("box"); set {
		return int(v.N)
	}
	return 1000 // common practice, no source
}
