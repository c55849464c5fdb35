package sense

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"strapline/grammar/lex"
	"strapline/grammar/speech"
	"strapline/grammar/topic"
)

func set(words string) map[string]bool { return lex.Set(strings.Fields(words)...) }

var (
	cutOut = set("cut cutout opened open")
	passed = set("passed pass ok okay good signed approved tested done in clear cleared happy")
	failed = set("failed fail rejected bounced")
	// denies are words that deny or change a line, beside those by which no place can be told.
	denies = func() map[string]bool {
		all := set("no each every both maybe nobody only moved")
		maps.Copy(all, topic.Negates)
		for _, w := range []string{"done", "closed", "finished", "cut", "opened", "really", "actually", "stud", "strap", "straps", "sheet", "sheets", "board", "boards", "gap", "rip", "more", "than"} {
			delete(all, w)
		}
		return all
	}()
	otherDay   = set("yesterday monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thurs fri sat sun ago last") // drying is reckoned from the day of the message
	flawed     = set("pop pops popped popping proud crack cracked cracks bent dented dent loose stain stained gouge gouged hollow ridge bubble bubbled blister smacked bowed wavy crushed")
	flawedWork = set("screw screws butt butts joint joints seam seams board boards sheet sheets bead corner tape mud ceiling lid row strap straps stud studs nail nails")
)

// coatNames are coats by their purpose, and coats the words that are said of one.
var (
	coatNames = map[string]int{"tape": 1, "taping": 1, "bed": 1, "bedding": 1, "prefill": 1, "fill": 2, "filler": 2, "finish": 3, "final": 3}
	coats     = set("coat coats first second third 1 2 3 tape taping bed fill finish st nd rd on done in and i've we've we our my now just there here theres there's ok okay got have has pls please . , : ; ! -")
)

// checked are what is passed or failed before a room is closed, with the words for it.
var checked = map[string]string{
	"insulation": "insulation", "insul": "insulation", "insulated": "insulation", "batts": "insulation",
	"vapour": "vapour barrier", "vapor": "vapour barrier", "poly": "vapour barrier",
	"electrical": "electrical inspection", "wiring": "electrical inspection", "rough-in": "electrical inspection",
	"plumbing": "plumbing inspection", "pressure": "plumbing inspection",
	"blocking": "backing", "backing": "backing", "photos": "photos", "pictures": "photos", "nails": "nails",
	"caulk": "fire caulk", "caulked": "fire caulk", "caulking": "fire caulk", "firecaulk": "fire caulk",
}

// numbers returns the lengths and counts that have no part yet, without those of rows.
func (l *line) numbers() []int {
	for i, w := range l.low {
		if w != "row" && w != "rows" && w != "course" || i+1 == len(l.low) {
			continue
		}
		k := slices.IndexFunc(l.Items, func(it speech.Item) bool { return it.At == l.Pieces[l.Begin+i+1].Start })
		for first := k; k >= 0 && k < len(l.Items) && (l.Tags[k] == 'T' || l.Items[k].N > 0 && (k == first || l.Items[k].Sep != 0 || l.Items[k-1].Tag == 'T')); k++ {
			l.Tags[k] = speech.Used
		}
	}
	return l.Left(speech.Length)
}

// misses is a thing that was not where it was noted.
func (l *line) misses() []string {
	if !l.has("find", "missed") || !l.has("cant", "can't", "couldnt", "couldn't", "didnt", "didn't", "missed", "not") {
		return nil
	}
	if all := l.things(); len(all) == 1 && len(l.Left(speech.Length))+len(l.Left(speech.Ordinal)) == 0 {
		return []string{"missed " + all[0]}
	}
	return nil
}

// things takes the things of a line as they are called: by a name, by kind and number, or by what tells them apart.
func (l *line) things() (all []string) {
	for i, it := range l.Items {
		kind := lex.ThingOf[it.Text] == it.Text
		if it.Tag != speech.Thing || kind && i+1 < len(l.Items) && l.Items[i+1].Tag == speech.Thing && l.Items[i+1].At == it.At+len(it.Low)+1 { // "fan box" is a box
			continue
		}
		k := i + 1
		for ; kind && k < len(l.Items) && l.Tags[k] == speech.Length && strconv.Itoa(l.Items[k].N) == l.Items[k].Text; k++ {
			all = append(all, fmt.Sprintf("%s %d", it.Text, l.Items[k].N))
			l.Tags[k] = speech.Used
		}
		l.Tags[i] = speech.Used
		if b := max(i-1, 0); k > i+1 {
			continue
		} else if before := l.Items[b].Low; b < i && (lex.Ordinal[before] > 0 || kind && l.Name != nil && l.Name(before+" "+it.Text)) {
			it.Text, l.Tags[b] = before+" "+it.Text, speech.Used
		}
		all = append(all, it.Text)
	}
	return all
}

// opens is what was cut out: "pots 1 and 2 in row 1".
func (l *line) opens() []string {
	if !l.any(cutOut) || l.any(denies) || l.has("list", "need", "needs", "gotta", "want", "wanna", "wants", "gonna", "going", "where") {
		return nil
	}
	all := l.things()
	if len(all) == 0 || len(l.numbers()) > 0 {
		return nil
	}
	return []string{"open " + strings.Join(all, ", ")}
}

// coat is a coat of compound, that goes on as it is told: one of another day is only kept.
func (l *line) coat() []string {
	i := slices.IndexFunc(l.low, func(w string) bool { return w == "coat" || w == "coats" })
	if i < 0 || l.any(otherDay) || l.any(denies) || !l.has("on", "done", "in", "finished", "up") {
		return nil
	}
	n := max(lex.Ordinal[l.at(i-1)], coatNames[l.at(i-1)])
	if b := l.at(i - 1); b == "st" || b == "nd" || b == "rd" {
		n = speech.Whole(l.at(i - 2))
	}
	if n == 0 || n > 4 {
		return nil
	}
	return []string{fmt.Sprintf("coat %d", n)}
}

// checks is what an inspector or the lead has approved, a line for each.
func (l *line) checks() []string {
	var all []string
	for i, w := range l.low {
		what := checked[w]
		if w == "test" && l.at(i-1) != "pressure" && checked[l.at(i-1)] == "" {
			what = checked["pressure"]
		}
		if what == "" {
			continue
		}
		if len(l.numbers()) > 0 || l.Has("W") || l.has("off") && !l.has("signed") {
			return nil
		}
		after := slices.ContainsFunc(l.low[i+1:], func(w string) bool { return passed[w] })
		switch {
		case l.any(failed), l.has("not") && after:
			all = append(all, "check "+what+" failed")
		case l.any(denies):
		case after || l.has("passed", "approved", "signed") || strings.HasSuffix(w, "ed"):
			all = append(all, "check "+what+" ok")
		}
	}
	if all == nil {
		return nil
	}
	return []string{strings.Join(slices.Compact(all), "\n")}
}

// flaw is a defect to fix later; material that is only set aside is none. A gap beside screws is one, and nothing to cut.
func (l *line) flaw() []string {
	gap := l.has("gap") && l.has("screw", "screws", "nail", "nails", "pops")
	if !gap && (!l.any(flawed) || l.has("left")) || !l.any(flawedWork) || l.has("count", "stock", "using", "used", "nobody", "spare") {
		return nil
	}
	return []string{"snag " + strings.TrimSpace(l.Text)}
}

// gap is a gap by its two ends, or the rip that closes it.
func (l *line) gap() []string {
	if !l.has("gap", "rip", "opening") || l.any(denies) || l.Has("OZx") || l.has("screw", "screws", "nail", "nails", "pops") {
		return nil
	}
	var said []string
	for _, i := range l.numbers() {
		said = append(said, l.Said(i))
	}
	switch gap := "gap " + strings.Join(said, ", "); {
	case len(said) == 1 && l.has("rip"):
		return []string{"note rip " + said[0], gap}
	case (len(said) == 1 || len(said) == 2) && l.has("gap"):
		return []string{gap}
	}
	return nil
}
