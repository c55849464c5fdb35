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
	fileFormat  = 1 // about/format
	valueLayout = 1 // the byte behind the sum
	prefix      = 5 // bytes in front of the JSON
)

var (
	formatKey = []byte("format")
	totalsKey = []byte("totals")

	castagnoli = crc32.MakeTable(crc32.Castagnoli)
)

// totals tells how much the buckets hold. A page that lost entries, which no sum
// in a value can show, disagrees with it.
type totals struct {
	Last     uint64 `json:"last"` // seq of the last record, 0 for none
	Receipts uint64 `json:"receipts"`
	Pending  uint64 `json:"pending"`
	Outbox   uint64 `json:"outbox"`
	Marks    uint64 `json:"marks"`
}

func (t totals) sum() uint64 { return t.Last + t.Receipts + t.Pending + t.Outbox + t.Marks }

func (t totals) String() string {
	return fmt.Sprintf("%d entries, %d receipts, %d open questions, %d outbox rows, %d marks",
		t.Last, t.Receipts, t.Pending, t.Outbox, t.Marks)
}

func seqKey(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// encode lays v out as a value of bucket under key.
func encode(bucket string, key []byte, v any) ([]byte, error) {
	var buf bytes.Buffer
	buf.Grow(512)
	buf.Write([]byte{0, 0, 0, 0, valueLayout})
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, fmt.Errorf("%s: %w", describe(bucket, key), err)
	}
	value := bytes.TrimSuffix(buf.Bytes(), []byte("\n"))
	binary.BigEndian.PutUint32(value, sum(bucket, key, value[4:]))
	return value, nil
}

func sum(bucket string, key, rest []byte) uint32 {
	crc := crc32.Checksum([]byte(bucket), castagnoli)
	crc = crc32.Update(crc, castagnoli, key)
	return crc32.Update(crc, castagnoli, rest)
}

// payload checks a stored value and returns its JSON, which aliases value.
func payload(bucket string, key, value []byte) ([]byte, error) {
	if len(value) < prefix || binary.BigEndian.Uint32(value) != sum(bucket, key, value[4:]) {
		return nil, fmt.Errorf("%w: %s does not match its checksum", ErrDamaged, describe(bucket, key))
	}
	if value[4] != valueLayout {
		return nil, fmt.Errorf("%w: %s has layout %d, this program knows %d", ErrNewer, describe(bucket, key), value[4], valueLayout)
	}
	return value[prefix:], nil
}

// decode checks a stored value and reads its JSON into v.
func decode(bucket string, key, value []byte, v any) error {
	text, err := payload(bucket, key, value)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, v); err != nil {
		return fmt.Errorf("%w: %s cannot be read: %w", ErrDamaged, describe(bucket, key), err)
	}
	return nil
}

// describe names a value for a person.
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
