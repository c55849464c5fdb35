package ready

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/rows"
	"strapline/bot/say"
	"strapline/calc/event"
)

// Trade is whose start a question is about, by its words, else by who asks; "" if that is none after the hangers.
func Trade(c answer.Ctx) string {
	m := trades.FindStringSubmatch(c.Words)
	if m == nil {
		m = trades.FindStringSubmatch(c.Who)
	}
	for i, who := range []string{"taper", "painter", "electrician"} {
		if m != nil && m[i+1] != "" && mayStart.MatchString(c.Words) {
			return who
		}
	}
	return ""
}

var (
	trades   = regexp.MustCompile(`(?i)\b(?:(tap(?:ers?|e|ing)|mud(?:ding)?|skim|plaster(?:ers?)?)|(prim(?:e|ing)|paint(?:ers?|ing)?)|(electricians?|sparky|sparks))\b`)
	mayStart = regexp.MustCompile(`(?i)\b(?:ready|start|begin|come|go|good|can|may|ok)\b`)
)

// Stages are checks of no list: what is done to boards that are up.
var Stages = []string{"taped", "sanded", "primed"}

// For says whether a trade may start in the room, and what is in its way: boards that nobody reported, and for paint
// the coats and the sanding (common practice, no source).
func For(c answer.Ctx, who string) string {
	var not, bare []string
	for _, on := range c.Room.Shell().Surfaces() {
		if left := rows.NotUp(c, c.Room, on); left != "" {
			not = append(not, on.Name()+": "+left)
		} else if len(c.Room.Pieces(on)) == 0 {
			bare = append(bare, on.Name())
		}
	}
	if len(bare) > 0 {
		not = append(not, "no board reported on "+strings.Join(say.Most(bare, 5), ", "))
	}
	fit := c.Room.Name + ": ready for the " + who
	unfit := strings.Replace(fit, ": ", ": not ", 1) + ": "
	if who == "painter" {
		not = append(not, "no coat and no sanding noted")
		for _, en := range slices.Backward(c.State.Entries) { // the newest tells
			if en.Struck() || en.Room != c.Room.Name {
				continue
			}
			switch b := en.Body.(type) {
			case event.Coat:
				if b.N == 0 {
					continue
				}
				return fmt.Sprintf("%sno sanding noted since coat %d (%s)", unfit, b.N, c.ByWhen(en))
			case event.Checked:
				if b.State == "ok" && (b.What == "sanded" || b.What == "primed") {
					return fmt.Sprintf("%s: %s (%s)", fit, b.What, c.ByWhen(en))
				}
			}
		}
	}
	for _, o := range Blocking(c) {
		if o.Who == who || o.Who == "lead" && !slices.ContainsFunc(usualChecks, func(u OpenCheck) bool { return strings.HasPrefix(o.What, u.What) }) {
			not = append(not, o.What)
		}
	}
	if len(not) == 0 {
		return fit + ", all of it reported up"
	}
	return unfit + strings.Join(not, "; ")
}
