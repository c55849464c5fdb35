package inforce

import (
	"encoding/json"
	"slices"
	"sync"

	"strapline/calc/layout"
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

// Work is the planning that one message may ask for, in steps of the layout
// package, and what ends it at once.
type Work struct {
	Steps int64           // left
	Here  bool            // it may be done here and now; else it is ErrWork
	Done  <-chan struct{} // closed: give up
}

func (w *Work) ended() bool {
	select {
	case <-w.Done:
		return true
	default:
		return false
	}
}

// MessageSteps is the work that one message gets, however many questions are in
// it: a layout of a hall has its [layout.DefaultSteps] and its alternatives half of that.
const MessageSteps = 2 * layout.DefaultSteps

// usable is the stock of an input with each count cut to what the surface could ever take: as many boards as it has pieces,
// where each is as short as pieces get. The plan is the same, and more boards of a length that there is enough of
// do not make a new one.
func usable(in layout.Input) []layout.Stock {
	run, cross := in.Surface.W, in.Surface.H
	if (in.Lie == layout.X) != in.Along {
		run, cross = cross, run
	}
	short := in.Rules.Short
	if short <= 0 {
		short = layout.Defaults().Short
	}
	out := slices.Clone(in.Stock)
	for i, b := range out {
		if b.Width <= 0 || b.Offcut || b.Count < 0 {
			continue
		}
		rows := int(cross/b.Width) + 2 // a rip at either side
		rows = max(rows, len(in.Rows))
		pieces := rows * (int(run/short) + 2*len(in.Surface.Notches) + len(in.Hung) + 2)
		out[i].Count = min(b.Count, pieces)
	}
	return out
}

// layout is the best layout and, if asked for, its alternatives; kept, or worked
// out where there is work left. The same input gives the same layout always: a
// message with too little work left gets none, not a worse one.
func (ps *Plans) layout(in layout.Input, offers bool) (*layout.Layout, []*layout.Layout, error) {
	in.Stock = usable(in)
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
	in.Spent, in.Done = func(n int64) { ps.Work.Steps -= n }, ps.Work.Done
	var v kept
	v.best, v.err = layout.Plan(in)
	if v.err == nil && offers && !ps.Work.ended() {
		in.Steps = layout.DefaultSteps / 2
		v.alts = layout.Alternatives(in, v.best)
	}
	if ps.Work.ended() { // before its time: what came of it is worth nothing
		return nil, nil, ErrOver
	}
	ps.Kept.put(string(key), v)
	return v.best, v.alts, v.err
}
