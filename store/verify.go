package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"slices"

	"strapline/store/pages"
)

// survey is the result of walking a whole file.
type survey struct {
	totals  // as stored
	counted totals
	format  int // 0 until it is read
	faults  []error
	more    int  // faults found but not listed
	torn    bool // a head page is spoiled, and nothing else
}

// examine reads every value of the file, checks its sum and its place, and passes its JSON to each, which
// may be nil. The JSON is valid only during the call.
func examine(f *os.File, each func(bucket string, key, text []byte) error) (*survey, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	s := &survey{}
	var w *pages.Walk
	w = pages.New(f, info.Size(), func(bucket string, key, value []byte) {
		s.count(w, bucket, key)
		_, err := payload(bucket, key, value)
		if err == nil && bucket == aboutBucket {
			err = s.about(key, value)
		}
		if err == nil && each != nil {
			var text []byte
			if text, err = asJSON(bucket, key, value); err == nil {
				err = each(bucket, key, text)
			}
		}
		if err != nil {
			w.Fault(err)
		}
	})
	w.Run()
	if len(w.Faults) == 0 {
		// Only the totals show what a lost page, or a wrong count on one, leaves out.
		switch {
		case !slices.Equal(w.Buckets, buckets):
			w.Damage("it has the parts %q, not %q", w.Buckets, buckets)
		case s.format == 0:
			w.Damage("it does not tell its format")
		case s.counted != s.totals:
			w.Damage("it holds %v, not %v", s.counted, s.totals)
		}
	}
	s.faults, s.more = w.Faults, w.More
	switch s.torn = w.Torn != nil && len(w.Faults) == 0; {
	case s.torn:
		s.faults = []error{fmt.Errorf("%w: %w", ErrTorn, w.Torn)}
	case w.Torn != nil: // there are worse faults
		s.faults = append(s.faults, fmt.Errorf("%w: %w", ErrDamaged, w.Torn))
	}
	return s, nil
}

// count counts a value, and checks that the log has no gap.
func (s *survey) count(w *pages.Walk, bucket string, key []byte) {
	switch bucket {
	case logBucket:
		if len(key) != 8 {
			w.Damage("%s has no number", describe(bucket, key))
			return
		}
		seq, want := binary.BigEndian.Uint64(key), s.counted.Last+1
		switch {
		case seq == want+1:
			w.Damage("entry %d is missing", want)
		case seq != want:
			w.Damage("entries %d to %d are missing", want, seq-1)
		}
		s.counted.Last = seq
	case receiptsBucket:
		s.counted.Receipts++
	case pendingBucket:
		s.counted.Pending++
	case outboxBucket:
		s.counted.Outbox++
	case marksBucket:
		s.counted.Marks++
	}
}

func (s *survey) about(key, value []byte) error {
	switch string(key) {
	case string(formatKey):
		if err := decode(aboutBucket, key, value, &s.format); err != nil {
			return err
		}
		if s.format != fileFormat {
			return fmt.Errorf("%w: it has format %d, this program knows %d", ErrNewer, s.format, fileFormat)
		}
		return nil
	case string(totalsKey):
		return decode(aboutBucket, key, value, &s.totals)
	}
	return fmt.Errorf("%w: %s is unknown", ErrDamaged, describe(aboutBucket, key))
}

// err returns the fault that matters most: a newer file also looks damaged, and a cut-off one has other
// faults as well.
func (s *survey) err() error {
	for _, kind := range []error{ErrNewer, ErrCutOff} {
		if i := slices.IndexFunc(s.faults, func(err error) bool { return errors.Is(err, kind) }); i >= 0 {
			return s.faults[i]
		}
	}
	if len(s.faults) == 0 {
		return nil
	}
	return s.faults[0]
}

// verify returns what a file holds, or the fault for which it is refused.
func verify(f *os.File) (totals, error) {
	s, err := examine(f, nil)
	if err != nil {
		return totals{}, err
	}
	return s.totals, s.err()
}
