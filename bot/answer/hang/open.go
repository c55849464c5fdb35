package hang

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/behind"
	"strapline/bot/answer/note"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/things"
)

// opened notes holes that are cut.
func opened(c answer.Ctx, e things.Opened) answer.Reply {
	var names, early []string
	var room *site.Room
	for i, name := range e.Names { // of those that are covered, else of all that are not open
		if !strings.HasPrefix(name, "all ") {
			continue
		}
		if stop := c.NeedRoom(); stop != nil {
			return *stop
		}
		all, n := allShut(c, name)
		what, _, _ := strings.Cut(strings.TrimPrefix(name, "all "), " x ")
		if len(all) == 0 {
			return answer.No(fmt.Sprintf("no %s of %s is noted that is not open", what, c.Room.Name), "list "+lex.Plural(what))
		}
		next := things.Opened{Names: slices.Concat(e.Names[:i], all, e.Names[i+1:])}
		if n > 0 && n != len(all) {
			return answer.Ask(fmt.Sprintf("%d said, and not open: %s%s", n, strings.Join(all, ", "), are(all)), "", c.As("open: "+strings.Join(all, ", "), next), grammar.Choice{Label: "no"})
		}
		return opened(c, next)
	}
	for i, name := range e.Names {
		th, stop := c.OneThing(name, func(n string) grammar.Entry {
			next := things.Opened{Names: slices.Clone(e.Names)}
			next.Names[i] = n
			return next
		})
		if stop != nil {
			return *stop
		}
		if v, _ := th.Now(); v.Framed {
			return answer.No(fmt.Sprintf("%s is an opening in the framing: boards are cut out around it", th.Name), "")
		}
		if stop := meant(c, th, name, e, i); stop != nil {
			return *stop
		}
		if room != nil && th.Room != room {
			return answer.No(fmt.Sprintf("%s is in %s, %s in %s: one room a message", names[0], room.Name, th.Name, th.Room.Name), "")
		}
		if st, _ := th.Stands(); st == site.Noted {
			early = append(early, th.Name)
		}
		room = th.Room
		names = append(names, th.Name)
	}
	c.Room = room
	return answer.Save(event.Opened{Room: room.Name, Names: names}, func(en *site.Entry) answer.Reply {
		var facts note.ThingsFacts
		for _, n := range names {
			facts.Things = append(facts.Things, note.FactsOf(c, room.Thing(n)))
		}
		r := c.Noted(en, "open", facts, fmt.Sprintf("%s %s open%s", room.Name, strings.Join(names, ", "), leftCovered(room)))
		for _, n := range names {
			if st, over := room.Thing(n).Stands(); st == site.Covered {
				r.Note("covered", fmt.Sprintf("%s went up over %s at %s, after that: it is still covered", say.Piece(over), n, c.Clock(over.Entry.Sent)))
			}
		}
		if len(early) > 0 {
			r.Note("check", fmt.Sprintf("no board was reported over %s", strings.Join(early, ", ")))
		}
		for _, n := range names {
			behind.Passes(c, &r, room.Thing(n), "")
		}
		return r
	})
}

// allShut returns the things of a kind that are covered, or all that are not open if none is, and how many
// were said.
func allShut(c answer.Ctx, words string) (names []string, n int) {
	anywhere := func(place.Point) bool { return true }
	for _, covered := range []bool{true, false} {
		for _, on := range c.Room.Shell().Surfaces() {
			of, said, _ := allOf(c, on, words, anywhere)
			n = said
			for _, name := range of {
				if st, _ := c.Room.Thing(name).Stands(); st == site.Covered || !covered && st != site.Open {
					names = append(names, name)
				}
			}
		}
		if len(names) > 0 {
			break
		}
	}
	return names, n
}

// meant asks whether words with neither the thing's name nor its kind mean it: "open the door" must not
// mark the door light as cut.
func meant(c answer.Ctx, th *site.ThingState, words string, e things.Opened, i int) *answer.Reply {
	v, _ := th.Now()
	if words == th.Name {
		return nil
	}
	for w := range strings.FieldsSeq(words) {
		if slices.Contains(strings.Fields(v.What), w) {
			return nil
		}
	}
	next := things.Opened{Names: slices.Clone(e.Names)}
	next.Names[i] = th.Name
	return answer.Stop(answer.Ask(fmt.Sprintf("%s: is that %s?", words, th.Name), "", c.As(th.Name+" is open", next), grammar.Choice{Label: "no"}))
}

// leftCovered says how many things are still covered in the room.
func leftCovered(r *site.Room) string {
	n := 0
	for _, th := range r.Things {
		if st, _ := th.Stands(); st == site.Covered {
			n++
		}
	}
	if n == 0 {
		return "; nothing left covered in " + r.Name
	}
	return fmt.Sprintf("; %d still covered in %s", n, r.Name)
}
