package job

import (
	"bytes"
	"encoding/json"
	"strapline/bot/message"
	"strapline/store"
)

// cleaned returns the record with clean text, including the text in its body.
func cleaned(rec store.Record) store.Record {
	rec.Who, rec.Text = message.Clean(rec.Who), message.Clean(rec.Text)
	if (message.Ordinary(rec.Body) || !bytes.ContainsFunc(rec.Body, message.Hostile)) && !bytes.Contains(rec.Body, []byte(`\u`)) {
		return rec
	}
	dec := json.NewDecoder(bytes.NewReader(rec.Body))
	dec.UseNumber()
	var v any
	if dec.Decode(&v) != nil {
		return rec // the fold will refuse it
	}
	var dirty bool
	v = cleanedValue(v, &dirty)
	if body, err := json.Marshal(v); dirty && err == nil {
		rec.Body = body
	}
	return rec
}

func cleanedValue(v any, dirty *bool) any {
	switch v := v.(type) {
	case string:
		c := message.Clean(v)
		*dirty = *dirty || c != v
		return c
	case []any:
		for i := range v {
			v[i] = cleanedValue(v[i], dirty)
		}
	case map[string]any:
		for k := range v {
			v[k] = cleanedValue(v[k], dirty)
		}
	}
	return v
}
