package server

import (
	"context"
	"errors"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
	"github.com/mattermost/mattermost/server/public/model"
)

// helloTime is the wait for hello on an open socket.
const helloTime = 15 * time.Second

// Connect finds out who the account is and opens the socket, up to the server's hello.
func (d *Server) Connect(ctx context.Context) (ws *model.WebSocketClient, hang func(), err error) {
	me, err := d.Self(ctx)
	if err != nil {
		return nil, nil, err
	}
	if d.Me == nil {
		d.Me = me
		d.accepted.Store(true)
		d.Log.Info("chat account", "name", me.Username, "id", me.Id)
	}
	if ws, hang, err = d.dial(ctx); err != nil {
		return nil, nil, err
	}
	ws.Listen()
	if err = hello(ctx, ws); err != nil {
		hang()
		return nil, nil, err
	}
	return ws, hang, nil
}

func (d *Server) Self(ctx context.Context) (*model.User, error) {
	return Call(ctx, d, d.whoAmI)
}

func (d *Server) whoAmI(ctx context.Context) (*model.User, *model.Response, error) {
	return d.API.GetMe(ctx, "")
}

// dial opens the socket. hang closes it and waits until the client has stopped. It closes
// the underlying connection, because the client's own Close may panic during a ping.
func (d *Server) dial(ctx context.Context) (ws *model.WebSocketClient, hang func(), err error) {
	var stops []func() bool
	dialer := &websocket.Dialer{
		Proxy: http.ProxyFromEnvironment, HandshakeTimeout: helloTime,
		NetDialContext: func(_ context.Context, network, addr string) (net.Conn, error) {
			conn, err := d.Cfg.Dial(ctx, network, addr)
			if err == nil {
				stops = append(stops, context.AfterFunc(ctx, func() { _ = conn.Close() }))
			}
			return conn, err
		},
	}
	ws, err = model.NewWebSocketClientWithDialer(dialer, "ws"+strings.TrimPrefix(d.API.URL, "http"), d.Cfg.Token)
	if err != nil {
		return nil, nil, errors.New(d.Clean(err.Error()))
	}
	return ws, func() {
		for _, stop := range stops {
			stop()
		}
		_ = ws.Conn.Close()
		var wg sync.WaitGroup
		wg.Go(func() {
			for range ws.ResponseChannel {
			}
		})
		for range ws.EventChannel {
		}
		wg.Wait()
	}, nil
}

// hello waits until the server has accepted the token. If it does not, it hangs up, and the
// next request shows whether the token was the reason.
func hello(ctx context.Context, ws *model.WebSocketClient) error {
	late := time.NewTimer(helloTime)
	defer late.Stop()
	for {
		select {
		case ev, ok := <-ws.EventChannel:
			if !ok {
				return errors.New("the server hung up before it said hello")
			}
			if ev.EventType() == model.WebsocketEventHello {
				return nil
			}
		case <-ws.ResponseChannel:
		case <-late.C:
			return errors.New("the server said no hello")
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}
