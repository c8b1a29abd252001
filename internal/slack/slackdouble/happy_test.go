package slackdouble

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/slack-go/slack"
	"github.com/slack-go/slack/slackevents"
	"github.com/slack-go/slack/socketmode"
)

// app is a well-behaved client made of slack-go.
type app struct {
	w    *Workspace
	api  *slack.Client
	sock *socketmode.Client
}

func newApp(w *Workspace) *app {
	api := slack.New(w.BotToken, slack.OptionAppLevelToken(w.AppToken), slack.OptionAPIURL(w.URL()), slack.OptionHTTPClient(w.Client()))
	return &app{w: w, api: api, sock: socketmode.New(api, socketmode.OptionDialer(w.Dialer()))}
}

// run acknowledges everything and hands it on, until the context ends.
func (a *app) run(ctx context.Context) <-chan socketmode.Event {
	got := make(chan socketmode.Event, 100)
	go a.sock.RunContext(ctx)
	go func() {
		defer close(got)
		for {
			select {
			case e := <-a.sock.Events:
				if e.Request != nil && e.Request.EnvelopeID != "" {
					a.sock.Ack(*e.Request)
					got <- e
				}
			case <-ctx.Done():
				return
			}
		}
	}()
	return got
}

func clean(t *testing.T, w *Workspace) {
	t.Helper()
	for _, v := range w.Violations() {
		t.Errorf("violation: %v", v)
	}
}

// TestMorning: a client that keeps the rules does everything an app does, on the
// fake clock, and nothing is held against it.
func TestMorning(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := New(t, Options{InMemory: true})
		ines := w.AddUser("ines", "Ines Vega")
		station := w.AddChannel("station-1", ines)
		a := newApp(w)
		ctx, cancel := context.WithCancel(t.Context())
		got := a.run(ctx)
		synctest.Wait()

		ts := a.post(t, station, "", "Engine 1 <prompt> & more")
		if e := inner[slackevents.MessageEvent](t, <-got); e.BotID != w.BotID || e.TimeStamp != ts {
			t.Errorf("the app hears of its own post as %+v", e)
		}
		w.Say(ines, station, ts, "all good & <done> 👍🏽")
		e := inner[slackevents.MessageEvent](t, <-got)
		if e.Text != "all good &amp; &lt;done&gt; :+1::skin-tone-4:" || e.ThreadTimeStamp != ts || e.User != ines {
			t.Errorf("heard %+v", e)
		}
		w.React(ines, station, ts, "+1")
		if e := inner[slackevents.ReactionAddedEvent](t, <-got); e.Item.Timestamp != ts || e.Reaction != "+1" {
			t.Errorf("heard %+v", e)
		}
		a.tap(t, got, ines, station, ts)
		a.readBack(t, station, ts)
		a.picture(t, station, ts)
		cancel()
		synctest.Wait()
		clean(t, w)
	})
}

func (a *app) post(t *testing.T, channel, thread, text string) string {
	t.Helper()
	button := slack.NewButtonBlockElement("good", "all good", slack.NewTextBlockObject("plain_text", "All good", false, false))
	escaped := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text)
	opts := []slack.MsgOption{
		slack.MsgOptionText(escaped, false),
		slack.MsgOptionBlocks(
			slack.NewSectionBlock(slack.NewTextBlockObject("mrkdwn", escaped, false, false), nil, nil),
			slack.NewActionBlock("choices", button)),
		slack.MsgOptionMetadata(slack.SlackMetadata{EventType: "crosslay", EventPayload: map[string]any{"key": "prompt/E1"}}),
	}
	if thread != "" {
		opts = append(opts, slack.MsgOptionTS(thread))
	}
	_, ts, err := a.api.PostMessageContext(t.Context(), channel, opts...)
	if err != nil {
		t.Fatal(err)
	}
	return ts
}

func inner[T any](t *testing.T, e socketmode.Event) *T {
	t.Helper()
	outer, ok := e.Data.(slackevents.EventsAPIEvent)
	if !ok {
		t.Fatalf("not an event: %+v", e)
	}
	v, ok := outer.InnerEvent.Data.(*T)
	if !ok {
		t.Fatalf("event is %T", outer.InnerEvent.Data)
	}
	return v
}

func (a *app) tap(t *testing.T, got <-chan socketmode.Event, who, channel, ts string) {
	t.Helper()
	if err := a.w.Click(who, channel, ts, "All good"); err != nil {
		t.Fatal(err)
	}
	tap := (<-got).Data.(slack.InteractionCallback)
	if tap.ActionCallback.BlockActions[0].Value != "all good" || tap.Container.MessageTs != ts {
		t.Errorf("tapped %+v", tap)
	}
	view := slack.ModalViewRequest{
		Type: "modal", CallbackID: "checks", Title: slack.NewTextBlockObject("plain_text", "Engine 1", false, false),
		Submit: slack.NewTextBlockObject("plain_text", "Send", false, false),
		Blocks: slack.Blocks{BlockSet: []slack.Block{slack.NewInputBlock("fuel", slack.NewTextBlockObject("plain_text", "fuel", false, false), nil,
			slack.NewPlainTextInputBlockElement(nil, "v"))}},
	}
	opened, err := a.api.OpenViewContext(t.Context(), tap.TriggerID, view)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.w.SubmitView(who, opened.ID, nil); err == nil {
		t.Error("an empty input was sent")
	}
	if _, err := a.w.SubmitView(who, opened.ID, map[string]string{"fuel": "3/4"}); err != nil {
		t.Fatal(err)
	}
	sent := (<-got).Data.(slack.InteractionCallback)
	if sent.View.State.Values["fuel"]["v"].Value != "3/4" || len(a.w.Views(who)) != 0 {
		t.Errorf("sent %+v, views %v", sent.View.State, a.w.Views(who))
	}
	if _, err := a.w.Slash(who, channel, "status"); err != nil {
		t.Fatal(err)
	}
	if cmd := (<-got).Data.(slack.SlashCommand); cmd.Text != "status" || cmd.Command != "/crosslay" {
		t.Errorf("command %+v", cmd)
	}
}

func (a *app) readBack(t *testing.T, channel, ts string) {
	t.Helper()
	h, err := a.api.GetConversationHistoryContext(t.Context(), &slack.GetConversationHistoryParameters{ChannelID: channel, IncludeAllMetadata: true})
	if err != nil || len(h.Messages) != 1 || h.Messages[0].Metadata.EventPayload["key"] != "prompt/E1" {
		t.Fatalf("history %+v, %v", h, err)
	}
	if r := h.Messages[0].Reactions; len(r) != 1 || r[0].Name != "+1" {
		t.Errorf("reactions %+v", r)
	}
	list, _, _, err := a.api.GetConversationRepliesContext(t.Context(), &slack.GetConversationRepliesParameters{ChannelID: channel, Timestamp: ts})
	if err != nil || len(list) != 2 || list[0].ReplyCount != 1 {
		t.Errorf("replies %+v, %v", list, err)
	}
	if _, _, _, err := a.api.UpdateMessageContext(t.Context(), channel, ts, slack.MsgOptionText("done", false)); err != nil {
		t.Error(err)
	}
	if err := a.api.AddReactionContext(t.Context(), "white_check_mark", slack.NewRefToMessage(channel, ts)); err != nil {
		t.Error(err)
	}
	if _, err := a.api.AuthTestContext(t.Context()); err != nil {
		t.Error(err)
	}
	if u, err := a.api.GetUserInfoContext(t.Context(), a.w.users[1].id); err != nil || u.RealName != "Ines Vega" {
		t.Errorf("user %+v, %v", u, err)
	}
	info, err := a.api.GetConversationInfoContext(t.Context(), &slack.GetConversationInfoInput{ChannelID: channel})
	if err != nil || info.Name != "station-1" || !info.IsMember {
		t.Errorf("channel %+v, %v", info, err)
	}
	if _, _, err := a.api.GetConversationsContext(t.Context(), &slack.GetConversationsParameters{Types: []string{"public_channel", "private_channel"}, Limit: 200}); err != nil {
		t.Error(err)
	}
	if _, _, _, err := a.api.OpenConversationContext(t.Context(), &slack.OpenConversationParameters{Users: []string{a.w.users[1].id}}); err != nil {
		t.Error(err)
	}
}

func (a *app) picture(t *testing.T, channel, ts string) {
	t.Helper()
	data := []byte("\x89PNG not really")
	up, err := a.api.UploadFileContext(t.Context(), slack.UploadFileParameters{Filename: "board.png", FileSize: len(data), Reader: bytes.NewReader(data)})
	if err != nil {
		t.Fatal(err)
	}
	image := slack.NewImageBlockSlackFile(&slack.SlackFileObject{ID: up.ID}, "the board", "", nil)
	time.Sleep(time.Second)
	if _, _, err := a.api.PostMessageContext(t.Context(), channel, slack.MsgOptionText("the board", false), slack.MsgOptionBlocks(image), slack.MsgOptionTS(ts)); err != nil {
		t.Fatal(err)
	}
	info, _, _, err := a.api.GetFileInfoContext(t.Context(), up.ID, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := a.api.GetFileContext(t.Context(), info.URLPrivate, &b); err != nil || !bytes.Equal(b.Bytes(), data) {
		t.Errorf("downloaded %q, %v", b.Bytes(), err)
	}
}

func eventually(t *testing.T, cond func() bool) {
	t.Helper()
	for end := time.Now().Add(5 * time.Second); !cond(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it did not happen within 5 s")
		}
	}
}

// TestLoopback: the same over a port of this machine.
func TestLoopback(t *testing.T) {
	w := New(t, Options{})
	ines := w.AddUser("ines", "Ines Vega")
	station := w.AddChannel("station-1", ines)
	a := newApp(w)
	got := a.run(t.Context())
	eventually(t, func() bool { return w.Sockets() == 1 })
	w.Say(ines, station, "", "status")
	if e := inner[slackevents.MessageEvent](t, <-got); e.Text != "status" {
		t.Errorf("heard %+v", e)
	}
	a.post(t, station, "", "ok")
	clean(t, w)
	if raw, _ := json.Marshal(w.Posted()); !bytes.Contains(raw, []byte("prompt/E1")) {
		t.Errorf("posted %s", raw)
	}
}
