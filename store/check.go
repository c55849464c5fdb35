package store

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Report is what [Check] found in a file.
type Report struct {
	LastSeq uint64   // of the last record that can be reached
	Faults  []string // in plain words; none if the file is sound
}

// Check reads all of the job at path, which nobody may have open for writing. An error means that it could
// not read the file; faults in the content are in the report. valid may be nil.
func Check(path string, valid Valid) (Report, error) {
	f, err := lockedFile(path, true)
	if err != nil {
		return Report{}, err
	}
	defer f.Close()
	x := crossCheck{valid: valid}
	s, err := examine(f, x.add)
	if err != nil {
		return Report{}, classify(path, err)
	}
	faults := s.faults
	if len(faults) == 0 {
		faults = x.faults()
	}
	r := Report{LastSeq: s.counted.Last}
	for _, fault := range faults {
		r.Faults = append(r.Faults, strings.TrimPrefix(fault.Error(), ErrDamaged.Error()+": "))
	}
	if s.more > 0 {
		r.Faults = append(r.Faults, fmt.Sprintf("and %d more", s.more))
	}
	return r, nil
}

// crossCheck compares records with receipts.
type crossCheck struct {
	valid    Valid
	ids      map[string][]uint64 // by message id, the records it made
	last     uint64
	receipts []Receipt
}

func (x *crossCheck) add(bucket string, key, text []byte) error {
	l := lineOf(bucket, key, text)
	it, err := l.item(json.Unmarshal)
	if err == nil && !json.Valid(text) {
		err = errors.New("it is not JSON")
	}
	if err != nil {
		return fmt.Errorf("%w: %s cannot be read: %w", ErrDamaged, describe(bucket, key), err)
	}
	if x.valid != nil && bucket != aboutBucket {
		if err := x.valid(it); err != nil {
			return fmt.Errorf("%w: %s: %w", ErrDamaged, describe(bucket, key), err)
		}
	}
	switch bucket {
	case logBucket:
		if x.last = binary.BigEndian.Uint64(key); it.Record.Seq != x.last {
			return fmt.Errorf("%w: entry %d calls itself %d", ErrDamaged, x.last, it.Record.Seq)
		}
		if id := it.Record.ID; id != "" {
			if x.ids == nil {
				x.ids = map[string][]uint64{}
			}
			x.ids[id] = append(x.ids[id], x.last)
		}
	case receiptsBucket:
		if it.Receipt.ID != string(key) {
			return fmt.Errorf("%w: %s calls itself %q", ErrDamaged, describe(bucket, key), it.Receipt.ID)
		}
		it.Receipt.Reply = nil
		x.receipts = append(x.receipts, *it.Receipt)
	}
	return nil
}

// faults lists receipts that name missing records, and message ids of records that their receipt does not
// name.
func (x *crossCheck) faults() (faults []error) {
	known := map[string][]uint64{}
	for _, r := range x.receipts {
		known[r.ID] = r.Seqs
		for _, seq := range r.Seqs {
			if seq == 0 || seq > x.last {
				faults = append(faults, fmt.Errorf("%s names entry %d, which is missing", describe(receiptsBucket, []byte(r.ID)), seq))
			}
		}
	}
	for id, seqs := range x.ids {
		if len(seqs) == 1 && known[id] == nil {
			continue
		}
		for _, seq := range seqs {
			if !slices.Contains(known[id], seq) {
				faults = append(faults, fmt.Errorf("message id %q is used again by entry %d", id, seq))
			}
		}
	}
	slices.SortFunc(faults, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
	return faults
}
