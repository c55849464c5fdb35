package store

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"unicode/utf8"

	"strapline/store/durable"
)

// line is one line of an export, with one field set. The first line is a header, the last one counts those
// in between.
type line struct {
	Header  *header         `json:"strapline,omitempty"`
	Record  json.RawMessage `json:"record,omitempty"`
	Receipt json.RawMessage `json:"receipt,omitempty"`
	Pending *Row            `json:"pending,omitempty"`
	Outbox  *Row            `json:"outbox,omitempty"`
	Mark    *Row            `json:"mark,omitempty"`
	End     *totals         `json:"end,omitempty"`
}

type header struct {
	Export int `json:"export"` // version of this format
}

const (
	exportFormat = 1
	maxLine      = 16 << 20 // bytes
)

// Export writes the job at path, which nobody may have open for writing, to w as lines of JSON. [Import]
// makes an equal job from them. If the file is damaged, Export writes what can still be read, and then
// returns the damage.
func Export(path string, w io.Writer) error {
	f, err := lockedFile(path, true)
	if err != nil {
		return err
	}
	defer f.Close()
	return export(f, path, w)
}

func export(f *os.File, path string, w io.Writer) error {
	if _, err := verify(f); errors.Is(err, ErrNewer) {
		return classify(path, err)
	}
	out := bufio.NewWriter(w) // sticky errors: Flush returns the first
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.Encode(line{Header: &header{exportFormat}})
	s, err := examine(f, func(bucket string, key, text []byte) error {
		if !json.Valid(text) {
			return fmt.Errorf("%w: %s is not JSON", ErrDamaged, describe(bucket, key))
		}
		if bucket != aboutBucket {
			enc.Encode(lineOf(bucket, key, text))
		}
		return nil
	})
	if err != nil {
		return classify(path, err)
	}
	enc.Encode(line{End: &s.counted})
	if err := out.Flush(); err != nil {
		return fmt.Errorf("export of %s: %w", path, err)
	}
	return classify(path, s.err())
}

// lineOf returns a value of a job as a line of its export.
func lineOf(bucket string, key, text []byte) (l line) {
	switch r := (&Row{string(key), text}); bucket {
	case logBucket:
		l.Record = text
	case receiptsBucket:
		l.Receipt = text
	case pendingBucket:
		l.Pending = r
	case outboxBucket:
		l.Outbox = r
	case marksBucket:
		l.Mark = r
	}
	return l
}

// Item is one thing that a job holds. One field is set.
type Item struct {
	Record                *Record
	Receipt               *Receipt
	Pending, Outbox, Mark *Row
}

// Row is a value with its key.
type Row struct {
	Key   string          `json:"key"`
	Value json.RawMessage `json:"value"`
}

// Valid returns what is wrong with the content of an item; this package checks only its form. Records are
// passed in order.
type Valid func(Item) error

// Import makes the job at path, which must not exist, from an export, and the folder if it is missing. It
// makes either the whole job or nothing. valid may be nil.
func Import(r io.Reader, path string, valid Valid) error {
	if err := durable.MakeDir(filepath.Dir(path)); err != nil {
		return classify(path, err)
	}
	return classify(path, durable.File(path, func(tmp string) error {
		if err := makeJob(tmp); err != nil {
			return err
		}
		l, err := Open(tmp)
		if err != nil {
			return err
		}
		l.db.Load().NoSync = true // durable.File syncs at the end
		if err := cmp.Or(l.load(r, valid), l.Close()); err != nil {
			return err
		}
		report, err := Check(tmp, nil)
		if err == nil && len(report.Faults) > 0 {
			err = errors.New(report.Faults[0])
		}
		return err
	}))
}

// load commits the lines of an export.
func (l *Log) load(r io.Reader, valid Valid) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	var n, last uint64 // number of the line, and of the last record before it
	bad := func(format string, args ...any) error {
		return fmt.Errorf("line %d: "+format, append([]any{n}, args...)...)
	}
	var b Batch
	var ended bool
	for lines.Scan() {
		n++
		var in line
		if !utf8.Valid(lines.Bytes()) {
			return bad("not a line of an export: text is not valid UTF-8")
		}
		if err := strict(lines.Bytes(), &in); err != nil {
			return bad("not a line of an export: %w", err)
		}
		switch {
		case (n == 1) != (in.Header != nil):
			return bad("an export has one header, in its first line")
		case in.Header != nil && in.Header.Export != exportFormat:
			return bad("%w: it is an export of version %d, this program knows %d", ErrNewer, in.Header.Export, exportFormat)
		case ended:
			return bad("an export ends with its end line")
		}
		item, err := in.item(strict)
		if err == nil && item.Record != nil {
			if item.Record.Seq != last+1 {
				return bad("entry %d cannot follow entry %d", item.Record.Seq, last)
			}
			last++
		}
		if err == nil && valid != nil && item != (Item{}) {
			err = valid(item)
		}
		if err != nil {
			return bad("%w", err)
		}
		b.add(item)
		ended = in.End != nil
		if ended || n%1000 == 0 {
			if err := l.commit(&b); err != nil {
				return bad("%w", err)
			}
			b = Batch{}
		}
		if ended && *in.End != l.totals {
			return bad("the export is not whole: %v of %v", l.totals, *in.End)
		}
		if t := l.totals; ended && t.Last+t.Receipts+t.Pending+t.Outbox+t.Marks != n-2 {
			return bad("a key stands in two lines")
		}
	}
	switch {
	case lines.Err() != nil:
		n++
		return bad("%w", lines.Err())
	case !ended:
		n++
		return bad("the export is cut off: it has no end line")
	}
	return nil
}

// item is the content of a line of an export.
func (in *line) item(read func(text []byte, v any) error) (it Item, err error) {
	it = Item{Pending: in.Pending, Outbox: in.Outbox, Mark: in.Mark}
	if in.Record != nil {
		it.Record = new(Record)
		err = read(in.Record, it.Record)
	}
	if in.Receipt != nil && err == nil {
		it.Receipt = new(Receipt)
		err = read(in.Receipt, it.Receipt)
	}
	return it, err
}

// add adds an item to the batch.
func (b *Batch) add(it Item) {
	put := func(rows *map[string]json.RawMessage, r *Row) {
		if r == nil {
			return
		}
		if *rows == nil {
			*rows = map[string]json.RawMessage{}
		}
		(*rows)[r.Key] = r.Value
	}
	put(&b.Pending, it.Pending)
	put(&b.Outbox, it.Outbox)
	put(&b.Marks, it.Mark)
	if it.Record != nil {
		b.Records = append(b.Records, *it.Record)
	}
	if it.Receipt != nil {
		b.Receipts = append(b.Receipts, *it.Receipt)
	}
}

// strict reads one JSON value and refuses unknown fields, because what is not understood must not be
// dropped.
func strict(text []byte, v any) error {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		return err
	}
	if _, err := dec.Token(); err != io.EOF {
		return errors.New("something follows the value")
	}
	return nil
}
