package inforce

import (
	"encoding/json"
	"errors"
	"sync"

	"strapline/calc/layout"
	"strapline/calc/work"
)

// Kept is a cache of layouts by their input, shared by all messages of a job. It is safe for
// concurrent use.
type Kept struct {
	mu  sync.Mutex
	by  map[string]kept
	old []string // keys, oldest first
}

type kept struct {
	best   *layout.Layout
	alts   []*layout.Layout
	offers bool // alts were worked out
	err    error
}

// maxKept is the size of the cache: enough for a house of a hundred rooms, each with two
// different counts of boards.
const maxKept = 256

func (k *Kept) get(key string) (kept, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	v, ok := k.by[key]
	return v, ok
}

func (k *Kept) put(key string, v kept) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.by == nil {
		k.by = map[string]kept{}
	}
	if _, had := k.by[key]; !had {
		if len(k.old) == maxKept {
			delete(k.by, k.old[0])
			k.old = k.old[1:]
		}
		k.old = append(k.old, key)
	}
	k.by[key] = v
}

// Work is the budget of a message for planning.
type Work struct {
	work.Budget
	Here bool // plan now; else a layout that is not cached is ErrWork
}

// MessageSteps is the budget of a message, however many questions it asks: enough to plan a job of
// 120 small rooms again. A layout gets [layout.DefaultSteps] of it and its alternatives a third as many.
// A layout that is begun gets all of that, so a message takes at most 23/6 of DefaultSteps.
const MessageSteps = 5 * layout.DefaultSteps / 2

// layout returns the best layout and, if offers is set, the alternatives, from the cache or
// worked out while budget is left. The same input always gives the same layout: every layout
// gets its full budget, even if that overdraws the message's.
func (ps *Plans) layout(in layout.Input, offers bool) (*layout.Layout, []*layout.Layout, error) {
	in = in.Canonical()
	key, err := json.Marshal(in)
	if err != nil {
		return nil, nil, err
	}
	v, ok := ps.Kept.get(string(key))
	if ok && (v.offers || !offers || v.err != nil) {
		return v.best, v.alts, v.err
	}
	switch {
	case ps.Work.Steps <= 0:
		return nil, nil, ErrOver
	case !ps.Work.Here:
		return nil, nil, ErrWork
	}
	steps := int64(layout.DefaultSteps)
	if len(in.Hung) > 0 { // around may plan it twice, with and without the old joints
		steps /= 2
	}
	if !ok {
		ps.Work.Part(steps, func(part *work.Budget) { v.best, v.err = layout.Plan(in, part) })
	}
	if v.offers = offers; v.err == nil && offers {
		ps.Work.Part(layout.DefaultSteps/3, func(part *work.Budget) { v.alts, v.err = layout.Alternatives(in, v.best, part) })
	}
	if errors.Is(v.err, layout.ErrStopped) {
		return nil, nil, ErrOver
	}
	ps.Kept.put(string(key), v)
	return v.best, v.alts, v.err
}
