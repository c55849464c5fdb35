package job

import (
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"unique"

	"strapline/bot/ledger"
	"strapline/bot/message"
	"strapline/calc/event"
	"strapline/calc/site"
	"strapline/store"
)

// replay folds the log into the state, up to entry last; 0 means all of it. Entries are decoded on all
// processors, and folded in order.
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

// part is a range of the log's entries, up to the first that cannot be read.
type part struct {
	events []event.Event
	err    error
}

// ahead decodes the entries up to last in parts, a few at a time, until stop is closed.
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
	p.events = make([]event.Event, 0, to-from+1)
	for rec, err := range log.Records(from) {
		if err != nil {
			return part{p.events, err}
		}
		ev, err := decoded(rec)
		switch {
		case errors.Is(err, event.ErrNewer):
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

// decoded returns the event of a record, cleaned.
func decoded(rec store.Record) (event.Event, error) {
	rec = cleaned(rec)
	body, err := event.Decode(rec.Kind, rec.V, rec.Body)
	return event.Event{Seq: rec.Seq, Who: unique.Make(rec.Who).Value(), Sent: rec.Sent, Text: rec.Text, Body: body}, err
}

// Valid returns the check for items of an import or a check, the same as for opening a job. It also cleans
// them.
func Valid() store.Valid {
	st := site.New()
	return func(it store.Item) error {
		switch {
		case it.Record != nil:
			*it.Record = cleaned(*it.Record)
			ev, err := decoded(*it.Record)
			if err != nil || ev.Seq != uint64(len(st.Entries))+1 { // an earlier record is missing, which is reported already
				return err
			}
			return st.Apply(ev)
		case it.Receipt != nil && len(it.Receipt.Reply) > 0:
			return json.Unmarshal(it.Receipt.Reply, new(message.Out))
		case it.Pending != nil:
			_, err := ledger.Remember(map[string]json.RawMessage{it.Pending.Key: it.Pending.Value}, nil)
			return err
		case it.Outbox != nil:
			return json.Unmarshal(it.Outbox.Value, new(message.Parcel))
		case it.Mark != nil:
			_, err := ledger.Remember(nil, map[string]json.RawMessage{it.Mark.Key: it.Mark.Value})
			return err
		}
		return nil
	}
}
