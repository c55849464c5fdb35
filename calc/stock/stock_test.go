package stock_test

import (
	"fmt"
	"slices"
	"testing"

	"strapline/calc/event"
	"strapline/calc/history"
	"strapline/calc/length"
	"strapline/calc/place"
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

// Counted by hand: 30 of 5/8 came, no length told, and 18 eights of 1/2. 10 of 5/8 up on a ceiling leave 20; then two rows
// hang there that took 8, which are among the 10; 6 more up leave 14, and of 2 + 6 nobody told the rows. 3 used without a
// kind may be of either, so they are owed; when 19 eights are used, one too many, they can only be of the others.
func ExampleLedger_OnHand_lengthNotTold() {
	var all stock.Ledger
	five8 := func(string, place.Surface) event.Boards { return event.Boards{Thick: 5 * length.Inch / 8} }
	say := func(b event.Stock) {
		e := &history.Entry{}
		if b.How == "hung" {
			e.Body = event.Hung{Room: "den", Surface: place.Ceiling}
		}
		all = append(all, history.Of(e, b))
		got, _ := all.OnHand(five8)
		fmt.Print(b.How, ":")
		for _, b := range got {
			fmt.Printf(" %d x %d of %d/8", b.N, b.L/length.Foot, 8*b.Thick/length.Inch)
		}
		fmt.Println()
	}
	five := func(n int) []event.Boards { return []event.Boards{{N: n, Thick: 5 * length.Inch / 8}} }
	say(event.Stock{How: "delivered", Items: append(five(30), event.Boards{N: 18, L: 8 * length.Foot, Thick: length.Inch / 2})})
	say(event.Stock{How: "ordered", Items: five(32)})
	say(event.Stock{How: "up", Items: five(10), Room: "den", On: place.Ceiling})
	say(event.Stock{How: "hung", Items: []event.Boards{{N: 8}}})
	say(event.Stock{How: "up", Items: []event.Boards{{N: 6}}, Room: "den", On: place.Ceiling})
	fmt.Println("rows not told:", all.Up("den", place.Ceiling))
	say(event.Stock{How: "used", Items: []event.Boards{{N: 3}}})
	say(event.Stock{How: "used", Items: []event.Boards{{N: 19, L: 8 * length.Foot}}})
	// Output:
	// delivered: 30 x 0 of 5/8 18 x 8 of 4/8
	// ordered: 30 x 0 of 5/8 18 x 8 of 4/8
	// up: 20 x 0 of 5/8 18 x 8 of 4/8
	// hung: 20 x 0 of 5/8 18 x 8 of 4/8
	// up: 14 x 0 of 5/8 18 x 8 of 4/8
	// rows not told: 8
	// used: 14 x 0 of 5/8 18 x 8 of 4/8 -3 x 0 of 0/8
	// used: 11 x 0 of 5/8 -1 x 8 of 4/8
}

// A piece of 5/8 board that hangs before any board was counted is owed without a kind, so the count that comes later
// settles it.
func TestHungBeforeCounted(t *testing.T) {
	hung := &history.Entry{Event: event.Event{Body: event.Hung{}}}
	all := stock.Ledger{
		history.Of(hung, event.Stock{How: "hung", Items: []event.Boards{{N: 1, L: 12 * length.Foot}}}),
		history.Of(&history.Entry{}, event.Stock{How: "in", Items: []event.Boards{{N: 3, L: 12 * length.Foot}}}),
	}
	got, _ := all.OnHand(func(string, place.Surface) event.Boards { return event.Boards{Thick: 5 * length.Inch / 8} })
	if want := []event.Boards{{N: 2, L: 12 * length.Foot}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
