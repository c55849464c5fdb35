package landmark

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"strapline/calc/length"
	"strapline/calc/place"
	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/places"
	"strapline/grammar/read"
)

// glue are words beside the name of a wall and its direction that say nothing more.
var glue = lex.Set(strings.Fields("is are was the a an that thats that's its it's it i'd we we'd you be by called call named say mean when what which of on to at in one ones just so ok also and & n as fyi btw facing faces facin long short big main there here = - way oh yeah guys")...)

// marks are what is at a wall, so that it is a name of it even if nobody says "wall".
var marks = lex.Set(strings.Fields("window windows fireplace door tub shower closet stair stairs street sink range stove counter bed headboard patio deck yard garden garage driveway chimney hall hallway furnace fridge pantry tv vanity toilet alley road lane eaves gable sofa couch back front party kitchen")...)

// Called returns the lines for a text that does nothing but tell which wall is which: "window wall, thats the north one",
// "stair wall is the west end, furnace is south". It is nil if it says anything else.
func Called(l *read.Source) (lines []string) {
	var name []string
	var wall, last place.Wall
	sided, plain, end, mark := false, false, -2, false // a wall was said, of the pair at hand, the piece behind the name
	for i := l.Begin; i < len(l.Pieces); i++ {
		p := l.Pieces[i]
		p.Low = strings.TrimSuffix(p.Low, "'s")
		switch {
		case compass(p.Low) != "":
			if wall != "" {
				return nil
			}
			wall = compass(p.Low)
		case p.Low == "opposite" && last != "" && len(name) > 0 && wall == "":
			wall = last.Opposite()
		case p.Low == "wall" || p.Low == "side" || p.Low == "end" || p.Low == "walls":
			sided, plain = true, plain || i == end
		case glue[p.Low] || p.Kind == '.' && p.Low != "?":
		case !p.Word() || len(name) > 0 && i != end || len(name) == 2 || !namesWall(l, p.Low):
			return nil
		default:
			name, end, mark = append(name, p.Low), i+1, marks[p.Low]
		}
		more := i+1 < len(l.Pieces) && i+1 == end && (l.Pieces[i+1].Low == "wall" || l.Pieces[i+1].Low == "side" || l.Pieces[i+1].Low == "end" || namesWall(l, l.Pieces[i+1].Low) && !glue[l.Pieces[i+1].Low])
		if wall == "" || len(name) == 0 || more {
			continue
		}
		if !plain && !(mark && (sided || i >= end && strings.Contains(l.Read, " is "))) {
			return nil
		}
		lines = append(lines, grammar.InRoom(l.Room, fmt.Sprintf("%s is %s wall", wall, strings.Join(name, " "))))
		name, last, wall, plain = nil, wall, "", false
	}
	if len(name) > 0 || wall != "" || l.AsksSomething() {
		return nil
	}
	return lines
}

// namesWall reports whether a word may be the name of a wall, or a part of one.
func namesWall(l *read.Source, w string) bool {
	sym := lex.Phrases.Whole(w)
	return len(w) > 1 && !glue[w] && !(sideless[w] || read.Talk[w] || lex.Numeral(w) || lex.Heard(w)) &&
		sym.Type != lex.Wall && sym.Type != lex.Place && sym.Type != lex.Key && sym.Type != lex.Support && sym.Type != lex.Service
}

// compass is the wall that a word is, "" if it is none.
func compass(w string) place.Wall {
	if sym := lex.Phrases.Whole(w); sym.Type == lex.Wall {
		return place.Wall(sym.Value)
	}
	return ""
}

var (
	fromWall = regexp.MustCompile(`(?i)^(?:(?:so|ok|and|from|the) )*([a-z]+)( wall| side)? to (?:the )?([a-z]+)( wall| side)?,? ?(?:is|are|its|it's|=|:|measures|runs|thats|that's)+ (?:the )?(\d.*?)(?: (?:way|one|side|dimension))?$`)
	sideFrom = regexp.MustCompile(`(?i)^(?:(?:so|ok|and|no|the) )*(\d.*?)(?: (?:way|side|dimension))? (?:is|runs|goes|being) (?:from )?(?:the )?([a-z]+)( wall| side)? (?:to (?:the )?)?([a-z]+)( wall| side)?$`)
)

// bySide matches which wall is which by its length: "tv wall is the 14'6 one", "sink wall is one of the long ones".
var bySide = regexp.MustCompile(`(?i)^(?:the )?([a-z]+(?: [a-z]+)?) (?:wall|side|end) (?:is|being|=) (?:(?:one of )?the |a )?(?:(long|short)(?:er)?|(\d.*?))(?: ?(?:ft|foot|footer))?(?: (?:ones?|sides?|walls?|ends?|way))?$`)

// ofSide returns the question which of the two walls of that length is called so, as Between does.
func ofSide(l *read.Source) (why string, labels, texts []string) {
	m := bySide.FindStringSubmatch(strings.TrimRight(strings.TrimSpace(l.Text[l.Pieces[l.Begin].Start:]), ".! "))
	if m == nil {
		return "", nil, nil
	}
	name, room, ew, ns := lex.Lower(m[1]), l.Here, l.EW, l.NS
	if l.Room != "" && l.Sides != nil {
		room = l.Room
		ew, ns = l.Sides(room)
	}
	runs := places.Within(l.Context, m[3], ew, ns, 6*length.Inch)
	if m[2] != "" && ew != ns {
		runs = map[bool]place.Direction{true: place.EW, false: place.NS}[strings.EqualFold(m[2], "long") == (ew > ns)]
	}
	for w := range strings.FieldsSeq(name) {
		if !namesWall(l, w) {
			return "", nil, nil
		}
	}
	if runs == "" || room == "" || l.Walls[name] != "" {
		return "", nil, nil
	}
	walls := []place.Wall{place.North, place.South}
	if runs == place.NS {
		walls = []place.Wall{place.East, place.West}
	}
	for _, w := range walls {
		labels, texts = append(labels, string(w)), append(texts, fmt.Sprintf("%s: %s is %s wall", room, w, name))
	}
	return fmt.Sprintf("which wall is the %s wall?", name), labels, texts
}

// Between reads which way a side of the room runs: "sink wall to pantry wall is the 15 6", "the 13 4 is north to south",
// or which wall is as long as it: "tv wall is the 14'6 one".
// Each of the texts is one that it may mean, with which wall the one is that why asks for; there is one text if it is known.
func Between(l *read.Source) (why string, labels, texts []string) {
	said := strings.TrimRight(strings.TrimSpace(l.Text[l.Pieces[l.Begin].Start:]), ".! ")
	var a, b, long string
	if m := fromWall.FindStringSubmatch(said); m != nil {
		a, b, long = m[1], m[3], m[5]
	} else if m := sideFrom.FindStringSubmatch(said); m != nil {
		a, b, long = m[2], m[4], m[1]
	} else {
		return ofSide(l)
	}
	a, b = lex.Lower(a), lex.Lower(b)
	room, ew, ns := l.Here, l.EW, l.NS
	if l.Room != "" && l.Sides != nil {
		room = l.Room
		ew, ns = l.Sides(room)
	}
	sized := func(ew, ns length.Length) string {
		name := room
		if strings.TrimRight(name, "0123456789") != name { // "bed 2, 13 x 11"
			name += ","
		}
		return fmt.Sprintf("room %s %s x %s", name, length.Canon(ew), length.Canon(ns))
	}
	runs := places.Within(l.Context, long, ew, ns, length.Inch/8)
	known := func(name string) place.Wall {
		return cmp.Or(compass(name), l.Walls[name])
	}
	wa, wb := known(a), known(b)
	if wa == "" && wb != "" {
		wa = wb.Opposite()
	}
	if runs == "" || wb != "" && wa != wb.Opposite() || wa == "" && !namesWall(l, a) || wb == "" && !namesWall(l, b) || room == "" {
		return "", nil, nil
	}
	walls := []place.Wall{place.West, place.East, place.North, place.South} // as it is noted first
	if runs == place.NS {
		walls = append(walls[2:], walls[:2]...)
	}
	for _, w := range walls {
		if wa != "" && w != wa {
			continue
		}
		var lines []string
		for i, name := range []string{a, b} {
			if at := []place.Wall{w, w.Opposite()}[i]; known(name) == "" {
				lines = append(lines, fmt.Sprintf("%s: %s is %s wall", room, at, name))
			}
		}
		label := string(w)
		if w.EastWest() != (runs == place.EW) {
			lines, label = append(lines, sized(ns, ew)), label+", and "+sized(ns, ew)
		}
		if lines == nil { // as it is noted
			lines = []string{sized(ew, ns)}
		}
		labels, texts = append(labels, label), append(texts, strings.Join(lines, "\n"))
	}
	return fmt.Sprintf("which wall is the %s wall?", a), labels, texts
}
