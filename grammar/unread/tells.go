package unread

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar"
	"strapline/grammar/lex"
	"strapline/grammar/pattern"
	"strapline/grammar/read"
	"strapline/grammar/topic"
)

// What no rule reads may still be about the work, and is then kept. Words of the work, sizes and numbers
// speak for it, words of talk against it.
var (
	// faintWords are also said in talk.
	faintWords = lex.Set(strings.Fields(`door doors window windows light lights lite smoke alarm tape floor box boxes sink count counted roof side end half cut drop deep wide long high tall
		apart centre center edge leg panel north south east west middle span thick stairs short hole holes hook strip mud compound bucket buckets bag bags rolls roll pails pail
		hump hung hang measured measure room rooms bay beam elbow centred dryer head heads hangers footer footers mm minus plus heater heaters`)...)
	// became are words for the state or the result of something.
	became = lex.Set(strings.Fields(`passed pass tested test inspected ok okay done up on hung in installed insulated caulked fixed buried wired missing missed open closed
		close cover covered covering hold holds holding failed boarded cut found finished ready bowed cracked proud bent loose broken bad wrong short taped plated rained soaked
		signed plumb moved move gone down ripped used forgot exposed tight goes starts stops out flush until til till live dead lowered sanded busted replace need`)...)
	// offWork are words that mark a line as talk, whatever else is in it.
	offWork = lex.Set(strings.Fields(`coffee lunch beer beers pizza sandwich donuts truck van car boss guys guy game wife radio bucks money knife ladder ladders cord charger
		hell haha cry meeting wifi phone email parking parked park rain raining snow bus bridge traffic gym dog dogs couch tires bike birthday kid kids homeowner clients client
		trash garbage dumpster elevator lockbox keys key porta hat hats glasses masks mask bandaid thumb knee knees nose legs boots noise sauna cooler bits blade blades
		horses saw drill battery lift compressor breaker invoice paid pay payday rate wcb name timesheets timesheet safety trailer
		painters painter mudders tapers sparky gc boys tp junk music call sick grab bring pass price prices shifts going dentist doctor code
		mind porch looks finder overtime news lady mother brother lemonade shells tastes lake careful busy vacuum seats nice ship boat`)...)
	// chatty are words of people talking about each other.
	chatty = lex.Set(strings.Fields(`friday monday tomorrow yesterday weekend i care he she his her my me him your youre who saturday sunday today years hours take lol got have behind`)...)
)

// talkAt reports whether piece i marks a line as talk. To grab is talk, a grab bar is not.
func talkAt(l *read.Source, i int) bool {
	return offWork[l.Pieces[i].Low] && !(l.Pieces[i].Low == "grab" && i+1 < len(l.Pieces) && (strings.HasPrefix(l.Pieces[i+1].Low, "bar") || strings.HasPrefix(l.Pieces[i+1].Low, "rail")))
}

// Tells reports whether a line says or asks something about the job.
func Tells(l *read.Source) bool {
	if len(l.Pieces)-l.Begin < 3 && l.Follows == 0 { // "pipe down"
		return false
	}
	return weight(l) >= telling || ofCrew.MatchString(l.AsSaid())
}

// OffWork reports whether a line has a word that marks it as talk. To call somebody and to be careful may be of the work.
func OffWork(l *read.Source) bool {
	return slices.ContainsFunc(l.Pieces[l.Begin:], func(p lex.Piece) bool {
		return offWork[p.Low] && p.Low != "call" && p.Low != "careful" && p.Low != "code"
	})
}

// ofCrew matches what tells of the work without a word of it: who does a room or the lid, boards that come, the heat that
// stays on for the coats. That a trade comes or does not is said too often to be kept.
var ofCrew = pattern.Compile(`\b(?:i|me|you|him|her|us|` + trade + `) (?:and|with|n|&) (?:the |me|i|you)?(?:` + trade + `)?\b.*\b(?:will|do|does|are on|take|takes|hang|finish|stay|stays|work|works)\b|` +
	`\b(?:(?:i|you|we)(?:'?ll|'?m|'?re)?|` + trade + `) (?:will |can |is |are |am |to |should |be )*(?:do|does|doing|on|take|takes|taking|hang|hangs|hanging|finish|finishes|start|starts|starting|work|works|working)\b(?: \S+){0,3} (?:` + roomNouns + `|attic|loft|ceiling|lid|walls|slopes?)\b|` +
	`\b` + trade + ` .*\b(?:comes?|coming|will|starts?)\b.* (?:` + roomNouns + `|attic|loft|ceiling|lid|walls|slopes?)\b|` + `\b(?:boards?|sheets?|drywall|delivery|driver|board truck)\b.*\b(?:come|comes|coming|came|gets? here|arrives?|arriving|arrived|brings?|bringing|late|rest|due|dropped)\b|\b(?:truck|they) (?:will )?(?:brings?|bringing|drops?|dropping|brought|dropped)(?: off)? \d+|\b\d+ (?:more )?(?:came|arrived|coming)\b.*\b(?:rest|driver|more)\b|` +
	`\b(?:heat|furnace|heaters?|dehumidifiers?|dehu|propane|salamander)\b.*\b(?:stays?|was|is|turned|left|leaving|leave|keep|kept|running|runs|going in|set)\b.*\b(?:on|in|last night|tonight|overnight|all night|weekend|morning|till|until|at|running|\d+)\b`)

const trade = `(?:taper|hanger|helper|lead|electrician|sparky|plumber|painter|framer|plasterer)s?`

// telling is the weight from which a line is kept: "strap 2 bowed", "6'2 in the hall". Measured against
// testdata/chatter.txt and heard.txt.
const telling = 3

// weight adds up what speaks for the work in a line.
func weight(l *read.Source) (sum int) {
	work, faint, number, state, room, talk, worded := 0, 0, 0, 0, 0, 0, false
	coats := slices.ContainsFunc(l.Pieces[l.Begin:], func(p lex.Piece) bool { return topic.Stem(p.Low) == "coat" })
	for i := l.Begin; i < len(l.Pieces); i++ {
		p := l.Pieces[i]
		worded = worded || p.Word()
		switch w := p.Low; {
		case p.Kind == '0', w != "one" && l.NumberAt(i):
			if number = 1; i+1 < len(l.Pieces) && lex.ThingOf[l.Pieces[i+1].Low] != "" && strings.HasSuffix(l.Pieces[i+1].Low, "s") && (i+2 == len(l.Pieces) || l.Pieces[i+2].Low != "of") {
				work++ // "there are 2 lights"
			}
		case topic.Work[w], topic.Stem(w) == "coat", nearWork(w):
			work += 2
		case coats && topic.Day[w]: // "sanding monday"
			state = 1
		case talkAt(l, i):
			sum -= 2
		case faintWords[w], w == "bare" && i+1 < len(l.Pieces) && topic.Works(l.Pieces[i+1].Low): // "off bare studs"
			faint++
		case chatty[w]:
			talk = min(talk+1, 2)
		}
		if became[p.Low] {
			state = 1
		}
		if i > l.Begin && i+1 < len(l.Pieces) && done[topic.Stem(p.Low)] && of[l.Pieces[i+1].Low] { // "its hidden, ill cut it later"
			work += 2
		}
		if topic.RoomNoun[p.Low] {
			room = 1
		}
	}
	if l.Measure() {
		number = 2
	}
	if worded && sum == 0 && !strings.Contains(l.Read, "nothing") && (onTape.MatchString(l.Read) || twoSizes.MatchString(l.Read)) {
		if number = 3; ofTape.MatchString(l.Read) {
			number = 4 // whoever else is spoken of
		}
	}
	for _, t := range l.Tokens {
		if t.Type == lex.Name && lex.Shape(t.Value) {
			faint++
		}
	}
	if lengths.MatchString(l.Read) {
		faint++
	}
	if work > 0 && l.AsksSomething() {
		work++
	}
	if work+faint == 0 && number < 2 || work+faint+room == 0 && number < 3 {
		return 0
	}
	return sum + work + faint + number + state + room - talk
}

// nearWork reports whether a word is a misspelt one of the work: "sjeets".
func nearWork(w string) bool {
	return len(w) > 4 && len(w) <= grammar.LongestWord && !offWork[w] && !faintWords[w] && !read.Talk[w] &&
		slices.ContainsFunc(longWork, func(k string) bool { return k[0] == w[0] && grammar.Slips([]rune(w), []rune(k), 1) <= 1 })
}

// longWork are words of the work that a slip does not turn into a word of talk.
var longWork = func() (all []string) {
	for w := range topic.Work {
		if len(w) > 4 {
			all = append(all, w)
		}
	}
	return all
}()

// done are stems of what is done to something noted, of what it may be done: "cut that one".
var (
	done = lex.Set("cut", "cover", "close", "screw", "coat")
	of   = lex.Set("it", "that", "them", "those", "off", "up")
)

// lengths matches boards by their length.
var lengths = regexp.MustCompile(`\b(?:8|9|10|12|14|16|54)s\b`)

// twoSizes matches two sides.
var twoSizes = regexp.MustCompile(`\d['’"”]? ?(?:x|by) ?\d`)

// onTape matches a length that is likely from a tape, ofTape one that surely is: "83 1/2".
var ofTape, onTape = regexp.MustCompile(`\b\d\d+[ -]\d{1,2}/(?:2|4|8|16|32)\b`), regexp.MustCompile(`\d['"’”]|\d/(?:2|4|8|16|32)\b|\d ?(?:foot|feet|ft)\b`)
