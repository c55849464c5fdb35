package inforce

import (
	"encoding/json"
	"errors"
	"sync"

	"strapline/calc/layout"
	"strapline/calc/work"
)

// Kept are layouts by what they were made from. It is shared by all messages of a
// job, and by those who work beside each other.
type Kept struct {
	mu  sync.Mutex
	by  map[string]kept
	old []string // keys, the longest kept first
}

type kept struct {
	best *layout.Layout
	alts []*layout.Layout
	err  error
}

// mostKept layouts are remembered: a house of a hundred rooms, each on two counts of boards.
const mostKept = 256

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
		if len(k.old) == mostKept {
			delete(k.by, k.old[0])
			k.old = k.old[1:]
		}
		k.old = append(k.old, key)
	}
	k.by[key] = v
}

// Work is the planning that one message may ask for.
type Work struct {
	work.Budget
	Here bool // it may be done here and now; else it is ErrWork
}

// MessageSteps is the work that one message gets, however many questions are in
// it: a layout of a hall has its [layout.DefaultSteps] and its alternatives half of that.
const MessageSteps = 2 * layout.DefaultSteps

// layout is the best layout and, if asked for, its alternatives; kept, or worked
// out where there is work left. The same input gives the same layout always: a
// message with too little work left gets none, not a worse one.
func (ps *Plans) layout(in layout.Input, offers bool) (*layout.Layout, []*layout.Layout, error) {
	in = in.Canonical()
	key, err := json.Marshal(in)
	if err != nil {
		return nil, nil, err
	}
	if v, ok := ps.Kept.get(string(key)); ok {
		return v.best, v.alts, v.err
	}
	switch {
	case ps.Work.Steps <= 0:
		return nil, nil, ErrOver
	case !ps.Work.Here:
		return nil, nil, ErrWork
	}
	steps := int64(layout.DefaultSteps)
	if len(in.Hung) > 0 { // it may be planned twice, with the butts it had and without
		steps /= 2
	}
	var v kept
	ps.Work.Part(steps, func(part *work.Budget) { v.best, v.err = layout.Plan(in, part) })
	if v.err == nil && offers {
		ps.Work.Part(layout.DefaultSteps/2, func(part *work.Budget) { v.alts, v.err = layout.Alternatives(in, v.best, part) })
	}
	if errors.Is(v.err, layout.ErrStopped) {
		return nil, nil, ErrOver
	}
	ps.Kept.put(string(key), v)
	return v.best, v.alts, v.err
}
