package turn

import (
	"fmt"
	"slices"
	"strings"

	"strapline/bot/answer"
	"strapline/bot/answer/revise"
	"strapline/bot/ledger"
	"strapline/bot/pending"
	"strapline/bot/say"
	"strapline/grammar"
)

// undoesNothing asks what an undo means if it follows something that was not saved, or if the words behind it take back
// something else: "undo that, row 2 isnt up". The sender's last note is then an older one that is probably right.
func (t *Turn) undoesNothing(open *pending.Question) bool {
	last := t.l.State.LastOf(t.in.Who)
	asks := open != nil && !open.Saved
	if last == nil || !t.l.Unsaved[t.Who()] && !revise.DeniesOther(t.Rest, last.Text) {
		return false
	}
	if asks && strings.HasPrefix(open.Why, pending.NothingSaved) {
		t.again(open, "still open: ")
		return true
	}
	if asks {
		t.drop(open)
	}
	strike := grammar.Choice{Label: fmt.Sprintf("strike %d", last.Seq), Lines: revise.Strikes(revise.SaidTogether(t.Ctx(), last))}
	t.Take(answer.Ask(fmt.Sprintf("%s%d: %s. Strike it?", pending.NothingSaved, last.Seq, say.FirstLine(last.Text)), "", strike, grammar.Choice{Label: "leave it"}))
	return true
}

// Missed records whether the sender's last attempt to note something was not saved.
func (t *Turn) Missed() {
	if t.Ans.Kind == "" {
		return // chatter
	}
	lost := slices.ContainsFunc(strings.Split(t.Ans.Reply, "\n"), func(l string) bool {
		return strings.HasPrefix(l, answer.NotSaved) || strings.HasPrefix(l, pending.LostLead)
	})
	ledger.Set(t.l, t.l.Unsaved, t.Who(), !t.Ans.Saved && (lost || t.Ans.Asks()))
}
