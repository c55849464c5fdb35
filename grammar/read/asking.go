package read

import (
	"slices"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/pattern"
)

// AsksSomething reports whether the line is a question: by its sign, by how it begins, by how it ends, or
// by what it Begs for.
func (l *Source) AsksSomething() bool {
	if l.Opens("can") && l.Tokens[0].Type == lex.Thing { // "can light dead centre"
		return l.Question
	}
	if l.Question && !strings.Contains(l.Text, "?") { // "is the bath ready for paint", by its frame
		return true
	}
	if l.Question && strings.Contains(l.Text[max(len(l.Text)-askedNear, 0):], "?") { // `30"?` within a statement asks nothing
		return true
	}
	i := l.Begin
	for i < len(l.Pieces)-1 && BeforeAsking[l.Pieces[i].Low] {
		i++
	}
	if i >= len(l.Pieces) {
		return false
	}
	if asksWith(l.Pieces[i:]) {
		return true
	}
	if l.begs == 0 {
		l.begs = 1
		if said := strings.TrimRight(lex.Lower(l.Read), " ,"); asksLate.MatchString(said) || asksTag.MatchString(said) || asksWithin.MatchString(said) || asksLast.MatchString(said) || asksOf.MatchString(said) || Begs.MatchString(lex.Lower(l.Read[l.Pieces[i].Start:])) {
			l.begs = 2
		}
	}
	return l.begs == 2
}

// askedNear is how far from its end the question mark of a question may be, in bytes: "? thanks".
const askedNear = 12

var (
	BeforeAsking = lex.Set("also", "so", "and", "ok", "bot", "wait", "hey", "but", "then", "lead", "hi", "hello", "hallo", "morning", "thanks", "oh", "um", "sorry", "please", "yo", ",")
	AskingWords  = lex.Set("am", "is", "are", "was", "were", "do", "does", "did", "has", "can", "could", "should", "will", "would", "how", "what", "whats", "what's", "which", "when", "whens", "who", "whos", "who's",
		"where", "wheres", "where's", "where'd", "how's", "hows", "how'd", "who'd", "what'd", "any", "anything", "anybody", "anyone", "didnt", "didn't", "isnt", "isn't", "arent", "aren't", "wasnt", "wasn't", "doesnt", "doesn't", "why")
	// asksLate begins with what it is about: "if i screw a 1 5/8 in there do i hit anything", "boards for the den, how many".
	asksLate = pattern.Compile(` (?:do|can|should|will|did) (?:i|we|you|they) (?:hit|need|have|close|cover|cut|get|use|board|screw|miss|care|start|hang|go|run|do|put|leave|bury)\b[^.,]*$|` +
		`^[^,.;:]* (?:what|when|where|how|which|who)(?: \w+)? (?:is|are|was|were|do|does|did|can|could|should|will) (?:i|we|you|they|it|that|this|he|she|those)\b[^.,]*$| who (?:\w+ed|hung|cut|put) (?:it|that|this|them|those)$| when$|, ?(?:how many|how much|which one)$`)
	// asksTag ends a question: "theres romex near there isnt there".
	asksTag = pattern.Compile(`\b(?:isn'?t|aren'?t|wasn'?t|weren'?t|didn'?t|don'?t|hasn'?t|doesn'?t) (?:there|it|they|he|she|we|you|that)$|\bor (?:no|not|what)$|, ?(?:right|yeah|no)$`)
	// asksWithin is one with what it is about before it: "jbox in the kitchen, where abouts is it".
	asksWithin = pattern.Compile(`[,:;.] (?:how (?:long|many|much|far|big|wide|deep|soon)) |^.*[,;] where\b.* (?:can|could|should|do|does) (?:it|that|i|we|they)\b|^\S+ every what\b|(?:[,:]| -) ?(?:where(?:abouts)?|what|how|which|who|when)(?:'?s)? (?:abouts |far |many |much |long |big |way |side |one |size )?(?:is|are|was|were|do|did|does|the|can|should|it|inches|feet)\b|\b(?:did|didn'?t|does|has|hasn'?t) (?:anyone|anybody|somebody|someone)\b|\banybody know\b|[,;:–-] ?(?:anything|anybody|anyone|any (?:issues?|problems?)|is (?:it|that|there|this|anything|something)|are (?:they|we|there|those)|(?:does|will|would|did) (?:it|that|they|the)|(?:do|can|should) (?:we|i|it))\b`)
	// asksLast is one whose words for what is asked stand behind what it is about, or behind "need": "last row how wide".
	asksLast = pattern.Compile(`^(?:[a-z0-9'/]+ ){1,5}(?:whereabouts|where abouts|where (?:is it|at)|how (?:wide|long|big|deep|high|thick|many|much|far|far off)|measurements|distances)$|^(?:i |we |just |so )*(?:need|want|check)(?: to know)? (?:how|what|which|where|if|whether)\b|` +
		`^(?:i |we )?need the (?:length|lenght|size|width|height|count|number|measurements?)\b|^(?:[a-z0-9'/]+ ){1,6}(?:is|are) (?:how|what|where)\b|^hit (?:anything|something)\b|\b(?:screws?|nails?|hooks?|anchors?|drill|drilling)\b.*\b(?:ok|okay|safe|fine|alright|allowed)\b(?: (?:at|here|there|to|in|near|with|if)\b.*)?$|` +
		`^(?:the )?(?:total |exact )?(?:size|length|width|height|count|area|thickness|direction|number|position|location|spacing) (?:of|for|over|under|above|below|on) [a-z]|^(?:room |ceiling |wall )?(?:dimensions?|sizes?|heights?|hight|heigth|hite|widths?|lengths?)\b[^0-9]*$`)
	asksOf = pattern.Compile(`^(?:ok(?:ay)? if (?:i|we)\b|(?:in|for|on|at|about|from|off) (?:the |my )?\S+(?: \S+)?,? (?:where|what|how|which|who|when|is|are|did|do|can)(?:'?s)?\b)`)
	// Begs asks without a question word.
	Begs = pattern.Compile(`^(?:(?:(?:got |have )?(?:a |any )?(?:photo|pic|picture)s?|got enough|(?:enough|enuf) \w+ (?:left )?(?:for|to (?:finish|do|close))|anybody got|anyone got|(?:have|had) (?:we|you|they|i|any|the)) |(?:i |we |i'm |im |just |still )*(?:need to know|(?:need|want) to find|gotta find|gotta get at|have to find|looking for|trying to find|(?:cant|can't|cannot) (?:find|see|tell|remember)|lost (?:the|where|track)|forgot where|(?:dont|don't) (?:know|remember) where|wondering|not sure (?:if|where|what|which|how|who)|no idea (?:if|where|what|which|how|who))\b|` +
		`(?:please |pls )?(?:remind me|tell me|(?:show|give|send|get|text) (?:me|us)|gimme|i need the \w+(?: \w+)? (?:location|position|place)|let me know|read me|list)\b|need (?:the )?(?:status|room by room|a list)\b|status\b|distances?\b|numbers\b|measurements\b|spacing\b|location\b|safe to\b|ok(?:ay)? to (?:screw|drill|nail|hang|close|cover|cut|bury)\b|may (?:the|i|we|it) |(?:we|are we|i) (?:good|ok|okay|clear|ready|set) to \w+|whers\b)`)
)

// misheard are words for those that ask, as they are misspelt or written down by ear; split are two of them in one. Beside
// "is" and the like "were" asks for a place: "were is the fan".
var (
	misheard = map[string]string{"wear": "where", "ware": "where", "whare": "where", "wher": "where", "wer": "where", "whre": "where", "were": "where", "wich": "which", "witch": "which", "whitch": "which", "wat": "what", "wats": "whats",
		"waht": "what", "wot": "what", "wots": "whats", "wen": "when", "hoo": "who", "hw": "how", "howmany": "how many", "howmuch": "how much", "howfar": "how far", "howbig": "how big", "howlong": "how long", "howwide": "how wide"}
	besideWhere = lex.Set("is", "are", "was", "did", "do", "does", "abouts", "exactly")
)

// Asked writes the word that asks in a question as it is spelt: "wear is the light" asks where it is.
func Asked(text string) string {
	at := 0
	for w := range strings.FieldsSeq(text) {
		from := at + strings.Index(text[at:], w)
		at = from + len(w)
		low := lex.Lower(strings.Trim(w, ",.:"))
		if BeforeAsking[low] || low == "need" {
			continue
		}
		next, _, _ := strings.Cut(strings.TrimSpace(text[at:]), " ")
		as := misheard[low]
		if as == "" || as == "where" && !besideWhere[lex.Lower(next)] || as == "who" && lex.Lower(next) != "is" {
			break
		}
		return text[:from] + as + text[at:]
	}
	return text
}

// asksWith reports whether a line that begins with these pieces is a question by its first word. "Didnt cut it yet" is told: it
// lacks whom it asks about.
func asksWith(ps []lex.Piece) bool {
	w, next := ps[0].Low, ""
	if len(ps) > 1 {
		next = ps[1].Low
	}
	return AskingWords[w] && !toldFirst(ps) && !(w == "do" && next == "not") && !(next != "" && strings.HasSuffix(w, "nt") && told[next])
}

// RoomsInFull writes the name of a noted room in full where a question has it in short: "the fan in bk bedrm". A word
// that says something else stays.
func RoomsInFull(text string, rooms map[string]string) string {
	said := strings.Fields(text)
	for i := range said {
		found, n, several := "", 0, false
		for name := range rooms {
			words := strings.Fields(name)
			if end := i + len(words); len(words) < n || end > len(said) || !shortFor(said[i:end], words) {
				continue
			}
			found, n, several = name, len(words), len(words) == n
		}
		if n > 0 && !several {
			said[i] = found + strings.TrimLeft(lex.Lower(said[i+n-1]), "abcdefghijklmnopqrstuvwxyz")
			said = slices.Delete(said, i+1, i+n)
			return strings.Join(said, " ")
		}
	}
	return text
}

// shortFor reports whether words are others in short: the first letter and some of those behind it, in their order.
func shortFor(said, words []string) bool {
	short := 0
	for i, w := range said {
		w = strings.TrimRight(lex.Lower(w), "?!.,:")
		if w == words[i] {
			continue
		}
		if short++; len(w) < 2 || len(words) == 1 && len(w) < 4 || w[0] != words[i][0] || AskingWords[w] || Talk[w] || lex.Phrases.Whole(w) != (lex.Symbol{}) || lex.ThingOf[w] != "" {
			return false
		}
		at := 0
		for _, r := range w {
			k := strings.IndexRune(words[i][at:], r)
			if k < 0 {
				return false
			}
			at += k + 1
		}
	}
	return short > 0
}

// toldFirst reports whether a line that begins with its verb tells all the same, as it does in other languages: "is
// strapping 16 centre, across". In English a question about something with a number has an article, a name or a sign.
func toldFirst(ps []lex.Piece) bool {
	if len(ps) < 4 || ps[0].Low != "is" && ps[0].Low != "are" && ps[0].Low != "was" || definite[ps[1].Low] || AskingWords[ps[1].Low] || lex.Shape(ps[1].Low) || ps[1].Kind != '0' && ps[2].Kind == '0' && (len(ps) < 6 || lex.ThingOf[ps[1].Low] != "" && ps[3].Word() && lex.Phrases[ps[3].Low] == nil) { // "is light 1 clear of the straps"
		return false
	}
	number := false
	for _, p := range ps[1:] {
		if p.Low == "?" || p.Low == "or" || p.Low == "ok" || p.Low == "okay" || p.Low == "enough" || p.Low == "right" {
			return false
		}
		number = number || p.Kind == '0'
	}
	return number
}

// ToldFirst returns a line that tells without the verb that it begins with, "" for any other.
func ToldFirst(text string) string {
	if ps := lex.Pieces(text); toldFirst(ps) {
		return strings.TrimSpace(text[ps[1].Start:])
	}
	return ""
}

// definite are words behind "is" that only a question has.
var definite = lex.Set(strings.Fields("the a an it that this there these those they he she we you i any anything anybody anyone everything everybody all both my our your its not row rows ceiling lid enough safe ok")...)

// told are words behind "didnt", "isnt" and the like in what is told.
var told = lex.Set(strings.Fields("cut cover hang open get got see find mark note check do done finish bring come fit go hit measure move need put screw take tape use in up on yet there ready good right square level enough covered marked noted")...)

// AsksAtStart reports whether a text begins as a question does.
func AsksAtStart(text string) bool {
	text = Asked(text)
	ps := lex.Pieces(text)
	i := 0
	for i < len(ps) && (BeforeAsking[ps[i].Low] || ps[i].Low == "strapline" || ps[i].Kind == '.') {
		i++
	}
	return i < len(ps) && (asksWith(ps[i:]) || HeadWord(ps[i].Low) || ps[i].Low == "if" || ps[i].Low == "in" || ps[i].Low == "for" || Begs.MatchString(lex.Lower(text[ps[i].Start:])))
}
