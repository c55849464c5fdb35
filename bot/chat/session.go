package chat

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"strapline/bot/backoff"
	"strapline/bot/chat/server"
)

const (
	checkEvery = time.Minute      // between requests, since the socket does not show that the token is refused
	listEvery  = 10 * time.Minute // between lists of the channels, in case an event was missed
)

// session opens a connection and serves it until it breaks.
func (d *door) session(ctx context.Context) error {
	ctx, end := context.WithCancel(ctx)
	defer end()
	ws, hang, err := d.Connect(ctx)
	if err != nil {
		return err
	}
	defer hang()
	d.stats.connects.Add(1)
	d.stats.up.Store(true)
	defer d.stats.up.Store(false)
	d.behind()
	poke(d.relist)
	var wg sync.WaitGroup
	defer wg.Wait()
	defer end()
	wg.Go(func() { d.look(ctx) })
	return d.listen(ctx, ws)
}

// listen passes events on until the connection breaks. It never blocks on anything else,
// because the server disconnects a slow reader.
func (d *door) listen(ctx context.Context, ws *model.WebSocketClient) error {
	next := int64(1)
	for {
		select {
		case ev, ok := <-ws.EventChannel:
			if !ok {
				return fmt.Errorf("the connection broke: %s", d.Clean(fmt.Sprint(ws.ListenError)))
			}
			seq := ev.GetSequence()
			if seq > next {
				d.Log.Warn("events are missing", "from", next, "to", seq-1)
				d.behind()
			}
			next = max(next, seq+1)
			d.event(ev)
		case <-ws.ResponseChannel:
		case <-ws.PingTimeoutChannel:
			return errors.New("the server does not ping any more")
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

func (d *door) event(ev *model.WebSocketEvent) {
	data := ev.GetData()
	switch ev.EventType() {
	case model.WebsocketEventPosted, model.WebsocketEventPostEdited, model.WebsocketEventPostDeleted:
		text, _ := data["post"].(string)
		var p model.Post
		if err := json.Unmarshal([]byte(text), &p); err != nil {
			d.Log.Warn("an event cannot be read", "event", ev.EventType(), "err", d.Clean(err.Error()))
			d.behind()
			return
		}
		if ev.EventType() == model.WebsocketEventPostEdited && p.EditAt == 0 {
			return // not an edit of the text, but a pin or the like
		}
		d.mu.Lock()
		c := d.channels[p.ChannelId]
		d.mu.Unlock()
		if c == nil {
			poke(d.relist) // the post is fetched once the channel is open
			return
		}
		c.push(&p, ev.EventType() == model.WebsocketEventPostDeleted)
	case model.WebsocketEventUserAdded, model.WebsocketEventUserRemoved:
		if who, ok := data["user_id"].(string); !ok || who == d.Me.Id {
			poke(d.relist)
		}
	case model.WebsocketEventDirectAdded, model.WebsocketEventGroupAdded, model.WebsocketEventChannelDeleted,
		model.WebsocketEventChannelRestored, model.WebsocketEventAddedToTeam, model.WebsocketEventLeaveTeam:
		poke(d.relist)
	}
}

// behind notes for every channel that events may have been missed.
func (d *door) behind() {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, c := range d.channels {
		c.fallBehind()
	}
}

// look lists the channels when that is requested or due, and makes a request every
// checkEvery to notice a refused token.
func (d *door) look(ctx context.Context) {
	every := time.NewTicker(checkEvery)
	defer every.Stop()
	listed := time.Now()
	again := backoff.Retry{Pace: d.Cfg.Pace}
	for {
		select {
		case <-d.relist:
			if err := d.list(ctx); err != nil {
				if ctx.Err() != nil {
					return
				}
				d.Log.Warn("the channels cannot be listed", "err", err)
				poke(d.relist)
				backoff.Sleep(ctx, again.Next())
				continue
			}
			again.Reset()
			listed = time.Now()
		case <-every.C:
			if time.Since(listed) > listEvery {
				poke(d.relist)
			} else if _, err := d.Self(ctx); err != nil && ctx.Err() == nil {
				d.Log.Warn("the chat server does not answer", "err", err)
			}
		case <-ctx.Done():
			return
		}
	}
}

// list opens new channels, and stops serving those that the account is no longer a member
// of. Direct and group messages are listed under every team.
func (d *door) list(ctx context.Context) error {
	teams, err := server.Call(ctx, d.Server, func(ctx context.Context) ([]*model.Team, *model.Response, error) {
		return d.API.GetTeamsForUser(ctx, "me", "")
	})
	if err != nil {
		return err
	}
	if len(teams) == 0 {
		d.Log.Warn("the account is in no team, so it has no channels")
	}
	listed := map[string]bool{}
	for _, team := range teams {
		d.mu.Lock()
		d.team = cmp.Or(d.team, team.Name)
		d.mu.Unlock()
		all, err := server.Call(ctx, d.Server, func(ctx context.Context) ([]*model.Channel, *model.Response, error) {
			return d.API.GetChannelsForTeamForUser(ctx, team.Id, d.Me.Id, false, "")
		})
		if err != nil {
			return err
		}
		for _, ch := range all {
			if !listed[ch.Id] {
				listed[ch.Id] = true
				d.open(team, ch)
			}
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	for id, c := range d.channels {
		c.setMember(listed[id])
	}
	return nil
}
