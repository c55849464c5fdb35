// Package work counts what a search may still do. It counts steps, not time, so that
// the same question gets the same answer on every machine; a closed channel ends it at once.
package work

// Budget is the work that is left. A search takes off what it does, and does no more than it has to once
// nothing is left.
type Budget struct {
	Steps int64           // left, of about 1 ns each; below 0 where what had to be done took more
	Done  <-chan struct{} // closed: the answer is not wanted any more; nil: it always is

	unseen int64 // steps since Done was looked at
}

// blind is how many steps go by between two looks at Done.
const blind = 4096

// stop unwinds a search, however deep it is, up to Do.
type stop struct{}

// Spend takes steps off. Once Done is closed it does not return, but ends the search; there has to be a Do around it.
func (b *Budget) Spend(steps int64) {
	b.Steps -= steps
	if b.unseen += steps; b.unseen < blind {
		return
	}
	b.unseen = 0
	select {
	case <-b.Done:
		panic(stop{})
	default:
	}
}

// Part does a part of the search on at most so many steps, and takes off what it took.
func (b *Budget) Part(steps int64, search func(part *Budget)) {
	part := Budget{Steps: steps, Done: b.Done}
	defer func() { b.Steps -= steps - part.Steps }()
	search(&part)
}

// Do searches and reports whether that came to its end. What came of a search that was stopped depends on when that was: throw it away.
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
