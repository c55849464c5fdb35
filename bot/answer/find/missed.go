package find

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/note"
	"strapline/bot/answer/settle"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/calc/slip"
	"strapline/grammar"
	"strapline/grammar/rooms"
)

type probeFacts struct {
	X   say.Len `json:"x"`
	Y   say.Len `json:"y"`
	Why string  `json:"why"`
	// Share is the probability weight of this place among all explanations, 0 to 1.
	Share float64 `json:"share"`
}

// mostProbes is the maximum number of places named: a person makes a few holes, not ten.
const mostProbes = 3

// missed saves that a hole found nothing, and says where to look next.
func missed(c answer.Ctx, e rooms.Missed) answer.Reply {
	th, stop := c.OneThing(e.Name, func(n string) grammar.Entry { next := e; next.Name = n; return next })
	if stop != nil {
		return *stop
	}
	c.Room, e.Name = th.Room, th.Name
	v, en := th.Now()
	if v.Framed {
		return answer.No(fmt.Sprintf("%s is an opening in the framing: no hole is made for it", th.Name), "fix "+th.Name+" 40 off west")
	}
	b := event.Missed{Room: th.Room.Name, Name: th.Name, At: th.At()}
	if len(e.Fixes) > 0 {
		fixes, p, stop := settle.Place(c, v.Surface, e.Fixes, v.Size, func(fs []place.Fix) grammar.Entry { next := e; next.Fixes = fs; return next })
		if stop != nil {
			return *stop
		}
		b.At, b.Fixes = p.Point, fixes
	}
	return answer.Save(b, func(saved *site.Entry) answer.Reply {
		probes := slip.Missed(note.SceneFor(c, th), note.NoteOf(c, v.Surface, v.Fixes, v.Size, th.At(), en))
		facts := struct {
			findFacts
			Probes []probeFacts `json:"probes"`
		}{findFacts{Name: th.Name, Surface: string(v.Surface), From: []fromFacts{}}, []probeFacts{}}
		facts.X, facts.Y = c.XY(v.Surface, th.At())
		st, _ := th.Stands()
		facts.State = string(st)
		var lines []string
		for i, p := range probes {
			why := reasons(p)
			x, y := c.XY(v.Surface, p.At)
			facts.Probes = append(facts.Probes, probeFacts{x, y, why, p.Share})
			if i < mostProbes {
				lines = append(lines, fmt.Sprintf("%d: %s (%s)", i+1, c.Coords(v.Surface, p.At), why))
			}
		}
		text := fmt.Sprintf("%s %s: nothing at %s. Before any hole: raking light, a straightedge, tone on the wire", c.Where(v.Surface), note.ThingName(c, v), c.Coords(v.Surface, b.At))
		if len(lines) == 0 {
			text += "\nno place left to try: ask who noted it (" + c.ByWhen(en) + ")"
		} else {
			text += "\nthen a small hole (places to the studs):\n" + strings.Join(lines, "\n")
		}
		r := c.Noted(saved, "missed", facts, text)
		r.Note("caution", answer.CautionFor(v.What))
		return r
	})
}

// reasons words the likeliest explanation that a hole at this place tests, and one other that is a single
// slip.
func reasons(p slip.Probe) string {
	var out []string
	for i, w := range p.Ways {
		said := note.WordsOf(w.Reasons)
		if i == 0 || len(w.Reasons) == 1 && len(out) == 1 && !slices.Contains(out, said) {
			out = append(out, said)
		}
	}
	return strings.Join(out, "; or ")
}
