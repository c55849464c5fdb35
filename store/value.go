package store

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/crc32"
)

// Buckets. about sorts first: its format is read before anything else.
const (
	aboutBucket    = "about"
	logBucket      = "log"
	marksBucket    = "marks"
	outboxBucket   = "outbox"
	pendingBucket  = "pending"
	receiptsBucket = "receipts"
)

var buckets = []string{aboutBucket, logBucket, marksBucket, outboxBucket, pendingBucket, receiptsBucket}

const (
	fileFormat = 1 // about/format
	jsonLayout = 1 // the byte after the sum
	prefix     = 5 // bytes before the content
)

var (
	formatKey = []byte("format")
	totalsKey = []byte("totals")

	castagnoli = crc32.MakeTable(crc32.Castagnoli)
)

// totals counts what the buckets hold. It shows when a page has lost entries, which no checksum of a value
// can.
type totals struct {
	Last     uint64 `json:"last"` // seq of the last record, 0 for none
	Receipts uint64 `json:"receipts"`
	Pending  uint64 `json:"pending"`
	Outbox   uint64 `json:"outbox"`
	Marks    uint64 `json:"marks"`
}

func (t totals) String() string {
	return fmt.Sprintf("%d entries, %d receipts, %d open questions, %d outbox rows, %d marks",
		t.Last, t.Receipts, t.Pending, t.Outbox, t.Marks)
}

func seqKey(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// encode returns v as a stored value of bucket under key.
func encode(bucket string, key []byte, v any) ([]byte, error) {
	var buf bytes.Buffer
	buf.Grow(512)
	var err error
	if r, ok := v.(*Record); ok {
		buf.Write([]byte{0, 0, 0, 0, recordLayout})
		err = r.layOut(&buf)
	} else {
		buf.Write([]byte{0, 0, 0, 0, jsonLayout})
		err = writeJSON(&buf, v)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", describe(bucket, key), err)
	}
	resum(bucket, key, buf.Bytes())
	return buf.Bytes(), nil
}

func writeJSON(buf *bytes.Buffer, v any) error {
	enc := json.NewEncoder(buf)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	if err == nil {
		buf.Truncate(buf.Len() - 1) // the newline that Encode adds
	}
	return err
}

// resum puts the sum in front of a value.
func resum(bucket string, key, value []byte) {
	binary.BigEndian.PutUint32(value, sum(bucket, key, value[4:]))
}

func sum(bucket string, key, rest []byte) uint32 {
	crc := crc32.Checksum([]byte(bucket), castagnoli)
	crc = crc32.Update(crc, castagnoli, key)
	return crc32.Update(crc, castagnoli, rest)
}

// payload checks a stored value and returns its content, which aliases value.
func payload(bucket string, key, value []byte) ([]byte, error) {
	if len(value) < prefix || binary.BigEndian.Uint32(value) != sum(bucket, key, value[4:]) {
		return nil, fmt.Errorf("%w: %s does not match its checksum", ErrDamaged, describe(bucket, key))
	}
	known := byte(jsonLayout)
	if bucket == logBucket {
		known = recordLayout
	}
	if value[4] < jsonLayout || value[4] > known {
		return nil, fmt.Errorf("%w: %s has layout %d, this program knows %d", ErrNewer, describe(bucket, key), value[4], known)
	}
	return value[prefix:], nil
}

// decode checks a stored value and reads it into v, which must be a *Record in the log.
func decode(bucket string, key, value []byte, v any) error {
	rest, err := payload(bucket, key, value)
	if err != nil {
		return err
	}
	if value[4] == recordLayout {
		err = v.(*Record).read(rest)
	} else {
		err = json.Unmarshal(rest, v)
	}
	if err != nil {
		return fmt.Errorf("%w: %s cannot be read: %w", ErrDamaged, describe(bucket, key), err)
	}
	return nil
}

// asJSON returns the content of a checked value as JSON.
func asJSON(bucket string, key, value []byte) ([]byte, error) {
	if value[4] != recordLayout {
		return value[prefix:], nil
	}
	var r Record
	var buf bytes.Buffer
	err := r.read(value[prefix:])
	if err == nil {
		err = writeJSON(&buf, &r)
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %s cannot be read: %w", ErrDamaged, describe(bucket, key), err)
	}
	return buf.Bytes(), nil
}

// describe names a value in words.
func describe(bucket string, key []byte) string {
	switch bucket {
	case logBucket:
		if len(key) == 8 {
			return fmt.Sprintf("entry %d", binary.BigEndian.Uint64(key))
		}
		return fmt.Sprintf("entry %x", key)
	case receiptsBucket:
		return fmt.Sprintf("the receipt of message %q", key)
	case pendingBucket:
		return fmt.Sprintf("open question %q", key)
	case outboxBucket:
		return fmt.Sprintf("outbox row %q", key)
	case marksBucket:
		return fmt.Sprintf("mark %q", key)
	}
	return fmt.Sprintf("%q in %q", key, bucket)
}
