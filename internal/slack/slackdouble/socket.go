package slackdouble

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/gorilla/websocket"
)

type ticket struct {
	born time.Time
	used bool
}

// ticketLife is how long a socket address is good. MEMORY: the figure.
const ticketLife = 30 * time.Second

// most is how many sockets an app may have.
const most = 10

var upgrader = websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}

// socket is one Socket Mode connection.
type socket struct {
	w      *Workspace
	conn   *websocket.Conn
	out    chan []byte
	done   chan struct{}
	closed bool
	sent   map[string]*sent
	pings  int // without an answer
}

type sent struct {
	d      *delivery
	acked  bool
	missed bool // went on its way again
	late   *time.Timer
}

func (c *call) openConnection() (object, error) {
	id := secret(32)
	c.tickets[id] = &ticket{born: time.Now()}
	return object{"url": "ws://" + c.addr + "/link/?ticket=" + id + "&app_id=" + c.AppID}, nil
}

// connect turns a ticket into a socket.
func (w *Workspace) connect(rw http.ResponseWriter, r *http.Request) {
	w.mu.Lock()
	t := w.tickets[r.URL.Query().Get("ticket")]
	good := t != nil && !t.used && time.Since(t.born) <= ticketLife
	if t != nil {
		t.used = true
	}
	w.mu.Unlock()
	if !good {
		w.blame(TicketUsed, "socket", "a socket address is good once, within %v", ticketLife)
		http.Error(rw, "invalid ticket", http.StatusForbidden)
		return
	}
	conn, err := upgrader.Upgrade(rw, r, nil)
	if err != nil {
		return // the upgrader has answered
	}
	s := &socket{w: w, conn: conn, out: make(chan []byte, 1024), done: make(chan struct{}), sent: map[string]*sent{}}
	go s.write()
	s.greet()
	s.read()
}

func (s *socket) greet() {
	w := s.w
	w.mu.Lock()
	defer w.mu.Unlock()
	w.sockets = append(w.sockets, s)
	if w.linkOff || w.closed {
		s.disconnect(LinkDisabled)
		return
	}
	s.put(object{
		"type": "hello", "num_connections": len(w.sockets), "connection_info": object{"app_id": w.AppID},
		"debug_info": object{"host": "applink-1", "build_number": 1, "approximate_connection_time": 18060},
	})
	if len(w.sockets) > most {
		s.disconnect(TooMany) // MEMORY: the reason
	}
}

// put queues a frame; the workspace is locked.
func (s *socket) put(o object) { s.putRaw(encode(o)) }

func (s *socket) putRaw(frame []byte) {
	if s.closed {
		return
	}
	select {
	case s.out <- frame:
	default:
		s.shut() // a client that reads nothing
	}
}

// write sends frames and pings until the socket is shut.
func (s *socket) write() {
	ping := time.NewTicker(s.w.opts.PingEvery)
	defer ping.Stop()
	defer s.conn.Close()
	deadline := func() { s.conn.SetWriteDeadline(time.Now().Add(5 * time.Second)) }
	for {
		select {
		case frame := <-s.out:
			deadline()
			if s.conn.WriteMessage(websocket.TextMessage, frame) != nil {
				return
			}
		case <-ping.C:
			if !s.ping() {
				return
			}
		case <-s.done:
			deadline()
			s.drain()
			return
		}
	}
}

// drain sends what was queued before the socket was shut.
func (s *socket) drain() {
	for {
		select {
		case frame := <-s.out:
			if s.conn.WriteMessage(websocket.TextMessage, frame) != nil {
				return
			}
		default:
			return
		}
	}
}

// ping asks for a sign of life; two that were not answered end the connection.
func (s *socket) ping() bool {
	s.w.mu.Lock()
	s.pings++
	n := s.pings
	s.w.mu.Unlock()
	if n > 2 {
		s.w.blame(PongMissing, "socket", "two pings were not answered")
		return false
	}
	return s.conn.WriteControl(websocket.PingMessage, []byte("ping"), time.Now().Add(time.Second)) == nil
}

func (s *socket) read() {
	s.conn.SetPongHandler(func(string) error {
		s.w.mu.Lock()
		s.pings = 0
		s.w.mu.Unlock()
		return nil
	})
	for {
		_, frame, err := s.conn.ReadMessage()
		if err != nil {
			break
		}
		s.heard(frame)
	}
	s.w.mu.Lock()
	defer s.w.mu.Unlock()
	s.shut()
}

// heard takes an acknowledgement.
func (s *socket) heard(frame []byte) {
	var ack struct {
		EnvelopeID string          `json:"envelope_id"`
		Payload    json.RawMessage `json:"payload"`
	}
	if json.Unmarshal(frame, &ack) != nil || ack.EnvelopeID == "" {
		s.w.blame(SocketJunk, "socket", "a frame without envelope_id: %s", clip(s.w.scrub(string(frame))))
		return
	}
	s.w.mu.Lock()
	defer s.w.mu.Unlock()
	e := s.sent[ack.EnvelopeID]
	switch {
	case e == nil:
		s.w.blame(AckUnknown, "socket", "envelope %s was not sent on this socket", clip(ack.EnvelopeID))
		return
	case e.acked:
		s.w.blame(AckTwice, "socket", "envelope %s of %s", ack.EnvelopeID, e.d.kind)
		return
	}
	e.acked = true
	e.late.Stop()
	if e.missed {
		return // too late; that was noted when the time was over
	}
	e.d.done = true
	payload := ack.Payload
	if len(payload) > 0 && string(payload) != "null" && string(payload) != "{}" && !e.d.accepts {
		s.w.blame(AckPayload, "socket", "an answer to %s, which takes none", e.d.kind)
		payload = nil
	}
	if e.d.answer != nil {
		e.d.answer(payload)
	}
}

// deliver sends an envelope and waits for its acknowledgement.
func (s *socket) deliver(d *delivery) {
	id := uuid()
	envelope := object{
		"type": d.kind, "envelope_id": id, "payload": json.RawMessage(d.payload), "accepts_response_payload": d.accepts,
	}
	if d.kind == "events_api" {
		envelope["retry_attempt"], envelope["retry_reason"] = d.tries, d.reason
	}
	e := &sent{d: d}
	e.late = time.AfterFunc(s.w.opts.AckWithin, func() {
		s.w.mu.Lock()
		defer s.w.mu.Unlock()
		if !e.acked && !e.missed {
			e.missed = true
			s.w.blame(AckLate, "socket", "%s was not acknowledged within %v", d.kind, s.w.opts.AckWithin)
			s.w.missed(d, "timeout")
		}
	})
	s.sent[id] = e
	s.put(envelope)
}

// shut takes a socket out; what it had not acknowledged goes on its way again.
func (s *socket) shut() {
	if s.closed {
		return
	}
	s.closed = true
	close(s.done)
	s.w.sockets = slices.DeleteFunc(s.w.sockets, func(o *socket) bool { return o == s })
	var open []*delivery
	for _, e := range s.sent {
		if !e.acked && !e.missed {
			e.missed = true
			e.late.Stop()
			open = append(open, e.d)
		}
	}
	slices.SortFunc(open, func(a, b *delivery) int { return strings.Compare(a.id, b.id) })
	for _, d := range open {
		s.w.missed(d, "timeout")
	}
}

// disconnect says why, and cuts.
func (s *socket) disconnect(reason string) {
	s.put(goodbye(reason))
	s.shut()
}

// warn says that the socket will end soon, and ends it.
func (s *socket) warn() {
	s.put(goodbye(Warning))
	time.AfterFunc(10*time.Second, func() {
		s.w.mu.Lock()
		defer s.w.mu.Unlock()
		s.disconnect(RefreshRequested)
	})
}

func goodbye(reason string) object {
	return object{"type": "disconnect", "reason": reason, "debug_info": object{"host": "applink-1"}}
}

// nextSocket takes turns: Slack may send an event on any of an app's sockets.
func (w *Workspace) nextSocket() *socket {
	if len(w.sockets) == 0 {
		return nil
	}
	w.turn++
	return w.sockets[w.turn%len(w.sockets)]
}
