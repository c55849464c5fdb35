package hang

import (
	"fmt"
	"slices"
	"strconv"
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
	"strapline/grammar/record"
	"strapline/grammar/things"
)

// opened notes holes that are cut, and things that board is over.
func opened(c answer.Ctx, e things.Opened) answer.Reply {
	var names, early []string
	var room *site.Room
	for i, name := range e.Names { // of those that are covered, else of all that are not open
		of, several := ofSeveral(name)
		if !several {
			continue
		}
		if stop := c.NeedRoom(); stop != nil {
			return *stop
		}
		c.Line.Room = c.Room.Name // the names of others are not meant
		all, what, n := allShut(c, of), of.what, of.n
		none := answer.No(fmt.Sprintf("no %s of %s is noted that is not open", what, c.Room.Name), "list "+lex.Plural(what))
		switch {
		case len(all) == 0 && len(c.Named(what)) == 0 && what != "things":
			return kept(c, e)
		case len(all) == 0 && of.off != "":
			why := fmt.Sprintf("none is noted %s off a wall and not open: which one?", of.off)
			of.off, of.by = "", ""
			all = allShut(c, of)
			return answer.Ask(why, "", append(some(c, e, i, 1, all), c.As("keep it as a note", record.Note{Text: c.Words}))...)
		case len(all) == 0:
			return none
		}
		with := func(names []string) grammar.Entry {
			return things.Opened{Names: slices.Concat(e.Names[:i], names, e.Names[i+1:]), Not: e.Not}
		}
		all, stop := of.without(c, all, with)
		if stop != nil {
			return *stop
		}
		if len(all) == 0 {
			return none
		}
		next := with(all).(things.Opened)
		if n > 0 && n != len(all) {
			return answer.Ask(fmt.Sprintf("%d said, and not open: %s%s", n, strings.Join(all, ", "), are(all)), "", append(some(c, e, i, n, all), c.As(next.String(), next), grammar.Choice{Label: "no"})...)
		}
		if st, _ := c.Room.Thing(all[0]).Stands(); st != site.Covered && !e.Not && slices.ContainsFunc(c.Room.Shell().Surfaces(), c.Room.Hangs) {
			return answer.Ask(fmt.Sprintf("no board reported over %s: open all the same?", strings.Join(all, ", ")), "", c.As(next.String(), next), grammar.Choice{Label: "no"})
		}
		return opened(c, next)
	}
	for i, name := range e.Names {
		if e.Not && name != record.It && len(c.Named(name)) == 0 {
			return kept(c, e)
		}
		th, stop := c.OneThing(name, func(n string) grammar.Entry {
			next := things.Opened{Names: slices.Clone(e.Names), Not: e.Not}
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
	if hidden := fmt.Sprintf("%s %s behind board, not cut", room.Name, strings.Join(names, ", ")); e.Not {
		if !slices.ContainsFunc(names, func(n string) bool { st, _ := room.Thing(n).Stands(); return st != site.Covered }) { // what hangs says so
			return answer.Tell("open", note.ThingsFacts{}, hidden)
		}
		return answer.Save(event.Opened{Room: room.Name, Names: names, Not: true}, func(en *site.Entry) answer.Reply {
			return c.Noted(en, "open", note.ThingsFacts{}, hidden+leftCovered(room))
		})
	}
	return answer.Save(event.Opened{Room: room.Name, Names: names}, func(en *site.Entry) answer.Reply {
		facts := note.ThingsFacts{Things: say.Each(names, func(n string) note.ThingFacts { return note.FactsOf(c, room.Thing(n)) })}
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

// kept keeps as a note what is told of things that are not noted, beside the rest.
func kept(c answer.Ctx, e things.Opened) answer.Reply {
	var unknown, known []string
	many := false
	for _, name := range e.Names {
		of, all := ofSeveral(name)
		what := of.what
		if name == record.It || len(c.Named(what)) > 0 {
			known = append(known, name)
			continue
		}
		if all {
			what = lex.Plural(strings.TrimSuffix(what, "s"))
		}
		if of.n > 0 {
			what = strconv.Itoa(of.n) + " " + what
		}
		many = many || all || len(unknown) > 0
		unknown = append(unknown, what)
	}
	text := map[bool]string{false: " is ", true: " are "}[many] + map[bool]string{false: "cut", true: "covered by board and not cut"}[e.Not]
	r := c.Answer(record.Note{Text: strings.Join(unknown, ", ") + text + ", nobody noted where"})
	if len(known) == 0 {
		return r
	}
	return r.After(func(r answer.Reply) answer.Reply {
		return opened(c, things.Opened{Names: known, Not: e.Not}).After(func(also answer.Reply) answer.Reply { return answer.Join([]answer.Reply{r, also}) })
	})
}

// some returns a choice for each of the things that one of them may be.
func some(c answer.Ctx, e things.Opened, i, n int, all []string) (choices []grammar.Choice) {
	if n != 1 || len(all) > 7 {
		return nil
	}
	for _, name := range all {
		next := things.Opened{Names: slices.Concat(e.Names[:i], []string{name}, e.Names[i+1:]), Not: e.Not}
		choices = append(choices, c.As(next.String(), next))
	}
	return choices
}

// notAsMany asks which holes are cut if not as many are noted under the board as were said.
func notAsMany(c answer.Ctx, name string, n int, found []string, with func([]string) grammar.Entry) answer.Reply {
	of, _ := ofSeveral(name)
	what := of.what
	var choices []grammar.Choice
	why := fmt.Sprintf("no %s is noted under that", what)
	if len(found) > 0 {
		why = fmt.Sprintf("you said %d %s, and under that %s noted", n, say.Plural(n, what), strings.Join(found, ", ")+are(found))
		if n == 1 {
			for _, one := range found {
				choices = append(choices, c.As("cut: "+one, with([]string{one})))
			}
		}
		choices = append(choices, c.As("cut: "+strings.Join(found, ", "), with(found)))
	}
	none := c.As("none of them", with(nil))
	if len(found) == 0 {
		none.Label, none.Lines = "it is up, and the cut as a note", append(none.Lines, c.LineOf(record.Note{Text: c.Words}))
	}
	return answer.Ask(why+". The board is up: what is cut?", "", append(choices, none, c.As("keep it as a note", record.Note{Text: c.Words}))...)
}

// allShut returns the things of a kind that are covered, or all that are not open if none is.
func allShut(c answer.Ctx, kind several) (names []string) {
	for _, covered := range []bool{true, false} {
		for _, on := range c.Room.Shell().Surfaces() {
			for _, name := range kind.under(c, on, func(place.Point) bool { return true }) {
				if st, _ := c.Room.Thing(name).Stands(); st == site.Covered || !covered && st != site.Open {
					names = append(names, name)
				}
			}
		}
		if len(names) > 0 {
			break
		}
	}
	return names
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
	next := things.Opened{Names: slices.Clone(e.Names), Not: e.Not}
	next.Names[i] = th.Name
	return answer.Stop(answer.Ask(fmt.Sprintf("%s: is that %s?", words, th.Name), "", c.As(th.Name+map[bool]string{false: " is open", true: " is not cut"}[e.Not], next), grammar.Choice{Label: "no"}))
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
