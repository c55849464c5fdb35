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

// recordLayout is how a record is laid out since opening a job is more than its
// reading: the JSON of the body is scanned once, by whoever knows what it means.
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
// A text is its length, a uvarint, and its bytes. Logs hold records of [jsonLayout]
// too, as they were once written.
const recordLayout = 2

// layOut writes the record to buf.
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

// read reads the record from what layOut wrote. Whether its body is JSON is not looked at.
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

// front takes what a record is made of off the front of its bytes.
type front struct {
	rest  []byte
	short bool // something was not there
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

// take takes n bytes; none are there when n is under 0.
func (c *front) take(n int) []byte {
	if n < 0 || n > len(c.rest) {
		c.rest, c.short = nil, true
		return nil
	}
	b := c.rest[:n]
	c.rest = c.rest[n:]
	return b
}
