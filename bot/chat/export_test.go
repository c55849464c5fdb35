package chat

import (
	"time"

	"strapline/bot/backoff"
)

// Hurried returns cfg with short waits between tries, for tests in real time.
func Hurried(cfg Config) Config {
	cfg.pace = backoff.Pace{First: 5 * time.Millisecond, Most: 200 * time.Millisecond}
	return cfg
}
