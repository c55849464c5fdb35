package chat

import (
	"time"

	"strapline/bot/backoff"
	"strapline/bot/chat/server"
)

// Hurried returns cfg with short waits between tries, for tests in real time.
func Hurried(cfg server.Config) server.Config {
	cfg.Pace = backoff.Pace{First: 5 * time.Millisecond, Most: 200 * time.Millisecond}
	return cfg
}
