package grammar

import (
	"regexp"
	"slices"
	"strings"

	"strapline/grammar/lex"
)

// What no rule reads may still be about the work, and is then kept. It is if it has a word of the work
// next to a number, a size or a result. Talk uses such words too, so those it shares with the work need a
// size.
var (
	workWords = lex.Set(strings.Fields(`
		strap straps strapping strapped furring joist joists stud studs rafter rafters truss trusses bulkhead bulkheads soffit slope slopes sloped
		kneewall kneewalls kneewal skylight skylights skylite skylites lid lids ceiling ceilings wall walls seam seams butt joint joints bevel gap gaps rip ripped
		row rows layer layers course screw screws pops bead caulk caulked caulking insulation insulated insul rough-in rough inspection inspected drain
		vent vented duct ductwork boot register reg recept receptacle outlet outlets gang switch pot pots pendant chandelier sconce sconces vanity gfi gfci tub shower
		valve spout toilet supply stack copper pex abs pipe pipes cleanout hatch sill ro rad chimney breast diagonal diagonals diag square plate plates
		cement moisture bead feed romex snag snags hollow ridge proud demising jb jbox fan joists boarded board boards cabinet bd bds sheet sheets
		piece pieces layout offcut rehang wiring wired cable backing blocking nailer scaffold gable landing closet corner corners fire rated drywall niche notch
		shim shims hanger hangers batten battens lath strips sprinkler head heads butts tens twelves eights pcs sanded sand primed mesh knob sheet's ceiling's trunk exhaust hood downlight downlights potlight cans opener pitch plumb out-of-square prefill`)...)
	// faintWords count as work only next to a size.
	faintWords = lex.Set(strings.Fields(`door doors window windows light lights lite smoke alarm tape floor box boxes sink count counted roof side end half cut drop deep wide long high tall
		short apart centre center edge leg tape panel north south east west middle span thick gap stairs hall short 12s 10s 8s 14s 54s hole holes smoke hook strip strips`)...)
	// became are words for the state or the result of something.
	became = lex.Set(strings.Fields(`passed pass tested test inspected ok okay done up on hung in installed insulated caulked fixed buried wired missing missed open closed
		close cover covered covering hold holds holding failed boarded cut found finished ready bowed cracked proud bent loose broken bad wrong short taped plated rained soaked
		signed plumb moved gone down ripped used forgot exposed tight insulates short close goes starts stops out flush until til till live dead lowered sanded signed`)...)
	// talliedWords count as work if something is counted.
	talliedWords = lex.Set(strings.Fields(`mud compound bucket buckets tape bag bags rolls roll pails pail`)...)
	// sideWords give the place of what was said just before.
	sideWords = lex.Set(strings.Fields(`side end edge wall corner gable north south east west n s e w middle centre center window flush`)...)
	// offWork are words that mark a line as talk, whatever else is in it.
	offWork = lex.Set(strings.Fields(`coffee lunch beer beers pizza sandwich donuts truck van car boss guys guy game wife radio bucks money knife ladder ladders cord charger heater
		hell lol haha cry meeting wifi phone email parking parked park rain raining snow bus bridge traffic gym dog dogs couch tires bike birthday kid kids homeowner clients client
		trash garbage dumpster elevator lockbox keys key porta hat hats glasses masks bandaid thumb knee knees back legs boots noise sauna cooler bag bits blade blades
		horses saw drill battery lift compressor breaker invoice paid pay payday rate wcb name timesheets timesheet safety trailer
		painters painter mudders tapers plumbers plumber electrician sparky gc boys tp junk crap music call sick grab bring pass price prices can got shifts going dentist doctor code`)...)
)

// tells reports whether a line says or asks something about the job.
func (l *line) tells() bool {
	work, faint, state, talked, number, side, tallied, away, room, closing := 0, 0, 0, false, false, false, false, false, false, false
	if len(l.Pieces)-l.begin < 3 && l.Follows == 0 { // "pipe down"
		return false
	}
	for _, p := range l.Pieces[l.begin:] {
		switch w := p.Low; {
		case p.Kind == '0', w != "one" && l.NumberAt(l.pieceAt(p.Start)):
			number = true
		case workWords[w]:
			work++
		case faintWords[w]:
			faint++
		case talliedWords[w]:
			tallied = true
		case offWork[w]:
			talked = true
		}
		closing = closing || closingWords[p.Low]
		away, room = away || chatty[p.Low], room || roomNoun[p.Low]
		if became[p.Low] {
			state++
		}
		side = side || sideWords[p.Low] || roomNoun[p.Low] && l.asksSomething()
	}
	sized := l.measure() && len(l.Pieces)-l.begin > 3
	switch {
	case l.Follows > 0 && made.MatchString(l.Read) && len(l.Pieces)-l.begin <= 16:
		return true
	case work > 0 && !away && l.asksSomething() && len(l.Pieces)-l.begin > 5:
		return true
	case talked && !(sized && work > 0):
		return false
	case work > 0 && (l.has(lex.Direction, "") || l.asksSomething() && len(l.Pieces)-l.begin > 4), closing && room && len(l.Pieces)-l.begin > 4:
		return true
	case work > 0 && (number || state > 0 || sized):
		return true
	case sized && faint > 0, tallied && number && strings.ContainsAny(l.Read, ",:"):
		return true
	}
	return l.Follows == Right && !talked && len(l.Pieces)-l.begin <= 16 && !away && (side || number && work+faint > 0 || onTape.MatchString(l.Read))
}

// closingWords are about what has to be done before a room is closed.
var closingWords = lex.Set("signed", "close", "closed", "cover", "covered", "uncovered", "live", "dead", "passed", "failed")

// chatty are words of people talking about each other.
var chatty = lex.Set("friday", "monday", "tomorrow", "yesterday", "weekend", "i", "care", "he", "she", "his", "her", "my", "me", "him", "your", "youre", "guys", "who", "saturday", "sunday", "today", "years", "price", "hours", "take")

// made are words for what happened to a thing.
var made = regexp.MustCompile(`(?i)\b(?:found (?:it|them)|came up empty|(?:is|got|are|all) (?:cut|caulked|buried|insulated|fixed|covered)|caulked|insulated it|cut,? (?:out|good)|undo (?:that|the)|rained on|soaked|go with \d+|from the \w+ not|(?:^|, ?)(?:ft|feet|inches|mm)$|where do (?:i|we) cut|under there|where(?:'?s| is) it\b|\bclosed\b|hang it|leave (?:it|that|the (?:pot|box|fan|hole))|(?:from|off) the (?:left|right)|(?:no|not|hold|wait) (?:til|till|until)|same in|the \d one|as approx|\d+ ?x ?\d+|\d+s\b|half inch|big one|small one)`)

// onTape matches a length that only a tape gives.
var onTape = regexp.MustCompile(`\d['"’”]|\d/(?:2|4|8|16|32)\b|\d ?(?:foot|feet|ft)\b`)

// works reports whether a word of the work is in the line.
func (l *line) works() bool {
	return slices.ContainsFunc(l.Pieces[l.begin:], func(p lex.Piece) bool { return workWords[p.Low] })
}

// instead maps words of unanswered questions to questions that are answered.
var instead = map[string]string{
	"screw": "how many screws", "screws": "how many screws", "sheets": "order", "boards": "order", "12s": "order", "10s": "order", "8s": "order",
	"covered": "what's covered", "buried": "what's covered", "hidden": "what's covered", "behind": "what's covered",
	"close": "ready", "ready": "ready", "stops": "ready", "holding": "ready", "hold": "ready", "cut": "cuts", "left": "whats left to hang",
	"layout": "layout", "start": "layout", "seams": "layout", "butts": "layout", "bevel": "cuts", "snags": "snags", "hung": "who hung row 1", "hang": "whats left to hang",
	"wall": "list everything on north wall", "walls": "list everything on north wall", "straps": "list size", "strap": "list size", "long": "list size", "big": "list size",
}

// unanswered refuses a question that has no answer, and offers the nearest one that has.
func (l *line) unanswered(why string) *Refusal {
	r := l.refuse(l.Tokens[0].Pos, why)
	r.Plain, r.Hint = true, "log"
	for _, p := range l.Pieces[l.begin:] {
		if said := instead[p.Low]; said != "" {
			r.Hint = said
			break
		}
	}
	if strings.Contains(lex.Lower(l.Read), " hit ") {
		r.Hint = "reach"
	}
	if l.Room != "" {
		r.Hint = l.Room + ": " + r.Hint
	}
	return l.hinted(r)
}
