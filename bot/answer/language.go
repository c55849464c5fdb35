package answer

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/recall"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/sentences"
	"strapline/grammar/topic"
	"strapline/grammar/wording"
)

// Language returns what the grammar needs to know of a job to parse what somebody in room here says.
func Language(st *site.State, here *site.Room) *grammar.Context {
	c := &grammar.Context{
		Units: st.Units(), Rooms: map[string]string{}, Walls: map[string]place.Wall{},
		Name: st.HasName, MaxWords: st.LongestName(), Noun: st.HasWord,
	}
	for _, r := range st.Standing() {
		c.Rooms[r.Name] = r.Name
		r.Aliases(func(alias string, w place.Wall) {
			if w == "" {
				c.Rooms[alias] = r.Name
			} else if _, taken := c.Walls[alias]; r == here || !taken {
				c.Walls[alias] = w
			}
		})
	}
	short := map[string]string{} // "" if two rooms could be meant
	for _, r := range st.Standing() {
		for _, s := range wording.RoomWords(r.Name) {
			if _, two := short[s]; two {
				short[s] = ""
			} else {
				short[s] = r.Name
			}
		}
	}
	for s, name := range short {
		if name != "" && c.Rooms[s] == "" {
			c.Rooms[s] = name
		}
	}
	c.Sides = func(name string) (ew, ns length.Length) {
		if r := st.Room(name); r != nil {
			return r.Shell().Framing()
		}
		return 0, 0
	}
	here = cmp.Or(here, st.OnlyRoom())
	if here != nil {
		c.EW, c.NS = here.Shell().Framing()
		c.Here, c.Seen = here.Name, seen(here)
	}
	return c
}

// seen returns the walls of a room that alone have an opening of a kind.
func seen(r *site.Room) map[string]place.Wall {
	only, several := map[string]place.Wall{}, map[string]bool{}
	for _, t := range r.Framed {
		v, e := t.Now()
		w := place.Wall(v.Surface)
		if e == nil || !v.Framed || !v.Surface.IsWall() {
			continue
		}
		several[v.What] = several[v.What] || only[v.What] != "" && only[v.What] != w
		only[v.What] = w
	}
	maps.DeleteFunc(only, func(what string, _ place.Wall) bool { return several[what] })
	return only
}

// last returns what the sender noted last in the room, or what they are asked about.
func (c Ctx) last(here *site.Room) grammar.Last {
	if c.Asked != nil {
		return *c.Asked
	}
	th := c.State.LastThing(c.Who)
	if th == nil || th.Room != here {
		return grammar.Last{}
	}
	v, _ := th.Now()
	_, en := th.Now()
	last := grammar.Last{Name: th.Name, What: v.What, Size: v.Size, Now: en == c.State.LastOf(c.Who)}
	if v.Surface.IsWall() {
		last.Wall = place.Wall(v.Surface)
	}
	return last
}

// mostSearched is how many of the newest notes are looked through for the words of a question.
const mostSearched = 2000

// told reports whether a note in the crew's own words has most of the words of a question, if more than one of them.
func (c Ctx) told(words []string) bool {
	notes := c.State.Told()
	return slices.ContainsFunc(notes[max(len(notes)-mostSearched, 0):], func(en *site.Entry) bool {
		n := recall.Shared(en.Text, words, topic.Stem)
		return n > 0 && 2*n >= len(words) && (n > 1 || len(words) == 1) && !en.Struck()
	})
}

// spoken returns the things that were asked about last, or that board went over last, if nobody noted much since.
func (c Ctx) spoken() (s grammar.Spoken) {
	for i, en := range slices.Backward(c.State.Entries) {
		var names []string
		switch b := en.Body.(type) {
		case event.Told:
			names = b.Names
		case event.Opened:
			names = b.Names
		}
		r := c.State.Room(en.Room)
		if r == nil || en.Struck() {
			continue
		}
		for _, th := range r.Things {
			if st, over := th.Stands(); slices.Contains(names, th.Name) || st == site.Covered && over.Entry == en {
				s.Room, s.Names = r.Name, append(s.Names, th.Name)
			}
		}
		if len(s.Names) > 0 || names != nil || strings.EqualFold(en.Who, c.Who) || len(c.State.Entries)-i > 4 {
			break
		}
	}
	return s
}

// Parse parses text in the context of the job, with the wall aliases of the room that it is about. If
// asked is true, a bare number is the answer to a question.
func (c Ctx) Parse(text string, asked bool) (grammar.Line, error) {
	of := func(r *site.Room) *grammar.Context {
		lang := Language(c.State, r)
		lang.Asked, lang.Follows, lang.Last, lang.Told = asked, c.Follows, c.last(r), c.told
		maps.Copy(lang.Walls, c.Walls)
		return lang
	}
	here := c.State.RoomOf(c.Who)
	lang := of(here)
	lang.Opening, lang.Spoken = c.Opening, c.spoken
	for _, room := range c.Opening {
		lang.Rooms[room] = room
	}
	if c.Entered != "" {
		lang.EW, lang.NS = 0, 0
	}
	if (c.Entered != "" || c.Alone) && c.Asked == nil {
		lang.Last = grammar.Last{}
	}
	if c.Asked != nil {
		lang.Name = func(words string) bool { return words == c.Asked.Name || c.State.HasName(words) }
	}
	line, err := parse.Line(text, lang)
	if line.Room != "" {
		if r := c.State.Room(line.Room); r != nil && r != here {
			return parse.Line(text, of(r))
		}
	}
	return line, err
}

// Cut splits the first entry off a message that runs several together.
func (c Ctx) Cut(text string) (first, rest string, whole *sentences.Heard) {
	named := func() map[string]string { return Language(c.State, nil).Rooms }
	return sentences.Cut(text, named, func(part string) (grammar.Line, error) { return c.Parse(part, false) })
}
