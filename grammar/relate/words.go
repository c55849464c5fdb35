package relate

import (
	"cmp"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
)

// A line that puts something right, or takes it back, is read by what its words do, a tag a word, in any order. tagOf
// is the only list of such words. Other tags are S and T, the name and the kind of something noted, U of what is not
// noted, K another kind, O "the second one", r a support, L a number, W a wall, R a room, Q a row, Z "no" before a
// name, and ? for words that do nothing here.
var tagOf = func() map[string]byte {
	all := map[string]byte{}
	for does, w := range lex.Rows(`
b between a name and a value: now|is|isnt it|are|was|were|now its|measured|measures|taped|taken|read|reads|marked|laid out|remeasured|re-measured|checked|rechecked|redid|fixed|goes
o announces a correction: no|nope|nah|sorry|oops|whoops|woops|wait|no wait|wait no|no sorry|actually|hang on|hold on|scratch that|correction|my bad|my mistake|my fault|i mean|i meant|meant|meant to say|i said|i was wrong|got that wrong|i had that wrong|typo|misread|misread it|misread that|i goofed|goofed|i messed up|messed up|my error|mistake|made mistake|made a mistake|measured wrong|measured it wrong|read it wrong|read wrong|read it bad|bad reading|bad measurement|make that|make it|change that|change it|call it|found it|found them|fix that|wrong|wrong one|wrong number|wrong size|rather|should have said|i should have said|thats not right|not right|thats wrong|that was wrong|that isnt right|thats incorrect|not true|thats not it|check that|double check that|double check|recheck that|hold up|one sec|one second|count was off|miscounted|i miscounted|counted wrong|we miscounted
y does before B: yes|yeah|yep|yup|ya|right|ok|okay|close|almost|correct
B behind it: but|except|only|just|though|tho|with
c says nothing: please|pls|lol|thanks|thx
H the height of the ceiling: height|ceiling|ceilings|lid|ceiling height|lid height
a before the name, behind what is new: on|for|with|about|in
_ says nothing among other words: had to|have to|need to|gotta|made me|having to|in there|in here|instead|the|a|an|i|we|he|she|they|you|my|your|these|both|ones|had|have|has|got|get|gets|gotta|did|do|done|went|need|needs|to be|so|and|then|now|really|off the list|on the list|from the list|what i said about|what i had for|number|numbers|measurement|measurements|distance|distances|dimension|dimensions|dim|dims|reading|both of them|both of em|wall|walls|side|note|just now|round|around|been|being|will|more like|up being|going to|gonna|guys|im|ive|weve|theyve|could|would|oc|apart
x says nothing beside what is gone: anymore|any more|any longer|after all|at all|completely|altogether|today|here|there|by now|yet|either|for good|already|since|over there|again
A how many: all
i the note just sent: thats|em|that is|that was|its|it is|it was|this is|it|that|this|them|those|those two|these two|the two|them two|those are|these are|theyre|they are|those were|that one|this one|last|last one|last note|last thing|last entry|last message|last text|last measurement|my last|my last one|my last note|that note|that last one|that last note|what i just said|what i just sent
m somebody moved it: move|moved|moving|shift|shifted|shifting|slide|slid|sliding|bump|bumped|bumping|nudge|nudged|push|pushed|scoot|scooted|scooch|scooched|shove|shoved|relocate|relocated|drag|dragged|kick|kicked|change|changed|make|found
e where it is then: sits|lives|ended up|wound up|winds up|landed|landed up|ended|came out|came in|came to|comes to|turned out
n before what is old: not|isnt|isnt at|wasnt|arent|aint|not at|instead of|rather than|in place of
q beside what is old: gave you|told you|had it|was given|i put|i wrote|before|earlier|was from|was to
f is off by: off by|out by
F is too far: too far|too close
v the numbers were mixed up: other way round|other way around|other way about|wrong way round|wrong way around|opposite way round|back to front|backwards|backward|mixed up|swapped|switched|flipped|reversed|crossed|mixed|vice versa|swap|switch em|switch them|switch those|switch it|switch the two|switch these|flip|reverse|exchange|trade
w the wall was: wrong wall|wrong side|wrong end|other wall|other side|opposite wall|opposite side|other end|opposite end
h the room was: wrong room
g the rest is right: good|ok|okay|right|fine|the same|correct
E measured to: edge|edges|near edge|nearest edge|nearer edge|outside edge|outer edge|close edge|to edge
C or to: centre|center|centres|centers|middle|the middle|centreline|centerline
p part of a value: off|from|to|at|by|of|out|up|over|about|another|further|farther|more|closer|nearer|back|away|toward|towards|down|x|wide|long|each|every
t takes back: removed|remove|deleted|delete|cancelled|canceled|cancel|scrapped|scrap|scratched|scratch|ditched|ditch|nixed|nix|axed|axe|pulled|pull|yanked|yank|ripped out|rip out|taken out|taken off|taken down|took out|took off|took down|tore out|take out|take off|take back|took|taking|take|eliminated|eliminate|abandoned|abandon|dropped|drop|killed|kill|deep sixed|value engineered|ved|skip|skipped|skipping|lost|lose|forget|forget about|ignore|disregard|strike|cross|crossed|never mind|nevermind|never mind about|nvm|got rid of|get rid of|getting rid of|decided against|going against|voted against|went against|backed out of|capped|capped off|undo
z is no more: gone|history|a mistake|no more|no longer|no|off the list|out of the job|off the job|off the plan|out of the plan|not there|isnt there|isnt needed|no need for
N before k: not|isnt|aint|arent|wasnt|wont|dont|doesnt|didnt|do not|does not|never|not be|wont be|no longer|dont need|not gonna be
k is not wanted: going|going in|going there|happening|needed|required|wanted|used|using|use|doing|do|want|wants|need|needs|installing|having|putting in|happen|needing
`, "|") {
		if _, had := all[w]; !had {
			all[w] = does[0]
		}
	}
	for _, a := range []string{"had", "have", "got", "i had", "i got", "we had", "we got"} {
		for _, b := range []string{" it ", " that ", " them ", " em ", " those ", " these "} {
			all[a+b+"wrong"] = 'o'
			for _, c := range strings.Fields("backwards backward reversed flipped swapped switched mixed") {
				all[a+b+c] = 'v'
			}
		}
	}
	for _, a := range strings.Fields("should shld shud shoulda shouldve must needs has need have ought supposed") {
		for _, b := range []string{"", " have", " of", " to", " to have", " a"} {
			for _, c := range strings.Fields("be been go read say said") {
				all[a+b+" "+c] = 's'
			}
		}
	}
	return all
}()

// longest is how many words the longest of our phrases has that begins with a word.
var longest = func() map[string]int {
	all := map[string]int{}
	for said := range tagOf {
		words := strings.Fields(said)
		all[words[0]] = max(all[words[0]], len(words))
	}
	return all
}()

// tells reports whether a word in a line does one of those.
func tells(text, tags string) bool {
	words := strings.Fields(text)
	for i := range words {
		if w, ok := phrase(words[i:]); ok && strings.IndexByte(tags, w.tag) >= 0 || i == 0 && plainWord(words[0]) == "really" {
			return true
		}
	}
	return false
}

const (
	telling = "onsmevwhftzqFECiy" // of a correction
	hinting = telling + "bN"      // of one, if nothing else reads the line
)

// plainWord is a word in lower case without the signs around it: "Its" for "it's,".
func plainWord(w string) string {
	w = strings.ToLower(strings.Trim(w, ",.:;!?()"))
	if w != "" && (w[0] < '0' || w[0] > '9') {
		w = strings.ReplaceAll(w, "'", "")
	}
	return w
}

func plainly(words []string) string {
	all := make([]string, len(words))
	for i, w := range words {
		all[i] = plainWord(w)
	}
	return strings.Join(all, " ")
}

func digits(w string) bool { return w != "" && strings.Trim(w, "0123456789") == "" }

var supports, units = lex.Set("strap", "joist", "stud", "channel"), lex.Set("foot", "inch", "ft")

const mostLength = 9 // words of a length: "one hundred and sixty five and three quarter inches"

type word struct {
	tag  byte
	said string // as typed
	is   string // what it is: the name of a thing, a kind, a room
	n    int    // words
}

// opening returns how many words announce a correction, and in how many phrases.
func opening(words []string) (n, phrases int) {
	for n < len(words) {
		w, ok := phrase(words[n:])
		if more := n + w.n; ok && w.tag == 'y' && more < len(words) {
			if next, is := phrase(words[more:]); is && next.tag == 'B' {
				w.tag, w.n = 'o', w.n+next.n
			}
		}
		if !ok || w.tag != 'o' && w.tag != 's' || w.said == "no" && n+1 < len(words) && kindOf(plainWord(words[n+1])) != "" { // "no pipe there"
			break
		}
		n, phrases = n+w.n, phrases+1
	}
	return n, phrases
}

// Opened returns what is behind the words that announce a correction, or all of text.
func Opened(text string) string {
	words := strings.Fields(text)
	if n, _ := opening(words); 0 < n && n < len(words) {
		return strings.Join(words[n:], " ")
	}
	return text
}

// TakesBack reports whether a line takes back what was said right before it, whatever it puts in its place.
func TakesBack(text string) bool {
	words := strings.Fields(text)
	n, phrases := opening(words)
	if n == 0 || n == len(words) {
		return false
	}
	next, _ := phrase(words[n:])
	return n > 1 || phrases > 1 || !weakAlone[plainWord(words[0])] && (next.tag == 'i' || plainWord(words[n]) == "the")
}

// phrase returns the longest of our phrases that words begin with.
func phrase(words []string) (word, bool) {
	for n := min(longest[plainWord(words[0])], len(words)); n > 0; n-- {
		if tag := tagOf[plainly(words[:n])]; tag != 0 {
			return word{tag: tag, said: strings.Join(words[:n], " "), n: n}, true
		}
	}
	return word{}, false
}

// tagged returns the words of a line with what they do.
func tagged(c *grammar.Context, text string) (all []word) {
	words := strings.Fields(text)
	for i := 0; i < len(words); {
		w := wordAt(c, words[i:])
		if next := i + w.n; next < len(words) && strings.ToLower(w.said) == "no" {
			if after := wordAt(c, words[next:]); after.tag == 'S' || after.tag == 'T' {
				w.tag = 'Z'
			}
		}
		if next := i + w.n; next < len(words) && lex.Counts[plainWord(w.said)] > 0 && lex.ThingOf[plainWord(words[next])] != "" || next < len(words) && digits(w.said) && plural(words[next]) {
			w.tag = 'A' // "two pots"
		}
		if i == 0 && plainWord(w.said) == "really" {
			w.tag = 'o' // not "outlet at 70 is really 72"
		}
		if w.tag == 'i' && plainWord(w.said) == "last" && i+1 < len(words) && c.Last.What != "" && lex.ThingOf[plainWord(words[i+1])] == c.Last.What {
			w.n, w.said = 2, strings.Join(words[i:i+2], " ")
		}
		if end := i + w.n - 1; w.tag == 'L' && w.n > 1 { // "60 to the middle" is no 62, "8 in the hall" no inches
			k := min(end+1, len(words)-1)
			if words[k] == "the" && k+1 < len(words) {
				k++
			}
			if last := plainWord(words[end]); last == "to" || last == "for" || last == "in" && wordAt(c, words[k:]).tag == 'R' {
				w.n, w.said = w.n-1, strings.Join(words[i:end], " ")
			}
		}
		all = append(all, w)
		i += w.n
	}
	return all
}

// plural reports whether a word is of several things.
func plural(w string) bool {
	w = plainWord(w)
	return strings.HasSuffix(w, "s") && lex.ThingOf[w] != "" && lex.ThingOf[strings.TrimSuffix(w, "s")] != ""
}

// kindOf is the kind of a thing by its word, as it stands or in the plural: a "can" may be none.
func kindOf(said string) string { return cmp.Or(lex.ThingOf[said], lex.ThingOf[said+"s"]) }

func wordAt(c *grammar.Context, words []string) word {
	first := plainWord(words[0])
	of := func(tag byte, n int, is string) word { return word{tag, strings.Join(words[:n], " "), is, n} }
	if first == "" { // only signs
		return of('_', 1, "")
	}
	if len(words) > 1 && (first == "a" || first == "an") && units[plainWord(words[1])] {
		return word{'L', "1 " + words[1], "", 2}
	}
	ours, ok := phrase(words)
	if first == "first" && len(words) > 1 && words[1][0] >= '0' && words[1][0] <= '9' { // "first 14": of straps
		return of('_', 1, "")
	}
	if ok && (ours.n > 1 || ours.tag == '_' || ours.tag == 'o') {
		return ours
	}
	if len(words) > 1 && lex.ThingOf[first] != "" && digits(plainWord(words[1])) {
		after := byte('b')
		if len(words) > 2 {
			after = tagOf[plainWord(words[2])] + tagOf[plainly(words[2:min(4, len(words))])]
		}
		if name := lex.ThingOf[first] + " " + plainWord(words[1]); c.Knows(name) {
			return of('S', 2, name)
		} else if (after == 'b' || after == 's') && !c.KnowsOf(c.NameOf(plainly(words[:2]))) {
			return of('U', 2, name)
		}
	}
	for n := min(len(words), max(c.MaxWords, 2)+1); n > 0; n-- {
		said := plainly(words[:n])
		if name := c.NameOf(grammar.WithOrdinals(said)); c.KnowsOf(name) && tagOf[first] != 'p' {
			tag := byte('S')
			if lex.ThingOf[name] == name {
				tag = 'T'
			}
			return of(tag, n, name)
		}
	}
	if ok {
		return ours
	}
	if len(words) > 1 {
		second := plainWord(words[1])
		nth := lex.Ordinal[grammar.WithOrdinals(first)]
		switch {
		case nth > 0 && (second == "one" || second == "ones"):
			return of('O', 2, grammar.WithOrdinals(first))
		case nth > 0 && (second == "row" || second == "course"):
			return of('Q', 2, "row "+string(rune('0'+nth)))
		case first == "row" && digits(second):
			return of('Q', 2, plainly(words[:2]))
		case nth > 0 && c.KnowsOf(lex.Ordinals[nth-1]+" "+kindOf(second)):
			return of('S', 2, lex.Ordinals[nth-1]+" "+kindOf(second))
		case nth > 0 && supports[second]:
			return of('r', 2, second+" "+string(rune('0'+nth)))
		case supports[first] && digits(second):
			return of('r', 2, first+" "+second)
		}
	}
	if tens, _, _ := strings.Cut(first, "-"); '0' <= first[0] && first[0] <= '9' || lex.Numeral(tens) || first == "half" {
		for n := min(mostLength, len(words)); n > 0; n-- {
			said := strings.Trim(strings.Join(words[:n], " "), ",.:;!?")
			for _, said := range []string{said, strings.TrimSuffix(said, "s")} {
				if c.IsLength(said) {
					if said[len(said)-1] == words[n-1][max(len(words[n-1])-1, 0)] || !strings.HasSuffix(words[n-1], "s") {
						said = strings.Join(words[:n], " ")
					}
					return word{'L', said, "", n}
				}
			}
		}
	}
	for n := min(3, len(words)); n > 0; n-- {
		said := plainly(words[:n])
		switch {
		case n < 3 && WallSaid(c, said) != "" && tagOf[first] != 'p':
			return of('W', n, string(WallSaid(c, said)))
		case c.Rooms[said] != "":
			return of('R', n, c.Rooms[said])
		case kindOf(said) != "":
			return of('K', n, kindOf(said))
		}
	}
	return of('?', 1, "")
}
