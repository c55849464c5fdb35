package stock_test

import (
	"fmt"
	"slices"
	"testing"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/stock"
)

// Counted by hand: 10 twelves and 4 eights came, 3 twelves were used: 7 and 4. A count of 6 twelves says that there
// are no eights. A piece of 5/8 hung from a twelve takes one of 5/8, and there is none: it is owed.
func ExampleLedger_OnHand() {
	var all stock.Ledger
	say := func(how string, boards ...event.Boards) {
		all = append(all, history.Of(&history.Entry{}, event.Stock{How: how, Items: boards}))
		got, counted := all.OnHand(nil)
		fmt.Print(how, ":")
		for _, b := range got {
			fmt.Print(" ", b.N, " x ", b.L/length.Foot)
		}
		fmt.Println(" counted", counted)
	}
	say("in", event.Boards{N: 10, L: 12 * length.Foot}, event.Boards{N: 4, L: 8 * length.Foot})
	say("used", event.Boards{N: 3, L: 12 * length.Foot})
	say("is", event.Boards{N: 6, L: 12 * length.Foot, Thick: length.Inch / 2})
	say("used", event.Boards{N: 1, L: 12 * length.Foot, Thick: 5 * length.Inch / 8})
	// Output:
	// in: 10 x 12 4 x 8 counted true
	// used: 7 x 12 4 x 8 counted true
	// is: 6 x 12 counted true
	// used: 6 x 12 -1 x 12 counted true
}

// A piece of 5/8 board that hangs before any board was counted is owed without a kind, so the count that comes later
// settles it.
func TestHungBeforeCounted(t *testing.T) {
	hung := &history.Entry{Event: event.Event{Body: event.Hung{}}}
	all := stock.Ledger{
		history.Of(hung, event.Stock{How: "hung", Items: []event.Boards{{N: 1, L: 12 * length.Foot}}}),
		history.Of(&history.Entry{}, event.Stock{How: "in", Items: []event.Boards{{N: 3, L: 12 * length.Foot}}}),
	}
	got, _ := all.OnHand(func(event.Hung) event.Boards { return event.Boards{Thick: 5 * length.Inch / 8} })
	if want := []event.Boards{{N: 2, L: 12 * length.Foot}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
