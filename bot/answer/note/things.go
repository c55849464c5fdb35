// Package note answers what is noted before board hides it: things, marks and runs, and their corrections.
package note

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/ready"
	"strapline/bot/answer/revise"
	"strapline/bot/answer/settle"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/locate"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, answer.InRoom(thing))
	answer.OnNote(k, answer.InRoom(func(c answer.Ctx, e things.Opening) answer.Reply { return thing(c, e.Thing) }))
	answer.OnNote(k, answer.InRoom(evenGrid))
	answer.OnNote(k, more)
	answer.OnNote(k, answer.InRoom(mark))
	answer.OnNote(k, refix)
}

// Largest sizes taken without asking: a box is 2 to 6 in, a gang box longer; any other hole in the board
// is under 5 ft.
const (
	largestBox   = 14 * length.Inch
	largestThing = 5 * length.Foot
)

type (
	ThingFacts struct {
		Name    string    `json:"name"`
		What    string    `json:"what"`
		Label   string    `json:"label,omitempty"`
		Surface string    `json:"surface"`
		X       say.Len   `json:"x"`
		Y       say.Len   `json:"y"`
		Size    []say.Len `json:"size,omitempty"`
		Due     string    `json:"due"`
		State   string    `json:"state"`
	}
	ThingsFacts struct {
		Things []ThingFacts `json:"things"`
	}
	markFacts struct {
		Name    string  `json:"name"`
		Surface string  `json:"surface"`
		X       say.Len `json:"x"`
		Y       say.Len `json:"y"`
	}
)

// thing notes an opening or a box.
func thing(c answer.Ctx, e things.Thing) answer.Reply {
	if stop := sane(c, e.What, e.Size); stop != nil {
		return *stop
	}
	if answer.KindOf(e.What).Framed {
		var stop *answer.Reply
		if e, stop = framed(c, e); stop != nil {
			return *stop
		}
	}
	if e.Surface == "" {
		e.Surface = besides(c, e.Fixes)
	}
	s := answer.SurfaceOf(e.Surface)
	for i, f := range e.Fixes { // over a thing: at a distance of 0 any direction will do
		if _, _, ok := s.Axis(f.Dir); f.How == place.DirOf && f.Name != "" && f.L == 0 && !ok {
			e.Fixes = slices.Clone(e.Fixes)
			e.Fixes[i].Dir = s.Start(place.X)
		}
	}
	if e.Surface == "" && place.HasHeight(e.Fixes) {
		return askSurface(c, e)
	}
	size, name := e.Size, nameFor(c, e)
	old := c.Room.Thing(name)
	if old != nil {
		if v, _ := old.Now(); size == (place.Size{}) {
			size = v.Size
		}
	}
	fixes, p, stop := settle.Place(c, s, e.Fixes, size, func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = saidOf(fs); return next })
	if stop != nil {
		return *stop
	}
	if th := notedThere(c, e, s, p.Point); th != nil {
		return already(c, th)
	}
	hole := sameHole(c, e, s, p.Point)
	if same := cmp.Or(old, hole); same != nil {
		if r := second(c, same, e, fixes, p); r != nil {
			return *r
		}
	}
	if hole != nil {
		if stop := own(c, hole, e, p.Point); stop != nil {
			return *stop
		}
	}
	if old != nil {
		if stop := sameThing(c, old, e, p.Point, s); stop != nil {
			return *stop
		}
	}
	b := event.Thing{
		Room: c.Room.Name, Name: name, What: e.What, Label: e.Label, Surface: s, Size: size,
		Fixes: fixes, Point: p.Point, New: old == nil, Framed: answer.KindOf(e.What).Framed,
	}
	if answer.KindOf(e.What).AfterPaint || e.AfterPaint {
		b.Due = "after paint"
	}
	if old == nil {
		return saveThing(c, b, p)
	}
	before := revise.Snap(c, c.Room)
	return saveThing(c, b, p).After(func(r answer.Reply) answer.Reply {
		revise.Moves(c, &r, before, old)
		return r
	})
}

// besides returns the surface of the thing that a distance was measured to, "" if none.
func besides(c answer.Ctx, fixes []place.Fix) place.Surface {
	for _, f := range fixes {
		if th := c.Room.Thing(f.Name); th != nil && f.How == place.DirOf {
			v, _ := th.Now()
			return v.Surface
		}
	}
	return ""
}

// notedThere returns the thing that its sender is noting again: of that kind and size, at exactly that
// place, with the same name or a generated one.
func notedThere(c answer.Ctx, e things.Thing, s place.Surface, at place.Point) *site.ThingState {
	things := c.Room.Things
	if th := c.Room.Thing(e.Name); th != nil {
		things = []*site.ThingState{th}
	} else if e.Name != "" {
		return nil
	} else if e.Label != "" {
		things = c.State.Labelled(e.Label)
	}
	for _, th := range things {
		v, en := th.Now()
		if en == nil || th.Room != c.Room || !strings.EqualFold(en.Who, c.Who) || v.What != e.What || v.Surface != s || e.Label != v.Label {
			continue
		}
		same := (e.Size == (place.Size{}) || e.Size == v.Size) && (!e.AfterPaint || v.Due != "")
		if same && th.At() == at { // compared last: working out a place is costly
			return th
		}
	}
	return nil
}

// already answers that a thing is noted already.
func already(c answer.Ctx, th *site.ThingState) answer.Reply {
	v, en := th.Now()
	return answer.Tell("thing", FactsOf(c, th), fmt.Sprintf("%s %s is already noted there: entry %d (%s)", c.Where(v.Surface), ThingName(c, v), en.Seq, c.ByWhen(en)))
}

// nameFor returns the name of a thing: its own, else its kind and label, else its kind and the next
// number.
func nameFor(c answer.Ctx, e things.Thing) string {
	switch {
	case e.Name != "":
		return e.Name
	case e.Label != "":
		return e.What + " " + e.Label
	}
	return fmt.Sprintf("%s %d", e.What, c.Room.Nth(e.What)+1)
}

// sane asks about a size too large for its kind.
func sane(c answer.Ctx, what string, s place.Size) *answer.Reply {
	most := largestThing
	if answer.KindOf(what).Framed || what == "blocking" { // no hole
		return nil
	}
	if what == "box" || what == "outlet" || what == "switch" {
		most = largestBox
	}
	if big := max(s.A, s.B); big > most {
		return answer.Stop(answer.Ask(fmt.Sprintf("%s, %s wide? send it again", what, c.Len(big)), ""))
	}
	return nil
}

func askSurface(c answer.Ctx, e things.Thing) answer.Reply {
	var choices []grammar.Choice
	for _, s := range c.Room.Shell().Surfaces() {
		if !s.Upright() && s.SlopeTo() == "" || slices.ContainsFunc(e.Fixes, func(f place.Fix) bool {
			_, _, ok := s.Axis(f.Wall)
			return f.Wall != "" && !ok
		}) {
			continue
		}
		e.Surface = s
		choices = append(choices, c.As(s.Name(), e))
	}
	return answer.Ask("on which wall?", "", choices...)
}

// sameThing decides whether a note with a name in use is about the same thing: if by the same person or at
// the same place, yes; otherwise it asks.
func sameThing(c answer.Ctx, old *site.ThingState, e things.Thing, p place.Point, s place.Surface) *answer.Reply {
	v, en := old.Now()
	at := old.At()
	far := max(at.X-p.X, p.X-at.X, at.Y-p.Y, p.Y-at.Y) > settle.Agrees || v.Surface != s
	if v.What == e.What && (strings.EqualFold(en.Who, c.Who) || !far) {
		return nil
	}
	moved := record.Refix{Name: old.Name, Fixes: e.Fixes}
	other := e
	other.Name = freeName(c, old.Name)
	return answer.Stop(answer.Ask(fmt.Sprintf("%s noted %s at %s. The same one?", en.Who, ThingName(c, v), c.Coords(v.Surface, at)), "",
		c.As("same, moved", moved), c.As("another, call it "+other.Name, other)))
}

// freeName returns the next free name after one in use: d2 after d1.
func freeName(c answer.Ctx, name string) string {
	stem := strings.TrimRight(name, "0123456789")
	if stem == name {
		stem += " "
	}
	for n := 2; ; n++ {
		if next := fmt.Sprintf("%s%d", stem, n); c.Room.Thing(next) == nil {
			return next
		}
	}
}

// saveThing saves a note of a thing and reads it back.
func saveThing(c answer.Ctx, b event.Thing, p frame.Placed) answer.Reply {
	var reached []string
	if b.What == ready.Panel { // scanning the whole room is for panels only, not for every note
		reached = under(c, b.Name)
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		th := c.Room.Thing(b.Name)
		r := c.Noted(en, "thing", FactsOf(c, th),
			c.Where(b.Surface)+" "+ThingName(c, b)+": "+whereText(c, b, p))
		checks(c, &r, p, b.Fixes)
		clash(c, &r, b, p.Point)
		inTheWay(c, &r, th)
		corrected(c, &r, th, en)
		underBoard(c, &r, th)
		behind.Passes(c, &r, th, "")
		reachable(c, &r, th, reached)
		return r
	})
}

// reachable says through which panel a thing that has to stay accessible is reached. Of a panel it says
// what is reached through it, and what no longer is.
func reachable(c answer.Ctx, r *answer.Reply, th *site.ThingState, was []string) {
	v, _ := th.Now()
	if panel, all := ready.PanelOver(c, th); ready.MustStay(c, th) && all {
		r.Note("check", fmt.Sprintf("a %s has to stay reachable: %s is over it", v.What, panel.Name))
	} else if ready.MustStay(c, th) {
		r.Note("check", fmt.Sprintf("a %s has to stay reachable: plan a panel before the board", v.What))
	}
	if v.What != ready.Panel {
		return
	}
	over := under(c, th.Name)
	if len(over) > 0 {
		r.Note("check", "over "+strings.Join(over, ", ")+", reachable by it once it is cut")
	}
	for _, o := range c.Room.Things {
		if panel, all := ready.PanelOver(c, o); panel == th && !all {
			r.Note("check", fmt.Sprintf("%s is not all inside it, so it does not count as reachable: move the panel or make it larger", o.Name))
		} else if slices.Contains(was, o.Name) && panel == nil {
			r.Note("check", fmt.Sprintf("%s has no panel over it any more", o.Name))
		}
	}
}

// under returns the things reached through the panel of that name.
func under(c answer.Ctx, panel string) (names []string) {
	for _, o := range c.Room.Things {
		if p, all := ready.PanelOver(c, o); all && p.Name == panel {
			names = append(names, o.Name)
		}
	}
	return names
}

// whereText gives the place of a thing, as said and as understood.
func whereText(c answer.Ctx, b event.Thing, p frame.Placed) string {
	if !b.Framed {
		return settle.Text(c, b.Surface, b.Fixes, p) + lies(b) + clearOf(c, b, p.Point)
	}
	said := c.Fixes(saidOf(b.Fixes))
	if faces := settle.Faces(c, b.Surface, b.Fixes, p.Point); faces != "" {
		said += ", " + faces
	}
	return fmt.Sprintf("%s (%s)", Spans(c, b.Surface, b.Size.At(p.Point)), said)
}

func ThingName(c answer.Ctx, b event.Thing) string {
	s := b.Name
	if !strings.HasPrefix(b.Name, b.What) {
		s = b.What + " " + b.Name
		if b.Label != "" {
			s += " " + b.Label
		}
	}
	return s + c.Size(b.Size)
}

// lies says which way a rectangle on the ceiling lies, "" if that makes no difference.
func lies(b event.Thing) string {
	if b.Surface != place.Ceiling || b.Size.B == 0 || b.Size.A == b.Size.B {
		return ""
	}
	if b.Size.A > b.Size.B {
		return ", long side east-west"
	}
	return ", long side north-south"
}

// FactsOf returns the facts of a thing as it stands.
func FactsOf(c answer.Ctx, th *site.ThingState) ThingFacts {
	v, _ := th.Now()
	at := th.At()
	st, _ := th.Stands()
	due := cmp.Or(v.Due, "hanging")
	f := ThingFacts{Name: th.Name, What: v.What, Label: v.Label, Surface: string(v.Surface), Due: due, State: string(st)}
	f.X, f.Y = c.In(th.Room).XY(v.Surface, at)
	if v.Size.A != 0 {
		f.Size = append(f.Size, c.Fact(v.Size.A))
	}
	if v.Size.B != 0 {
		f.Size = append(f.Size, c.Fact(v.Size.B))
	}
	return f
}

// checks says whether distances beyond the two needed agree.
func checks(c answer.Ctx, r *answer.Reply, p frame.Placed, fixes []place.Fix) {
	for _, x := range p.Checks {
		if d := max(x.Diff, -x.Diff); d == 0 {
			r.Note("check", c.Fix(fixes[x.Second])+" agrees")
		} else {
			r.Note("check", fmt.Sprintf("%s agrees within %s; kept %s", c.Fix(fixes[x.Second]), c.Len(d), c.Fix(fixes[x.First])))
		}
	}
}

// clearOf returns how far the thing's edge is from the nearest support, if it is clear of it.
func clearOf(c answer.Ctx, b event.Thing, at place.Point) string {
	n, ok := locate.Nearest(c.Room, b.Surface, at, b.Size)
	if !ok || !answer.KindOf(b.What).NeedsRoom || n.Clear < 0 {
		return ""
	}
	from := "edge"
	if b.Size.A == 0 {
		from = "centre"
	}
	return fmt.Sprintf("; %s %s clear of %s", from, c.Near(n.Clear), n.Support.Name())
}

// clash warns if a thing that needs room sits on a support. It is saved all the same.
func clash(c answer.Ctx, r *answer.Reply, b event.Thing, at place.Point) {
	n, ok := locate.Nearest(c.Room, b.Surface, at, b.Size)
	if ok && answer.KindOf(b.What).NeedsRoom && n.Clear < 0 {
		r.Note("clash", fmt.Sprintf("sits on %s: %s more would clear it", n.Support.Name(), c.Near(-n.Clear)))
	}
}

// corrected says what a newer note changed, and who is working from the old one.
func corrected(c answer.Ctx, r *answer.Reply, th *site.ThingState, en *site.Entry) {
	now, cur := th.Now()
	if cur != en {
		r.Note("check", fmt.Sprintf("a newer note of %s stands: %s, %s", th.Name, c.Coords(now.Surface, th.At()), c.ByWhen(cur)))
		return
	}
	was, old := th.Was(en)
	if old == nil {
		return
	}
	text := cmp.Or(c.Fixes(saidOf(was.Fixes)), c.Coords(was.Surface, was.Point))
	r.Note("moved", fmt.Sprintf("was %s (%s)", text, c.ByWhen(old)))
	revise.TellTold(c, r, th, old)
}

// underBoard warns that a thing is covered already, and says whether the note came late.
func underBoard(c answer.Ctx, r *answer.Reply, th *site.ThingState) {
	st, over := th.Stands()
	if st != site.Covered {
		return
	}
	if c.Sent.UnixMilli() < over.Entry.Sent {
		r.Note("late", fmt.Sprintf("came in late: %s was already up, so it is covered", say.Piece(over)))
		return
	}
	again := ""
	if _, en := th.Now(); len(th.Notes()) > 1 {
		if _, old := th.Was(en); old != nil && over.Entry.Seq > old.Seq {
			again = ", put up after the old note: check before cutting"
		}
	}
	r.Note("covered", fmt.Sprintf("%s is up there since %s%s: it is covered", say.Piece(over), c.Clock(over.Entry.Sent), again))
}
