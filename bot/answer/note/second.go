package note

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/settle"
	"strapline/calc/event"
	"strapline/calc/frame"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/slip"
	"strapline/grammar"
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// sameWithin is the distance beyond which two notes of a kind by one sender are taken for two things
// without asking: a couple of inches, our own choice.
const sameWithin = 2 * length.Inch

// sameHole returns the nearest thing that an unnamed note may be about: one of its kind, so close that one
// centre lies in the other's opening and they cannot be two, or, if it is the sender's own, within
// sameWithin.
func sameHole(c answer.Ctx, e things.Thing, s place.Surface, at place.Point) (found *site.ThingState) {
	if e.Name != "" || e.Label != "" {
		return nil
	}
	var least length.Length
	for _, th := range c.Room.Things {
		v, en := th.Now()
		if en == nil || v.What != e.What || v.Surface != s {
			continue
		}
		half := func(a place.Axis) length.Length {
			h := max(v.Size.Half(a), e.Size.Half(a), slip.Unsized/2)
			if strings.EqualFold(en.Who, c.Who) {
				h = max(h, sameWithin+1)
			}
			return h
		}
		was := th.At()
		dx, dy := abs(was.X-at.X), abs(was.Y-at.Y)
		if dx < half(place.X) && dy < half(place.Y) && (found == nil || max(dx, dy) < least) {
			found, least = th, max(dx, dy)
		}
	}
	return found
}

// own answers a note right beside one of the sender's own: it agrees, or it asks whether it is a
// correction. It returns nil if the other is a colleague's, or the note is measured from it and so about
// another thing.
func own(c answer.Ctx, th *site.ThingState, e things.Thing, at place.Point) *answer.Reply {
	v, en := th.Now()
	if !strings.EqualFold(en.Who, c.Who) || slices.ContainsFunc(e.Fixes, func(f place.Fix) bool { return f.Name == th.Name }) {
		return nil
	}
	was := th.At()
	apart := max(abs(was.X-at.X), abs(was.Y-at.Y))
	sized := e.Size == (place.Size{}) || e.Size == v.Size
	if sized && apart <= settle.Agrees {
		return answer.Stop(answer.Tell("thing", FactsOf(c, th), fmt.Sprintf("agrees within %s with your %s, entry %d (%s): that one stands, %s. If it moved: `fix %s ...`",
			c.Near(apart), ThingName(c, v), en.Seq, c.Clock(en.Sent), said(c, v, was), th.Name)))
	}
	other := e
	other.Name = freeName(c, th.Name)
	away := ""
	if apart > 0 {
		away = ", " + c.Near(apart) + " away"
	}
	why := fmt.Sprintf("you noted %s at %s (entry %d)%s. The same one?", ThingName(c, v), c.Coords(v.Surface, was), en.Seq, away)
	return answer.Stop(answer.Ask(why, "", c.As("the same, corrected", record.Refix{Name: th.Name, Fixes: e.Fixes, Size: e.Size}),
		c.As("another one, call it "+other.Name, other)))
}

func abs(l length.Length) length.Length { return max(l, -l) }

// second answers a colleague's measurement of a thing: it agrees with the note, or both are kept and it
// asks which counts. It returns nil if it is no measurement of the same thing: other words, or a place
// that no slip explains.
func second(c answer.Ctx, th *site.ThingState, e things.Thing, fixes []place.Fix, p frame.Placed) *answer.Reply {
	v, en := th.Now()
	s := answer.SurfaceOf(e.Surface)
	if strings.EqualFold(en.Who, c.Who) || v.What != e.What || v.Surface != s || e.Size != (place.Size{}) && e.Size != v.Size {
		return nil
	}
	first := NoteOf(c, v.Surface, v.Fixes, v.Size, th.At(), en)
	now := &site.Entry{Event: event.Event{Who: c.Who, Text: c.Words, Sent: c.Sent.UnixMilli()}}
	verdict := slip.Disagree(SceneFor(c, th), first, NoteOf(c, s, fixes, v.Size, p.Point, now))
	if !verdict.Agrees && len(verdict.Causes) == 0 && sameHole(c, things.Thing{What: e.What, Size: v.Size}, s, p.Point) != th {
		return nil
	}
	b := event.Measured{Room: c.Room.Name, Name: th.Name, Fixes: fixes, Point: p.Point}
	return answer.Stop(answer.Save(b, func(saved *site.Entry) answer.Reply {
		name := c.Where(s) + " " + ThingName(c, v)
		if verdict.Agrees {
			within := ""
			if d := max(abs(verdict.DX), abs(verdict.DY)); d > 0 {
				within = " within " + c.Near(d)
			}
			return c.Noted(saved, "thing", FactsOf(c, th), fmt.Sprintf("%s: agrees%s with %s; kept %s", name, within, c.ByWhen(en), said(c, v, th.At())))
		}
		r := c.Noted(saved, "thing", FactsOf(c, th), fmt.Sprintf("%s: %s; %s has %s (%s)", name, settle.Text(c, s, fixes, p), en.Who, said(c, v, th.At()), c.Clock(en.Sent)))
		r.Note("check", fmt.Sprintf("%s. Both are kept, %s stands until somebody says", whyApart(c, verdict, en.Who), en.Who))
		other := e
		if other.Name = th.Name; e.Name == "" || c.Room.Thing(other.Name) != nil {
			other.Name = freeName(c, th.Name)
		}
		strike := record.Strike{Seq: int(saved.Seq)}
		another := c.As("another one, call it "+other.Name, strike)
		another.Lines = append(another.Lines, c.LineOf(other))
		q := &answer.Question{Why: "which counts?", Choices: []grammar.Choice{
			c.As(en.Who, strike), c.As(c.Who, record.Refix{Name: th.Name, Fixes: e.Fixes}), another,
		}}
		r.Line(answer.Shown(q.Why, q.Choices))
		r.More = q
		return r
	}))
}

// said returns a thing's distances as they were said, or its place if none were.
func said(c answer.Ctx, v event.Thing, at place.Point) string {
	if len(v.Fixes) == 0 {
		return c.Coords(v.Surface, at)
	}
	return c.Fixes(v.Fixes)
}

// whyApart says how far apart two measurements are, and the likeliest slip between them.
func whyApart(c answer.Ctx, v slip.Verdict, first string) string {
	var by []string
	for _, d := range []length.Length{abs(v.DX), abs(v.DY)} {
		if d > slip.Agree {
			by = append(by, c.Near(d))
		}
	}
	text := strings.Join(by, " and ") + " apart"
	if len(v.Causes) == 0 {
		return text + ", and no usual slip explains it: measure again"
	}
	why := v.Causes[0]
	who := first
	if why.Second {
		who = c.Who
	}
	switch one := why.Reasons[0]; {
	case one.Kind != slip.Face || len(why.Reasons) > 1:
		text += ":"
	case strings.HasSuffix(one.Words, "floor"):
		text += ": subfloor or finished floor?"
	default:
		text += ": stud or board face?"
	}
	return fmt.Sprintf("%s %s may be %s", text, who, WordsOf(why.Reasons))
}

// Unsettled adds a reminder of a colleague's measurement that disagrees with the note.
func Unsettled(c answer.Ctx, r *answer.Reply, th *site.ThingState) {
	at, en := th.Second()
	if en == nil {
		return
	}
	was, v := th.At(), en.Body.(event.Measured)
	if abs(at.X-was.X) <= slip.Agree && abs(at.Y-was.Y) <= slip.Agree {
		return
	}
	r.Note("check", fmt.Sprintf("not settled: %s has %s (%s). Measure again, then `fix %s ...`", en.Who, c.Fixes(v.Fixes), c.Clock(en.Sent), th.Name))
}
