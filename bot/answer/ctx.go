package answer

import (
	"cmp"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"time"

	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/inforce"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/record"
)

// Ctx is the job as a handler sees it. It is read-only.
type Ctx struct {
	say.Speech
	State   *site.State
	Kinds   Kinds
	Plans   *inforce.Plans
	Walls   map[string]place.Wall // names that are only about to be noted
	Who     string
	Sent    time.Time     // when it was so
	Arrived bool          // Sent is only when it reached the chat server
	Alone   bool          // the entry is read without reference to what was noted last
	Words   string        // the entry as typed
	Message string        // all of the message that it is in
	Unread  string        // the words of it that were not read, "" if that is all of them
	Follows int           // see [grammar.Context]
	Asked   *grammar.Last // what is asked about, if the entry corrects that and not what was noted last
	Opening []string      // rooms whose size is still asked for
	Entered string        // the one of them that the sender is in, "" if none
	Line    grammar.Line
	Room    *site.Room           // room that the entry is about, nil if none
	Fixing  bool                 // a colleague's mark is moved on purpose
	Waiting func() []*site.Entry // what is still asked about or held, as notes without a number; nil if nothing can be
}

// Refers reports whether a question is about what was said before it: "what is behind there".
var Refers = regexp.MustCompile(`(?i)\b(?:there|it|that|this|here)\b`).MatchString

// Kinds maps each kind of entry to its handler.
type Kinds map[reflect.Type]handler

type handler struct {
	answer func(Ctx, grammar.Entry) Reply
	asks   bool
	beside func(Ctx, Reply) Reply // of the key nil
}

// OnNote registers the handler of a kind of entry that is logged.
func OnNote[E grammar.Entry](k Kinds, f func(Ctx, E) Reply) { on(k, f, false) }

// OnQuestion registers the handler of a kind of entry that is only a question.
func OnQuestion[E grammar.Entry](k Kinds, f func(Ctx, E) Reply) { on(k, f, true) }

// InRoom returns a handler that asks which room is meant if none is at hand, before f is called.
func InRoom[E grammar.Entry](f func(Ctx, E) Reply) func(Ctx, E) Reply {
	return func(c Ctx, e E) Reply {
		if stop := c.NeedRoom(); stop != nil {
			return *stop
		}
		return f(c, e)
	}
}

func on[E grammar.Entry](k Kinds, f func(Ctx, E) Reply, asks bool) {
	k[reflect.TypeFor[E]()] = handler{answer: func(c Ctx, e grammar.Entry) Reply { return f(c, e.(E)) }, asks: asks}
}

// OnReply registers what is added to the replies of all kinds.
func OnReply(k Kinds, f func(Ctx, Reply) Reply) { k[nil] = handler{beside: f} }

// Asks reports whether an entry is only a question.
func (k Kinds) Asks(e grammar.Entry) bool { return k[reflect.TypeOf(e)].asks }

// Answer answers an entry in the room at hand.
func (c Ctx) Answer(e grammar.Entry) Reply {
	h, ok := c.Kinds[reflect.TypeOf(e)]
	if !ok {
		return Reply{Err: fmt.Errorf("no answer for entry kind %T", e)}
	}
	return h.answer(c, e)
}

// AnswerLine answers a parsed line: it finds the room and the time, then answers the entry.
func (c Ctx) AnswerLine(line grammar.Line) Reply {
	c.Line = line
	if line.Room != "" {
		if c.Room = c.State.Room(line.Room); c.Room == nil {
			return c.NoSuchRoom(line.Room)
		}
	} else if c.Room = c.State.RoomOf(c.Who); c.Room == nil {
		c.Room = c.State.OnlyRoom()
	}
	if line.Room == "" && c.Room != nil && c.Kinds.Asks(line.Entry) && here.MatchString(c.Words) {
		line.Room, c.Line.Room = c.Room.Name, c.Room.Name
	}
	var stop *Reply
	if c, stop = c.timed(); stop != nil {
		return *stop
	}
	if stop := c.resolve(&line); stop != nil {
		return *stop
	}
	c.Line = line
	r := c.Answer(line.Entry)
	if h := c.Kinds[nil]; h.beside != nil {
		r = h.beside(c, r)
	}
	r.Sent = c.Sent
	if c.Room != nil {
		r.Here = c.Room.Name
	}
	return r
}

// here says that a question is about the room at hand.
var here = regexp.MustCompile(`(?i)\b(?:in here|(?:in )?this (?:room|ceiling|lid))\b`)

// timed applies "at 9:58" and "before row 2".
func (c Ctx) timed() (Ctx, *Reply) {
	if c.Line.At != "" {
		clock, err := time.Parse("15:04", c.Line.At)
		if err != nil {
			return c, Stop(No("a time like 9:58", ""))
		}
		day := c.Sent.In(c.Loc)
		at := time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, c.Loc)
		// Take the last time before the message at which the clock showed this, morning or afternoon:
		// nobody on a ladder says which.
		if !c.Line.Exact && at.Hour() < 12 && !at.Add(12*time.Hour).After(day) {
			at = at.Add(12 * time.Hour)
		}
		if ahead := at.Sub(day); ahead > 0 && ahead <= 30*time.Minute {
			at = day // the phone's clock is a little fast
		}
		if at.After(day) {
			at = at.AddDate(0, 0, -1)
			if !c.Line.Exact && at.Hour() < 12 {
				at = at.Add(12 * time.Hour)
			}
		}
		c.Sent = at
	}
	row := max(c.Line.Before, c.Line.After)
	if row == 0 {
		return c, nil
	}
	if stop := c.NeedRoom(); stop != nil {
		return c, stop
	}
	for _, p := range c.Room.Pieces(place.Ceiling) {
		if p.Row != row {
			continue
		}
		c.Sent = time.UnixMilli(p.Entry.Sent).Add(time.Millisecond)
		if c.Line.Before > 0 {
			c.Sent = c.Sent.Add(-2 * time.Millisecond)
		}
		return c, nil
	}
	return c, Stop(No(fmt.Sprintf("row %d has not been reported hung in %s", row, c.Room.Name), fmt.Sprintf("hung row %d", row)))
}

// Stop returns a reply that ends a handler early.
func Stop(r Reply) *Reply { return &r }

// NeedRoom stops a handler if there is no room at hand, and asks for it.
func (c Ctx) NeedRoom() *Reply {
	if c.Room != nil {
		return nil
	}
	var choices []grammar.Choice
	for _, r := range c.State.Standing() {
		line := c.Line
		line.Room = r.Name
		choices = append(choices, grammar.Choice{Label: r.Name, Lines: []grammar.Line{line}})
		if len(choices) == 9 {
			break
		}
	}
	if len(choices) == 0 {
		if c.Kinds.Asks(c.Line.Entry) {
			return Stop(Nothing("no room is noted yet", ARoom("", c.Units)))
		}
		return Stop(No("no room is noted yet", ARoom("", c.Units)))
	}
	return Stop(Ask("which room?", "", choices...))
}

// In returns c with another room at hand.
func (c Ctx) In(r *site.Room) Ctx {
	c.Room = r
	return c
}

// LineOf returns the line with another entry.
func (c Ctx) LineOf(e grammar.Entry) grammar.Line {
	line := c.Line
	line.Entry = e
	if line.Room == "" && c.Room != nil && len(c.State.Rooms) > 1 {
		line.Room = c.Room.Name
	}
	return line
}

// As returns a choice: the line with another entry.
func (c Ctx) As(label string, e grammar.Entry) grammar.Choice {
	return grammar.Choice{Label: label, Lines: []grammar.Line{c.LineOf(e)}}
}

// Sure returns a choice like As, without repeating the question that led to it.
func (c Ctx) Sure(label string, e grammar.Entry) grammar.Choice {
	line := c.LineOf(e)
	line.Sure = true
	return grammar.Choice{Label: label, Lines: []grammar.Line{line}}
}

// SpeakOf returns the room that a question names, or all rooms.
func (c Ctx) SpeakOf() []*site.Room {
	if c.Line.Room != "" {
		return []*site.Room{c.Room}
	}
	return c.State.Standing()
}

// RouteText is a run and where it begins and ends.
func (c Ctx) RouteText(rt *site.RouteState) string {
	v, _ := rt.Now()
	path := rt.Path()
	return fmt.Sprintf("%s (%s to %s)", c.RouteName(v), c.Coords(v.Surface, path[0]), c.Coords(v.Surface, path[len(path)-1]))
}

// Coords words a place in the room at hand: its distances off the actual walls, to the framing.
func (c Ctx) Coords(on place.Surface, p place.Point) string {
	text := c.Speech.Coords(on, c.Room.Shell().FromStart(on, p))
	if start := on.Start(place.X); c.Room.Shell().FromCorner(on, start) > 0 { // where a notch's face begins at its own corner
		text = strings.Replace(text, "off "+string(start), "off "+string(start)+" notch", 1)
	}
	return text
}

// XY returns a place in the room at hand as facts: its distances off the west and the north wall, to the
// framing.
func (c Ctx) XY(on place.Surface, p place.Point) (x, y say.Len) {
	p = c.Room.Shell().FromStart(on, p)
	return c.Fact(p.X), c.Fact(p.Y)
}

// Where names the room at hand, and the wall if it is one.
func (c Ctx) Where(on place.Surface) string { return say.Where(c.Room.Name, on) }

// SurfaceOf returns the surface said, or else the ceiling.
func SurfaceOf(s place.Surface) place.Surface {
	if s == "" {
		return place.Ceiling
	}
	return s
}

// SaidOn returns a surface as it is typed: nothing for the ceiling.
func SaidOn(s place.Surface) place.Surface {
	if s == place.Ceiling {
		return ""
	}
	return s
}

// Hidden reports whether an event is not an entry in the eyes of the crew.
func Hidden(b event.Body) bool {
	switch b := b.(type) {
	case event.Told, event.Photo:
		return true
	case event.PlanPick:
		return !b.Said
	}
	return false
}

// Named returns the things that the words name: those in the room that was said, or else in all rooms, the
// room at hand first. A name used in two rooms never silently means the one at hand.
func (c Ctx) Named(words string) []*site.ThingState {
	if words == record.It {
		if th := c.State.LastThing(c.Who); th != nil && (c.Line.Room == "" || th.Room == c.Room) {
			return []*site.ThingState{th}
		}
		return nil
	}
	found := c.State.Find(words)
	if len(found) == 0 {
		found = c.byOrder(words)
	}
	if c.Line.Room != "" {
		return slices.DeleteFunc(found, func(th *site.ThingState) bool { return th.Room != c.Room })
	}
	slices.SortStableFunc(found, func(a, b *site.ThingState) int {
		here := func(th *site.ThingState) int {
			if th.Room == c.Room {
				return 0
			}
			return 1
		}
		return here(a) - here(b)
	})
	return found
}

// byOrder returns the thing that words like "first light" name: of that kind, in the order noted or between the others, in the
// room at hand, or in any if there is none.
func (c Ctx) byOrder(words string) []*site.ThingState {
	nth, what, _ := strings.Cut(words, " ")
	n := slices.Index(lex.Ordinals, nth)
	if n < 0 && nth != lex.Middle && nth != "last" {
		return nil
	}
	rooms := c.State.Standing()
	if c.Room != nil {
		rooms = []*site.Room{c.Room}
	}
	var found []*site.ThingState
	for _, r := range rooms {
		var all []*site.ThingState
		for _, th := range r.Things {
			if v, e := th.Now(); e != nil && v.What == what {
				all = append(all, th)
			}
		}
		switch {
		case nth == lex.Middle && len(all) > 1 && len(all)%2 == 0:
			found = append(found, all...)
		case nth == lex.Middle && len(all) > 1:
			found = append(found, middle(all))
		case n < len(all) && nth != lex.Middle: // that before the first is the last
			found = append(found, all[(n+len(all))%len(all)])
		}
	}
	return found
}

// middle returns the one of an odd number of things that has as many on one side as on the other, the way they are
// spread the farthest.
func middle(all []*site.ThingState) *site.ThingState {
	var wide []*site.ThingState
	most := length.Length(-1)
	for _, axis := range []place.Axis{place.X, place.Y} {
		sorted := slices.SortedStableFunc(slices.Values(all), func(a, b *site.ThingState) int { return cmp.Compare(a.At().On(axis), b.At().On(axis)) })
		if spread := sorted[len(sorted)-1].At().On(axis) - sorted[0].At().On(axis); spread > most {
			wide, most = sorted, spread
		}
	}
	return wide[len(wide)/2]
}

// OneThing returns the thing that the words name, or the reply if they name none or several. with returns
// the entry with a thing's full name.
func (c Ctx) OneThing(words string, with func(name string) grammar.Entry) (*site.ThingState, *Reply) {
	found := withNumber(c.Named(words), with(words))
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		if words != record.It || len(c.newest()) == 0 {
			return nil, Stop(c.noThing(words))
		}
		found, words = c.newest(), "one"
	}
	var choices []grammar.Choice
	if i := slices.Index(found, c.State.LastThing(c.Who)); i > 0 && corrects(with(words)) { // likely what they told last
		found = slices.Concat(found[i:i+1], found[:i], found[i+1:])
	}
	for _, th := range found[:min(len(found), 9)] {
		line := c.Line
		line.Room, line.Entry = th.Room.Name, with(th.Name)
		v, _ := th.Now()
		label := fmt.Sprintf("%s %s (%s)", th.Room.Name, th.Name, c.In(th.Room).Coords(v.Surface, th.At()))
		choices = append(choices, grammar.Choice{Label: label, Lines: []grammar.Line{line}})
	}
	if n := len(choices); n == len(found) && n > 0 && fitsAll(choices[0].Lines[0].Entry) {
		all := grammar.Choice{Label: map[bool]string{true: "both", false: fmt.Sprintf("all %d", n)}[n == 2]}
		for _, one := range choices {
			all.Lines = append(all.Lines, one.Lines...)
		}
		if choices = append(choices, all); ofAll.MatchString(strings.ToLower(c.Words)) {
			choices = append(choices[n:], choices[:n]...)
		}
	}
	return nil, Stop(Ask(fmt.Sprintf("which %s?", words), "", choices...))
}

// newest returns the things of the room, or of all, that were noted last, the newest first.
func (c Ctx) newest() (all []*site.ThingState) {
	for _, r := range c.SpeakOf() {
		for _, th := range slices.Backward(r.Things) {
			if _, e := th.Now(); e != nil {
				all = append(all, th)
			}
		}
	}
	return all
}

// NoNote begins the answer that nothing of a name is noted.
const NoNote = "no note of "

func (c Ctx) noThing(words string) Reply {
	if words == record.It {
		return Nothing("nothing is noted yet to go by", "log")
	}
	in := ""
	if c.Line.Room != "" {
		in = " in " + c.Room.Name
		if other := c.State.Find(words); len(other) > 0 {
			return Nothing(fmt.Sprintf("%s is noted in %s, not in %s", other[0].Name, other[0].Room.Name, c.Room.Name), other[0].Room.Name+": find "+other[0].Name)
		}
	}
	for _, th := range c.State.Gone(words) {
		if notes := th.Notes(); len(notes) > 0 {
			if by := notes[len(notes)-1].StruckBy(); by != nil {
				return Nothing(fmt.Sprintf("%s was struck by %s", words, c.ByWhen(by)), fmt.Sprintf("strike %d", by.Seq))
			}
		}
	}
	var known []string
	for _, r := range c.State.Standing() {
		for _, th := range r.Things {
			if _, e := th.Now(); e != nil {
				known = append(known, th.Name)
			}
		}
	}
	n := grammar.Nearest(words, known)
	for _, name := range known {
		if what, number, ok := strings.Cut(name, " "); ok && words == what[:1]+number { // l1 for light 1
			n = name
		}
	}
	if one, ok := strings.CutPrefix(words, lex.Middle+" "); ok { // of one nobody knows that it is between others
		if found := c.State.Find(one); len(found) > 0 {
			n = found[0].Name
		}
	}
	if n != "" {
		return Nothing(fmt.Sprintf(NoNote+"%q%s; did you mean %s?", words, in, n), "")
	}
	for _, en := range slices.Backward(c.State.Entries) {
		if note, ok := en.Body.(event.Note); ok && !en.Struck() && slices.Contains(strings.Fields(strings.ToLower(note.Text)), words) {
			hint := fmt.Sprintf("strike %d", en.Seq)
			if _, looks := c.Line.Entry.(record.Find); looks {
				hint = ""
			}
			return Nothing(fmt.Sprintf("no %s is on the plan, only in note %d: %q", words, en.Seq, say.FirstLine(note.Text)), hint)
		}
	}
	return Nothing(fmt.Sprintf(NoNote+"%q%s", words, in), "log")
}

// ThingsOf returns the things that an entry noted.
func (c Ctx) ThingsOf(en *site.Entry) []*site.ThingState {
	var names []string
	switch b := en.Body.(type) {
	case event.Thing:
		names = []string{b.Name}
	case event.Things:
		for _, th := range b.Each {
			names = append(names, th.Name)
		}
	}
	var out []*site.ThingState
	if r := c.State.Room(en.Room); r != nil {
		for _, n := range names {
			if th := r.Thing(n); th != nil {
				out = append(out, th)
			}
		}
	}
	return out
}

// IsMark reports whether the room at hand has a mark of that name and no thing.
func (c Ctx) IsMark(name string) bool {
	name = strings.TrimPrefix(name, "mark ")
	_, _, ok := c.Room.Mark(name)
	return ok && c.Room.Thing(name) == nil
}

// Bounds above which a length is queried.
const (
	LongestRoom  = 200 * length.Foot
	LongestBoard = 16*length.Foot + length.Inch // the longest sheet sold (16 ft; makers' lists), plus an inch
)
