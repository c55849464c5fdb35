package store

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// recordLayout is the layout of records. The head is binary, and the JSON of the body is scanned only
// once, by the code that knows its meaning; opening a job is mostly reading records.
//
//	uvarint  seq
//	text     kind
//	varint   version of the body
//	text     who
//	varint   sent
//	varint   got
//	text     id
//	text     text
//	rest     JSON of the body; none is no body
//
// A text is its length, a uvarint, and its bytes. Older logs hold records of [jsonLayout], which are read
// too.
const recordLayout = 2

// layOut writes the record to buf in recordLayout.
func (r *Record) layOut(buf *bytes.Buffer) error {
	b := binary.AppendUvarint(buf.AvailableBuffer(), r.Seq)
	b = appendText(b, r.Kind)
	b = binary.AppendVarint(b, int64(r.V))
	b = appendText(b, r.Who)
	b = binary.AppendVarint(b, r.Sent)
	b = binary.AppendVarint(b, r.Got)
	b = appendText(b, r.ID)
	b = appendText(b, r.Text)
	buf.Write(b)
	if len(r.Body) == 0 {
		return nil
	}
	if err := json.Compact(buf, r.Body); err != nil {
		return fmt.Errorf("json: %w", err)
	}
	return nil
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

// read is the inverse of layOut. It does not check that the body is JSON.
func (r *Record) read(b []byte) error {
	c := front{rest: b}
	*r = Record{Seq: c.uint(), Kind: c.text(), V: int(c.int()), Who: c.text(), Sent: c.int(), Got: c.int(), ID: c.text(), Text: c.text()}
	if c.short {
		return errors.New("it ends in the middle")
	}
	if len(c.rest) > 0 {
		r.Body = bytes.Clone(c.rest)
	}
	return nil
}

// front reads values off the front of its bytes.
type front struct {
	rest  []byte
	short bool // the bytes ended too early
}

func (c *front) uint() uint64 {
	v, n := binary.Uvarint(c.rest)
	c.take(cmp.Or(n, -1))
	return v
}

func (c *front) int() int64 {
	v, n := binary.Varint(c.rest)
	c.take(cmp.Or(n, -1))
	return v
}

func (c *front) text() string {
	n := c.uint()
	return string(c.take(int(min(n, math.MaxInt32))))
}

// take returns the next n bytes, or none if n is negative or too large.
func (c *front) take(n int) []byte {
	if n < 0 || n > len(c.rest) {
		c.rest, c.short = nil, true
		return nil
	}
	b := c.rest[:n]
	c.rest = c.rest[n:]
	return b
}
