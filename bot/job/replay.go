package job

import (
	"errors"
	"fmt"
	"runtime"
	"unique"

	"strapline/calc/site"
	"strapline/store"
)

// replay makes the state from the log, as far as entry last; 0 is all of it. Entries
// are read beside the fold, on whatever processors there are, and folded in their order.
func replay(st *site.State, log *store.Log, last uint64) error {
	if end := log.LastSeq(); last == 0 || last > end {
		last = end
	}
	stop := make(chan struct{})
	defer close(stop)
	for part := range ahead(log, last, stop) {
		p := <-part
		for _, ev := range p.events {
			if err := st.Apply(ev); err != nil {
				return fmt.Errorf("%w: %w", store.ErrDamaged, err)
			}
		}
		if p.err != nil {
			return p.err
		}
	}
	return nil
}

// part is some entries of a log, up to one that cannot be read.
type part struct {
	events []site.Event
	err    error
}

// ahead reads the entries up to last in parts, a few of them at a time, until stop closes.
func ahead(log *store.Log, last uint64, stop <-chan struct{}) <-chan chan part {
	const size = 1000
	parts := make(chan chan part, runtime.GOMAXPROCS(0))
	go func() {
		defer close(parts)
		for from := uint64(1); from <= last; from += size {
			p := make(chan part, 1)
			select {
			case parts <- p:
			case <-stop:
				return
			}
			go func() { p <- readPart(log, from, min(last, from+size-1)) }()
		}
	}()
	return parts
}

func readPart(log *store.Log, from, to uint64) (p part) {
	p.events = make([]site.Event, 0, to-from+1)
	for rec, err := range log.Records(from) {
		if err != nil {
			return part{p.events, err}
		}
		ev, err := event(rec)
		switch {
		case errors.Is(err, site.ErrNewer):
			return part{p.events, fmt.Errorf("%w: entry %d: %w", store.ErrNewer, rec.Seq, err)}
		case err != nil:
			return part{p.events, fmt.Errorf("%w: entry %d: %w", store.ErrDamaged, rec.Seq, err)}
		}
		p.events = append(p.events, ev)
		if rec.Seq == to {
			break
		}
	}
	return p
}

// event is what a record says, cleaned.
func event(rec store.Record) (site.Event, error) {
	rec = cleaned(rec)
	body, err := site.Decode(rec.Kind, rec.V, rec.Body)
	return site.Event{Seq: rec.Seq, Who: unique.Make(rec.Who).Value(), Sent: rec.Sent, Got: rec.Got, ID: rec.ID, Text: rec.Text, Body: body}, err
}
