package grammar_test

import (
	"errors"
	"testing"

	"strapline/calc/length"
	"strapline/grammar"
	"strapline/grammar/parse"
	"strapline/grammar/record"
)

// chatter is ordinary talk in a busy channel, most of it beginning with a word
// that is also ours. None of it may be saved, and each gets one hint at most.
var chatter = []string{
	"open the window pls",
	"open the door someone is here",
	"open at 5 tomorrow",
	"find me a coffee",
	"find out who took the ladder",
	"fix the radio",
	"fix the radio by 5",
	"fix it yourself",
	"board meeting at 5",
	"board is in the truck",
	"boards are here",
	"light rain today",
	"light lunch at 12",
	"lights out",
	"lights off at 5",
	"lighten up man",
	"job done",
	"job well done boys",
	"job site is locked",
	"covered in dust lol",
	"covered for today",
	"hung over today",
	"hung up on me",
	"hang on a sec",
	"hang on",
	"mark is late today",
	"mark call me",
	"Mark, are you coming?",
	"gap year ha",
	"hit the road",
	"hit me up later",
	"log off",
	"log in to the portal",
	"who did this",
	"who hung the picture",
	"any coffee left",
	"any plans tonight?",
	"any of you guys around",
	"where is lunch",
	"where is ed",
	"where is jo today",
	"find ladder",
	"open the door and the window",
	"where is everyone",
	"wheres my tape",
	"where are the keys to the van",
	"what's up",
	"what time is it",
	"what a mess",
	"status of the delivery?",
	"help me lift this",
	"help is on the way",
	"room for one more?",
	"room for one more in the van",
	"light lunch in the van",
	"row your boat",
	"ceiling looks good",
	"ceiling is next",
	"north is cold today",
	"north is best",
	"west coast is nice",
	"south side guys are late",
	"kitchen is a mess",
	"kitchen looks good",
	"den is done i think",
	"in 5 min",
	"in the truck",
	"up in a minute",
	"down for a beer",
	"on my way",
	"off at 3 today",
	"at lunch",
	"at 5 then",
	"at 3pm lunch",
	"at 25:10 lunch",
	"kitchen at 3pm",
	"see you in the kitchen at 9:15 am",
	"not today",
	"not 5 of us",
	"not me",
	"make that two coffees",
	"i meant the other one",
	"scratch that lunch at 12",
	"strike at noon",
	"undo the clamps first",
	"switch to decaf",
	"switch shifts with me on friday?",
	"hook me up",
	"fan of the new boss",
	"box lunch at noon",
	"box 5 is empty",
	"can you grab 12 screws",
	"can 3 of you come down",
	"vent about it later",
	"plug it in",
	"panel van is blocked in",
	"smoke break",
	"smoke in 5",
	"data plan ran out",
	"screw it",
	"screw this job",
	"clear the stairs please",
	"clear as mud",
	"built a deck in 2019",
	"built like a tank",
	"opening night is friday",
	"rows and rows of cars",
	"pipe down",
	"gas prices lol",
	"cut it out",
	"cut out early today",
	"locate my hammer",
	"drywall dust everywhere",
	"put up or shut up",
	"20 off the price",
	"5 not 6 of us",
	"10 more minutes",
	"84",
	"1",
	"2.",
	"12 5/8",
	"what's in the box",
	"how far is the shop",
	"how far is it to the van?",
	"moved to the den",
	"moved my car 3 spots down",
	"took 5 boards down to the van",
	"is the sink light nice?",
	"has anyone been hung",
	"two",
	"2 please",
	"30 north",
	"off west",
	"ok",
	"👍",
	"lol",
	"thanks",
	"good morning all",
	"nope",
	"nope not today",
	"fine by me",
	"kind of",
	"see you at six",
	"running late, 10 min",
	"lunch?",
	"who wants pizza",
	"that was 2 weeks ago",
	"fyi: truck at 5",
	"lead: call me",
	"https://example.org/photo.jpg",
	"bring 2 boxes of screws",
	"the boss is here at 9:58",
	"strap in boys",
	"straps are late",
	"stud finder is dead",
	"channel 5 news",
	"*typo",
	"...",
	"",
}

func TestChatter(t *testing.T) {
	for _, u := range []length.Units{length.Imperial, length.Metric} {
		for _, in := range chatter {
			line, err := parse.Line(in, onSite(u))
			if err == nil {
				t.Errorf("%s: %q was read as %s", u, in, line)
				continue
			}
			if errors.Is(err, grammar.ErrChatter) {
				continue
			}
			r, ok := errors.AsType[*grammar.Refusal](err)
			if !ok || !r.Once {
				t.Errorf("%s: %q: %v, want silence or one hint", u, in, err)
			}
		}
	}
}

// TestAnsweredEveryTime lists lines that carry a length and something of the
// job: they are kept as a note, asked about or refused aloud, every time.
func TestAnsweredEveryTime(t *testing.T) {
	for _, in := range []string{
		"put the light 26 off west",
		"2962 off the west wall",
		"26 off west",
		"lihgt 26 off west 41 off north",
		"the north wall is 3 in out of plumb",
		"north wall 3 in out of plumb",
		"moved the light 3 in north",
		"we moved d1 5 south",
		"is d1 in the way?",
		"starps ew 16 oc first 14 off north",
		"pipe p1 40 off west",
		"there is a pipe 40 off west",
		"light 26 off wset",
		"d1 is 26 off west now",
		"box is forty ate and five ates off door wall",
		"hung 144 rwo 2",
		"straps",
		"hung",
		"light",
		"open",
		"units furlongs",
		"strapline where is lunch",
		"strapline good morning",
		"kitchn: light 26 off west",
		"garage: light 26 off west",
	} {
		line, err := parse.Line(in, onSite(length.Imperial))
		if err == nil {
			note, ok := line.Entry.(record.Note)
			if _, asked := line.Entry.(record.Notes); !asked && (!ok || !note.Kept) {
				t.Errorf("%q was read as %s", in, line)
			}
			continue
		}
		r, refused := errors.AsType[*grammar.Refusal](err)
		_, asked := errors.AsType[*grammar.Ask](err)
		if !asked && (!refused || r.Once) {
			t.Errorf("%q: %v, want a question or a refusal every time", in, err)
		}
	}
}
