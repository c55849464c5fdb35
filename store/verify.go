package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
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
func examine(r io.ReaderAt, size int64, each func(bucket string, key, text []byte) error) *survey {
	s := &survey{}
	w := &walker{r: r, size: size}
	w.visit = func(bucket string, key, value []byte) {
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
			w.fault(err)
		}
	}
	w.run()
	if len(w.faults) == 0 {
		// Only the totals show what a lost page, or a wrong count on one, leaves out.
		switch {
		case !slices.Equal(w.found, buckets):
			w.damage("it has the parts %q, not %q", w.found, buckets)
		case s.format == 0:
			w.damage("it does not tell its format")
		case s.counted != s.totals:
			w.damage("it holds %v, not %v", s.counted, s.totals)
		}
	}
	s.faults, s.more = w.faults, w.more
	switch s.torn = w.torn != nil && len(w.faults) == 0; {
	case s.torn:
		s.faults = []error{fmt.Errorf("%w: %w", ErrTorn, w.torn)}
	case w.torn != nil: // there are worse faults
		s.faults = append(s.faults, fmt.Errorf("%w: %w", ErrDamaged, w.torn))
	}
	return s
}

// count counts a value, and checks that the log has no gap.
func (s *survey) count(w *walker, bucket string, key []byte) {
	switch bucket {
	case logBucket:
		if len(key) != 8 {
			w.damage("%s has no number", describe(bucket, key))
			return
		}
		seq, want := binary.BigEndian.Uint64(key), s.counted.Last+1
		switch {
		case seq == want+1:
			w.damage("entry %d is missing", want)
		case seq != want:
			w.damage("entries %d to %d are missing", want, seq-1)
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
	info, err := f.Stat()
	if err != nil {
		return totals{}, err
	}
	s := examine(f, info.Size(), nil)
	return s.totals, s.err()
}
