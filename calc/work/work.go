// Package work limits the effort of a search. The limit is in steps, not in time, so that
// the same question gets the same answer on every machine. A channel cancels a search.
package work

// Budget is the number of steps left. A search subtracts the steps it takes, and once none
// are left it does only what it must.
type Budget struct {
	Steps int64           // left, about 2 ns each; negative if unavoidable work took more
	Done  <-chan struct{} // closing it cancels the search; may be nil

	unchecked int64 // steps since Done was last checked
}

// checkEvery is the number of steps between two checks of Done.
const checkEvery = 4096

// stop is the panic that unwinds a cancelled search up to Do.
type stop struct{}

// Spend subtracts steps. Once Done is closed it panics to end the search, and [Budget.Do]
// recovers; so it must be called within Do.
func (b *Budget) Spend(steps int64) {
	b.Steps -= steps
	if b.unchecked += steps; b.unchecked < checkEvery {
		return
	}
	b.unchecked = 0
	select {
	case <-b.Done:
		panic(stop{})
	default:
	}
}

// Part runs a part of a search with a budget of its own, and subtracts what that spent.
func (b *Budget) Part(steps int64, search func(part *Budget)) {
	part := Budget{Steps: steps, Done: b.Done}
	defer func() { b.Steps -= steps - part.Steps }()
	search(&part)
}

// Do runs a search and reports whether it ended by itself. The result of a cancelled search
// depends on when it was cancelled, so discard it.
func (b *Budget) Do(search func()) (ended bool) {
	defer func() {
		switch r := recover(); r {
		case nil:
			ended = true
		case stop{}:
		default:
			panic(r)
		}
	}()
	search()
	return
}
