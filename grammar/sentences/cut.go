package sentences

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/boards"
	"strapline/grammar/hanging"
	"strapline/grammar/lex"
	"strapline/grammar/read"
	"strapline/grammar/record"
	"strapline/grammar/rooms"
	"strapline/grammar/things"
	"strapline/grammar/unread"
)

// People send several things in one message: "row 3 up too, smoke box is cut. whats left". What cannot be
// read as a whole is cut where a sentence ends, or before what begins a new entry.

// Heard is the result of reading a text.
type Heard struct {
	Line grammar.Line
	Err  error
}

// Reader reads a text as the job stands.
type Reader func(string) (grammar.Line, error)

// Cut returns the first entry of text, and the rest. Text that can be
// read as a whole stays whole, as does what is kept word for word. whole is the result of reading first,
// nil if it was not read. named returns the noted rooms by their names.
func Cut(text string, named func() map[string]string, reading Reader) (first, rest string, whole *Heard) {
	ends := breaks(text)
	if read.KeepsAll(text) {
		return text, "", nil
	}
	reading = once(reading)
	line, err := reading(text)
	whole = &Heard{line, err}
	_, gap := line.Entry.(hanging.Gap) // "94 3/4, what do i cut": its cut is the answer
	if told, asked := toldThenAsked(text, reading); asked != "" && !gap {
		if first, rest, _ := Cut(told, named, reading); rest != "" {
			return first, rest + ". " + asked, nil
		}
		return told, asked, nil
	}
	if len(ends) == 0 {
		return text, "", whole
	}
	_, title := line.Entry.(rooms.Job) // a title is kept word for word and contains no sentence
	if part, rest := besides(line, err, ends, reading); rest != "" {
		return part, rest, nil
	}
	if part, rest := roomsApart(line, err, ends, reading); rest != "" {
		return part, rest, nil
	}
	if part, rest := ofTwoRooms(line, err, ends, named, reading); rest != "" {
		return part, rest, nil
	}
	loose := line.Loose && slices.ContainsFunc(ends, func(e brk) bool { return e.sentence })
	if Stands(line, err) && !title && !loose && !asksBehind(line, err, text) && !asksMore(line, err, ends, reading) && !(err == nil && isQuestion(line.Entry) && toldBehind(ends, reading)) {
		for _, e := range slices.Backward(ends) { // both halves say more than a question about all of it
			if line.Loose && reads(reading, e.part) && reads(reading, e.rest) && (e.sentence || !entersOnly(reading, e.part) && !entersOnly(reading, e.rest)) {
				return e.part, e.rest, nil
			}
		}
		return text, "", whole
	}
	for _, e := range slices.Backward(ends) {
		switch got, _ := reading(e.part); {
		case !standsAlone(reading, e.part), !e.sentence && (entersOnly(reading, e.part) || entersOnly(reading, e.rest)), got.Loose && comesApart(reading, e.part):
		case e.sentence, e.anew && standsAlone(reading, sentence(e.rest)), boardFor.MatchString(e.rest) && reads(reading, sentence(e.rest)), isWhole(reading, e.part, e.rest):
			return e.part, e.rest, nil
		}
	}
	for _, e := range slices.Backward(ends) { // what is said of a room, and a statement of its own that is kept
		if !e.sentence && ownClause.MatchString(e.rest) && ofRoom(reading, e.part) {
			return e.part, e.rest, nil
		}
	}
	for _, e := range ends { // nothing reads the beginning: it stays together, and what can be read behind it is not lost for it
		if asksBehind(line, err, text) && silent(e.part, reading) && asksSame(line, e.rest, reading) { // "its 55 in here. can i coat"
			return text, "", whole
		}
		if next := sentence(e.rest); e.sentence && !loose && mended(reading, next) || (e.sentence || e.anew && mended(reading, e.part)) && standsAlone(reading, next) {
			return e.part, e.rest, nil
		}
	}
	if first, rest := askedApart(ends, reading); rest != "" {
		return first, rest, nil
	}
	for _, e := range ends { // talk, and a question
		if errors.Is(err, grammar.ErrChatter) && read.AsksAtStart(e.rest) && asksAlone(e.rest, reading) {
			return e.part, e.rest, nil
		}
	}
	return text, "", whole
}

// once reads each text once: a part is looked at for several reasons, and there are no more than [mostBreaks] to look at.
func once(reading Reader) Reader {
	heard := map[string]Heard{}
	return func(text string) (grammar.Line, error) {
		h, had := heard[text]
		if !had {
			h.Line, h.Err = reading(text)
			heard[text] = h
		}
		return h.Line, h.Err
	}
}

// roomsApart cuts the first of several rooms from the others, if it is read alone as it is among them.
func roomsApart(line grammar.Line, err error, ends []brk, reading Reader) (part, rest string) {
	ask, asks := errors.AsType[*grammar.Ask](err)
	if !asks || !line.Loose || len(ask.Choices) == 0 || len(ask.Choices[0].Lines) < 2 {
		return "", ""
	}
	first := ask.Choices[0].Lines[0]
	if _, room := first.Entry.(rooms.Room); !room {
		return "", ""
	}
	for _, e := range ends {
		if got, gerr := reading(e.part); gerr == nil && got.String() == first.String() && standsAlone(reading, e.rest) {
			return e.part, e.rest
		}
	}
	return "", ""
}

// ofTwoRooms cuts what is told of a room from what is told behind it of another, if the text is not read whole: "bath all
// hung, kitchen still needs two rows".
func ofTwoRooms(line grammar.Line, err error, ends []brk, named func() map[string]string, reading Reader) (part, rest string) {
	unread, names := err != nil || line.Entry.Kind() == "note", named()
	for _, e := range ends {
		next := opensIn(names, e.rest)
		if next == "" {
			continue
		}
		told := opensIn(names, e.part)
		if told == "" && unread {
			got, _ := reading(e.part)
			told = got.Room
		}
		if told != "" && told != next && !strings.Contains(lex.Lower(e.rest), "same") && !entersOnly(reading, e.part) && !entersOnly(reading, e.rest) {
			return e.part, e.rest
		}
	}
	return "", ""
}

// opensIn returns the noted room that a text begins with, "" if it begins with none.
func opensIn(named map[string]string, text string) string {
	words := strings.Fields(strings.TrimPrefix(strings.TrimPrefix(lex.Lower(text), "in "), "the "))
	for n := min(3, len(words)); n > 0; n-- {
		if name := named[strings.TrimRight(strings.TrimSuffix(strings.Join(words[:n], " "), "'s"), ",:")]; name != "" {
			return name
		}
	}
	return ""
}

// besides cuts what says more from behind what a text is asked about without it: "den 12 x 10, lid is up".
func besides(line grammar.Line, err error, ends []brk, reading Reader) (part, rest string) {
	first := func(line grammar.Line, err error) (says string, noted bool) {
		ask, asks := errors.AsType[*grammar.Ask](err)
		switch {
		case err == nil:
			return line.String(), false
		case !asks || len(ask.Choices) == 0 || len(ask.Choices[0].Lines) == 0:
			return "", false
		}
		lines := ask.Choices[0].Lines
		if _, noted = lines[len(lines)-1].Entry.(record.Note); len(lines) > 1 && !noted {
			return "", false
		}
		return lines[0].String(), noted
	}
	says, noted := first(line, err)
	kept := err == nil && !Stands(line, err)
	if !kept && (err == nil || says == "" || !line.Loose) {
		return "", ""
	}
	was := ""
	for _, e := range ends {
		if kept && (!strings.ContainsAny(e.part, "0123456789") || len(ends) > 6) { // no room with its size
			continue
		}
		head, herr := reading(e.part)
		_, room := head.Entry.(rooms.Room)
		of, more := first(head, herr)
		if room && more || !room && part != "" || !(noted || of == says || kept && room) || !Stands(head, herr) || !(room && framed.MatchString(e.rest) || standsAlone(reading, e.rest)) {
			continue
		}
		_, rerr := reading(sentence(e.rest))                                   // what stands behind that is cut from it in turn
		if ask, asks := errors.AsType[*grammar.Ask](rerr); asks && !ask.Keep { // else some of it is dropped
			continue
		}
		switch {
		case !room:
			return e.part, e.rest
		case head.String() != was: // of a room the most that is read whole
			was, part, rest = head.String(), e.part, e.rest
		}
	}
	return part, rest
}

// sentence returns the first sentence of text.
func sentence(text string) string {
	for _, e := range breaks(text) {
		if e.sentence {
			return e.part
		}
	}
	return text
}

// comesApart reports whether a text that is read loosely says two things, each of which stands alone.
func comesApart(reading Reader, text string) bool {
	ends := breaks(text)
	return len(ends) > 0 && (ends[0].sentence || slices.ContainsFunc(ends, func(e brk) bool {
		return reads(reading, e.rest) && standsAlone(reading, e.part) && !entersOnly(reading, e.part) && !entersOnly(reading, e.rest)
	}))
}

func standsAlone(reading Reader, text string) bool {
	line, err := reading(text)
	return Stands(line, err) && !(asksBehind(line, err, text) && len(breaks(text)) > 0)
}

// Stands reports whether what was read is an entry, or one that leads to a question.
func Stands(line grammar.Line, err error) bool {
	switch e := line.Entry.(type) {
	case record.Note:
		return err == nil && !e.Kept
	case record.Notes:
		return false
	}
	if err == nil {
		return true
	}
	_, asks := errors.AsType[*grammar.Ask](err)
	return asks
}

// reads reports whether text is read as an entry, without a question.
func reads(reading Reader, text string) bool {
	line, err := reading(text)
	return err == nil && Stands(line, err) && !line.Loose
}

// ownClause matches a statement with a subject and a verb of its own.
var ownClause = regexp.MustCompile(`(?i)^(?:(?:the|a|and|so|also|but|that|every|my) )*(?:some(?:body|one)|every(?:body|one)|[a-z]{3,} ?){1,2} (?:is|are|has|have|had|hasnt|needs?|wants?|gets?|got|was|were|will|wont|cant|already|still|only|left|put|took|went|came|broke|forgot|wants)\b|` + framing)

// framing matches what tells of the framing of a room.
const framing = `^(?:\S+ ){0,2}(?:strapping|straps|strapped|battens|furring|furred|joists|rafters|trusses|channel|channels|studs)\b`

var framed = regexp.MustCompile(framing)

// ofRoom reports whether text is read as a room, or as how it is built.
func ofRoom(reading Reader, text string) bool {
	line, err := reading(text)
	if ask, asks := errors.AsType[*grammar.Ask](err); asks && len(ask.Choices) > 0 && len(ask.Choices[0].Lines) > 0 {
		line, err = ask.Choices[0].Lines[0], nil
	}
	if err != nil {
		return false
	}
	switch line.Entry.(type) {
	case rooms.Room, rooms.SupportSet, rooms.Slope, rooms.Bulkhead, boards.High:
		return true
	}
	return false
}

// entersOnly reports whether text only names a room: beside "and" that is one of several.
func entersOnly(reading Reader, text string) bool {
	line, err := reading(text)
	_, enters := line.Entry.(rooms.InRoom)
	return err == nil && enters
}

// mended reports whether text is one of our lines but for a slip, and is refused with the line put right.
func mended(reading Reader, text string) bool {
	_, err := reading(text)
	r, ok := errors.AsType[*grammar.Refusal](err)
	return ok && !r.Once && r.Near != "" && unread.Own(r) != ""
}

// isWhole reports whether text is an entry to which nothing is added after a comma. More boards are.
func isWhole(reading Reader, text, rest string) bool {
	line, err := reading(text)
	switch line.Entry.(type) {
	case boards.StockSet:
		return err == nil && !goesOn(rest)
	case rooms.Room, hanging.Hung, hanging.HungPlan, boards.UpAll, things.Opened, hanging.Check, rooms.Alias, hanging.Gap:
		return err == nil && !strings.Contains(rest, "used ") && !strings.Contains(rest, "took ")
	}
	ask, ok := errors.AsType[*grammar.Ask](err)
	return ok && len(ask.Choices) > 0 && strings.HasPrefix(ask.Choices[0].String(), "room ")
}

// goesOn reports whether text begins with a number of boards: "1 ten", "3 8s", "a 10".
func goesOn(text string) bool {
	ps := lex.Pieces(text[:min(len(text), 40)])
	number := func(i int) bool {
		return i < len(ps) && (ps[i].Kind == '0' || lex.Numeral(strings.TrimSuffix(ps[i].Low, "s")))
	}
	return len(ps) > 0 && (number(0) || ps[0].Low == "a") && (len(ps) == 1 || number(1))
}

// brk is a place where a text may be cut.
type brk struct {
	part, rest     string // before, behind it
	sentence, anew bool
}

// mostBreaks limits the work for one message.
const mostBreaks = 8

var broken = regexp.MustCompile(`[.!?]+\s+|,\s+(?:and\s+|also\s+|then\s+|but\s+)?|\s+(?:and|then|also)\s+|\s+(?:straps?|strapped|strapping|joists|battens|trusses|walls|all \d|out of square)\b|\s+(?:half inch|five eighths|[135]/[28]"?|1[235](?:\.5)? ?mm) (?:[a-z]+ ){0,2}(?:boards?|drywall|rock|sheets)\b`)

// boardFor matches the board that is told behind something else.
var boardFor = regexp.MustCompile(`(?i)^(?:half inch|five eighths|[135]/[28]"?|1[235](?:\.5)? ?mm|12\.5)\b`)

// shortened are words that end in a full stop.
var shortened = lex.Set("in", "ft", "approx", "no", "o.c", "oc", "ctr", "min", "max", "n", "e", "s", "w", "vs", "st", "dr", "mr")

// leadsOn are words that belong to what stands behind them.
var leadsOn = lex.Set(strings.Fields("between the a across of to under over off from on onto by with in at each both all into past through behind per no and first ceiling floor same last")...)

// breaks returns the places where text may be cut: after a sentence, and before what begins a new entry
// after a comma or "and".
func breaks(text string) (all []brk) {
	if !strings.ContainsAny(text, ".!?,") && !strings.Contains(text, " and ") && !strings.Contains(text, " strap") && !strings.Contains(text, " joists") && !strings.Contains(text, " batten") && !strings.Contains(text, " board") && !strings.Contains(text, " drywall") {
		return nil
	}
	for _, m := range broken.FindAllStringIndex(text, -1) {
		sign, before := text[m[0]], lex.Lower(text[:m[0]])
		sentence := strings.ContainsRune(".!?", rune(sign)) || strings.HasPrefix(lex.Lower(text[m[1]:]), "hit ") // an alarm
		switch {
		case m[0] == 0 || m[1] == len(text), strings.HasSuffix(before, " hundred"): // "one hundred and six"
			continue
		case sentence:
			if sign == '.' && shortened[before[strings.LastIndexAny(before, " ,")+1:]] && !unitEnds(before, lex.Lower(text[m[1]:])) {
				continue
			}
		case sign == ' ' && strings.TrimSpace(text[m[0]:m[1]]) != "and" && strings.TrimSpace(text[m[0]:m[1]]) != "then" && strings.TrimSpace(text[m[0]:m[1]]) != "also":
			if m[1] = m[0] + 1; leadsOn[before[strings.LastIndexAny(before, " ,")+1:]] { // before the word
				continue
			}
		}
		end := m[0]
		if sign == '?' {
			end++
		}
		if all = append(all, brk{strings.TrimRight(text[:end], " ,"), strings.TrimSpace(text[m[1]:]), sentence, !sentence && anew(text[m[1]:])}); len(all) == mostBreaks {
			break
		}
	}
	return all
}

// unitEnds reports whether an inch or a foot ends a sentence: "170 x 115 in. no strapping yet".
func unitEnds(before, behind string) bool {
	next, _, _ := strings.Cut(behind, " ")
	return inFeet.MatchString(before) && len(next) > 1 && !measuring[strings.Trim(next, ",.")] && next[0] >= 'a' && next[0] <= 'z' && !lex.Numeral(next)
}

// inFeet matches a number and its unit, measuring are words that go on with it.
var (
	inFeet    = regexp.MustCompile(`\d (?:in|ft)$`)
	measuring = lex.Set(strings.Fields("off from of in out by up wide high deep long to and or down back away oc thick on at apart over under clear left right north south east west centre center centres centers above below tall square round per each along")...)
)

// anew reports whether text begins as an entry does.
func anew(text string) bool {
	ps := lex.Pieces(text[:min(len(text), 40)])
	if len(ps) == 0 || !ps[0].Word() {
		return false
	}
	for _, ph := range lex.Phrases[ps[0].Low] {
		switch ph.Type {
		case lex.Thing, lex.Service, lex.Support, lex.Wall:
			return true
		}
		if ph.Value == "ceiling" || ph.Value == "row" {
			return true
		}
	}
	return read.HeadWord(ps[0].Low) || slices.Contains(lex.Ordinals, ps[0].Low) || anewWords[ps[0].Low]
}

// anewWords also begin entries.
var anewWords = lex.Set("walls", "wall", "all", "straps", "rafters", "trusses", "whats", "wheres", "how", "is", "can", "what", "where", "no", "bed", "living", "hall", "kitchen", "bath", "den",
	"do", "does", "did", "didnt", "didn't", "are", "where", "hows", "how's", "who", "when", "which", "any", "should")

// Split splits a message into its entries, which are on lines of their own or between semicolons. A note
// and a snag keep their own semicolons.
func Split(message string) []string {
	var entries []string
	for text := range strings.FieldsFuncSeq(message, func(r rune) bool { return r == '\n' || r == '\r' }) {
		for {
			text = strings.TrimSpace(text)
			first, rest, more := strings.Cut(text, ";")
			if !more || read.KeepsAll(first) {
				break
			}
			if first = strings.TrimSpace(first); first != "" {
				entries = append(entries, first)
			}
			text = rest
		}
		if text != "" {
			entries = append(entries, text)
		}
	}
	return entries
}
