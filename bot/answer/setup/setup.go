// Package setup answers what is said before anything hangs: the job, its rooms, their framing, and the
// materials used.
package setup

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/say"
	"strapline/calc/event"
	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/calc/site"
	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/lex"
	"strapline/grammar/rooms"
	"strapline/grammar/wording"
)

// Register registers the handlers of this package.
func Register(k answer.Kinds) {
	answer.OnNote(k, func(c answer.Ctx, e rooms.Job) answer.Reply {
		return c.Keep(event.JobTitle{Title: e.Title}, "job", "job "+e.Title)
	})
	answer.OnNote(k, func(c answer.Ctx, e rooms.UnitsSet) answer.Reply {
		return c.Keep(event.UnitsSet{Units: e.Units}, "units", "units "+string(e.Units))
	})
	answer.OnNote(k, built)
	answer.OnNote(k, roomSize)
	answer.OnNote(k, answer.InRoom(roomHigh))
	answer.OnNote(k, inRoom)
	answer.OnNote(k, alias)
	answer.OnNote(k, answer.InRoom(squared))
	answer.OnQuestion(k, answer.InRoom(howSquare))
	answer.OnNote(k, answer.InRoom(slope))
	answer.OnNote(k, answer.InRoom(bulkhead))
	answer.OnNote(k, answer.InRoom(supportSet))
	answer.OnNote(k, answer.InRoom(supportFix))
	answer.OnNote(k, board)
	answer.OnNote(k, clearance)
	answer.OnNote(k, screw)
	answer.OnNote(k, answer.InRoom(boardsRun))
	answer.OnNote(k, answer.InRoom(otherWay))
	answer.OnNote(k, answer.InRoom(rowsFrom))
	answer.OnNote(k, longest)
	answer.OnNote(k, answer.InRoom(texture))
	answer.OnNote(k, answer.InRoom(wallsFirst))
	answer.OnQuestion(k, whichFirst)
	answer.OnNote(k, answer.InRoom(ceilingFirst))
	answer.OnNote(k, answer.InRoom(floor))
	answer.OnNote(k, code)
	answer.OnNote(k, set)
}

type (
	roomFacts struct {
		Name string  `json:"name"`
		EW   say.Len `json:"ew"`
		NS   say.Len `json:"ns"`
	}
	strapsFacts struct {
		Surface string    `json:"surface"`
		What    string    `json:"what"`
		Run     string    `json:"run"`
		At      []say.Len `json:"at"`
		Thick   say.Len   `json:"thick"`
	}
)

// Years from which new houses may not contain asbestos patching compound (16 CFR 1304, in force 16 January
// 1978) or lead paint (in force 28 February 1978).
const banned = 1978

func built(c answer.Ctx, e rooms.Built) answer.Reply {
	return answer.Save(event.Built{Year: e.Year}, func(en *site.Entry) answer.Reply {
		r := c.Noted(en, "built", nil, fmt.Sprintf("built %d", e.Year))
		if e.Year <= banned {
			r.Note("caution", answer.CautionOld)
		}
		return r
	})
}

func roomSize(c answer.Ctx, e rooms.Room) answer.Reply {
	for _, l := range []length.Length{e.EW.L, e.NS.L} {
		if l < length.Foot || l > answer.LongestRoom {
			return answer.Ask(fmt.Sprintf("a room %s wide? send it again with feet and inches", c.Len(l)), "")
		}
	}
	if stop := knownRoom(c, e.Name, "%s has this size now", e, func(room string) grammar.Entry { it := e; it.Name = room; return it }); stop != nil {
		return *stop
	}
	b := event.RoomSize{Room: e.Name, EW: e.EW.L, NS: e.NS.L, High: e.High.L}
	for _, n := range e.Less {
		if n.EW.L >= e.EW.L || n.NS.L >= e.NS.L {
			return answer.Ask(fmt.Sprintf("the notch %s x %s is as big as the room; send the room again", c.Len(n.EW.L), c.Len(n.NS.L)), "")
		}
		b.Less = append(b.Less, event.Notch{
			EW: n.EW.L, NS: n.NS.L, Corner: n.Corner, Wall: n.Wall, Off: n.Off.L, From: n.OffWall,
		})
	}
	var was string
	if old := c.State.Room(e.Name); old != nil {
		v, _ := old.Said()
		was = fmt.Sprintf(" (was %s x %s)", c.Len(v.EW), c.Len(v.NS))
		if e.High.L == 0 {
			if _, high := old.Shell().Extent(place.Surface(place.North)); high > 0 { // to the present face
				b.High = high - old.CeilingFace(c.Sent.UnixMilli())
			}
		}
		if len(b.Less) == 0 {
			b.Less = v.Less
		}
	}
	before, leant := revise.Snap(c, c.State.Room(e.Name)), false
	if r := c.State.Room(e.Name); r != nil {
		_, leant = r.Shell().Shape()
	}
	for _, s := range e.Slopes {
		body, stop := slopeBody(c, e.Name, s, e.EW.L, e.NS.L)
		if stop != nil {
			return *stop
		}
		b.Slopes = append(b.Slopes, body)
	}
	return answer.Save(b, func(en *site.Entry) answer.Reply {
		r := c.Noted(en, "room", roomFacts{Name: e.Name, EW: c.Fact(b.EW), NS: c.Fact(b.NS)}, roomText(c, e, b, was))
		if len(e.Less) == 0 && len(b.Less) > 0 {
			r.Note("check", "the notch stays as it was; to get rid of it, strike the entries that noted it")
		}
		if _, leans := c.State.Room(e.Name).Shell().Shape(); leant && !leans {
			r.Note("check", "its walls and diagonals were read at another size: until `square` reads them again it counts as square")
		}
		for _, s := range b.Slopes {
			slopeCheck(&r, s.Wall)
		}
		revise.Moves(c, &r, before)
		return r
	})
}

// nearName returns the room for which a new name may be a slip. Bed 1 and bed 2 are two rooms, as are unit
// a and unit b.
func nearName(c answer.Ctx, name string) string {
	letters := func(s string) string {
		stem, last := s, s
		if i := strings.LastIndexByte(s, ' '); i >= 0 {
			stem, last = s[:i], s[i+1:]
		}
		if len(last) == 1 {
			return stem
		}
		words := strings.Fields(s)
		for i, w := range words {
			words[i] = strings.TrimRight(w, "0123456789")
		}
		words = slices.DeleteFunc(words, func(w string) bool { return w == "" || lex.Ordinal[w] > 0 })
		return strings.Join(words, " ") // unit 3 bath and unit 4 bath are two rooms
	}
	if c.State.Room(name) != nil || wording.RoomSpelt(name) { // dining room is not a slip for living room
		return ""
	}
	for _, r := range c.State.Standing() {
		if letters(name) != letters(r.Name) && grammar.Nearest(name, append(wording.RoomWords(r.Name), r.Name)) != "" {
			return r.Name
		}
	}
	return ""
}

// shortFor returns the room that a new name is short for, or long for: bath and bathroom, living and living
// room.
func shortFor(c answer.Ctx, name string) string {
	stem := func(s string) string { return strings.TrimRight(strings.TrimSuffix(s, "room"), " ") }
	if c.State.Room(name) != nil {
		return ""
	}
	for _, r := range c.State.Standing() {
		if stem(name) == stem(r.Name) {
			return r.Name
		}
	}
	return ""
}

// knownRoom asks whether a new name is that of a room that is noted: short for it, or a slip. is labels the entry
// that as makes for that room; e is the entry as said.
func knownRoom(c answer.Ctx, name, is string, e grammar.Entry, as func(room string) grammar.Entry) *answer.Reply {
	if c.Line.Sure {
		return nil
	}
	another := c.Sure("another room, "+name, e)
	if short := shortFor(c, name); short != "" {
		return answer.Stop(answer.Ask(fmt.Sprintf("is %s the %s?", name, short), "", alsoCalled(c.Sure(fmt.Sprintf(is, short), as(short)), short, name), another))
	}
	if near := nearName(c, name); near != "" {
		return answer.Stop(answer.Ask(fmt.Sprintf("is %s a slip for %s?", name, near), "", c.Sure(fmt.Sprintf(is, near), as(near)), another))
	}
	return nil
}

// alsoCalled puts before a choice that a room goes by another name too.
func alsoCalled(c grammar.Choice, room, name string) grammar.Choice {
	c.Lines = append([]grammar.Line{{Entry: rooms.Alias{Room: room, Name: name}}}, c.Lines...)
	return c
}

// roomHigh gives the ceiling height of the room at hand.
func roomHigh(c answer.Ctx, e boards.High) answer.Reply {
	b, _ := c.Room.Said()
	ew, ns := c.Room.Shell().Framing() // a size noted now is to the present faces
	b.EW = ew - c.Room.BoardNow(place.West) - c.Room.BoardNow(place.East)
	b.NS = ns - c.Room.BoardNow(place.North) - c.Room.BoardNow(place.South)
	b.High = e.L.L
	return c.Keep(b, "room", fmt.Sprintf("%s ceiling %s high", c.Room.Name, c.Len(b.High)))
}

// roomText reads a room's size back.
func roomText(c answer.Ctx, e rooms.Room, b event.RoomSize, was string) string {
	text := fmt.Sprintf("%s %s east-west x %s north-south%s", e.Name, c.Said(e.EW), c.Said(e.NS), was)
	if b.High != 0 {
		text += ", " + c.Len(b.High) + " high"
	}
	for _, n := range b.Less {
		text += fmt.Sprintf(", less %s x %s", c.Len(n.EW), c.Len(n.NS))
		if n.Corner != "" {
			text += " in the " + corner(n.Corner)
		} else {
			text += fmt.Sprintf(" %s wall, %s off %s", n.Wall, c.Len(n.Off), n.From)
		}
	}
	for _, s := range b.Slopes {
		text += ", " + slopeText(c, s)
	}
	return text
}

func corner(c string) string { return place.Corners[c] + " corner" }

func inRoom(c answer.Ctx, e rooms.InRoom) answer.Reply {
	r := c.State.Room(e.Name)
	if stop := knownRoom(c, e.Name, "you are in %s", e, func(room string) grammar.Entry { return rooms.InRoom{Name: room} }); stop != nil {
		return *stop
	}
	if r == nil {
		return answer.Ask(fmt.Sprintf("how big is %s? east-west first, like `%s`", e.Name, strings.TrimPrefix(answer.ARoom(e.Name, c.Units), "room "+e.Name+" ")), "room "+e.Name+",")
	}
	return c.Keep(event.Here{Room: r.Name}, "in", "you are in "+r.Name)
}

func alias(c answer.Ctx, e rooms.Alias) answer.Reply {
	if e.Wall == "" {
		if c.Room = c.State.Room(e.Room); c.Room == nil {
			return c.NoSuchRoom(e.Room)
		}
	} else if stop := c.NeedRoom(); stop != nil {
		return *stop
	}
	if other := c.State.Room(e.Name); other != nil && other != c.Room {
		return answer.No(fmt.Sprintf("%q is the name of another room", e.Name), "")
	}
	was := place.Wall("")
	if e.Wall != "" {
		was = c.Room.WallNamed(e.Name)
	}
	text := fmt.Sprintf("%s is also %s", c.Room.Name, e.Name)
	if e.Wall != "" {
		text = fmt.Sprintf("%s: %s wall is the %s wall", c.Room.Name, e.Name, e.Wall)
		if was != "" && was != e.Wall {
			text += fmt.Sprintf(" (was the %s wall)", was)
		}
	}
	return c.Keep(event.Named{Room: c.Room.Name, Wall: e.Wall, Alias: e.Name}, "alias", text)
}
