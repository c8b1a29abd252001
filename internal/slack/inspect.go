package slack

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strings"

	api "github.com/slack-go/slack"

	"crosslay/bot/chat"
)

// Scopes are what the app asks for; the manifest in config has the same.
var Scopes = []string{
	"app_mentions:read", "channels:history", "channels:read", "groups:history", "groups:read", "im:history", "im:read", "im:write",
	"chat:write", "reactions:read", "reactions:write", "files:read", "files:write", "users:read", "usergroups:read", "commands",
}

// Inspect asks Slack whether the app is let in, has its scopes, and can read and
// write every room, and says what is missing and what to do; nothing when all is
// well. It changes nothing and says nothing in any channel.
func Inspect(ctx context.Context, cfg Config, rooms []chat.Place) []string {
	b, err := New(cfg)
	if err != nil {
		return []string{err.Error() + "."}
	}
	who, err := b.who(ctx)
	if err != nil {
		return []string{b.shutOut(err)}
	}
	wrong := missing(strings.Split(who.Header.Get("X-OAuth-Scopes"), ","))
	if cfg.Listen == "" {
		if _, _, err := b.api.StartSocketModeContext(ctx); err != nil {
			wrong = append(wrong, b.noSocket(err))
		}
	}
	taken := map[string]string{} // by channel: the address that it has already
	for _, place := range rooms {
		id, what := b.inspect(ctx, place.Room)
		if other, twice := taken[id]; what == "" && twice {
			what = "it is the channel " + other + ", which has a room already"
		}
		taken[id] = place.Room
		if what != "" {
			wrong = append(wrong, fmt.Sprintf("Room %s: %s.", place.Room, what))
		}
	}
	return wrong
}

// shutOut says why Slack did not tell who the app is: the token is to blame only
// where Slack says so.
func (b *Backend) shutOut(err error) string {
	if !isVerdict(err) {
		return b.unreached(err)
	}
	return fmt.Sprintf("The bot token is not let in: %v.", b.plainly(answerOf(err)))
}

func (b *Backend) noSocket(err error) string {
	if !isVerdict(err) {
		return "Socket Mode: " + b.unreached(err)
	}
	return fmt.Sprintf("Socket Mode: %v. Switch it on in the app's settings, and give the app token the scope connections:write.",
		b.plainly(answerOf(err)))
}

// unreached says that nothing is known of the app, because Slack did not answer.
func (b *Backend) unreached(err error) string {
	var answer api.SlackErrorResponse
	if wait, ok := asked(err); ok {
		return fmt.Sprintf("Slack asks to wait %v; ask again then.", wait)
	}
	if errors.As(err, &answer) {
		return fmt.Sprintf("Slack is in trouble (%s); ask again later.", answer.Err)
	}
	var call *url.Error
	if errors.As(err, &call) {
		err = call.Err
	}
	return fmt.Sprintf("Slack could not be reached: %v. Look at this machine's network, its proxy, and the address in CROSSLAY_SLACK_URL if that is set.",
		b.plainly(err))
}

// isVerdict reports whether Slack has answered for good.
func isVerdict(err error) bool {
	var answer api.SlackErrorResponse
	return errors.As(err, &answer) && !slices.Contains(passing, answer.Err) && !slices.Contains(busy, answer.Err)
}

func missing(have []string) []string {
	var list []string
	for _, s := range Scopes {
		if !slices.ContainsFunc(have, func(h string) bool { return strings.TrimSpace(h) == s }) {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("The app lacks %s. Paste the manifest (crosslay slack --manifest) into the app's settings and install it again.",
		strings.Join(list, ", "))}
}

// inspect is the channel of a room, and what is missing there.
func (b *Backend) inspect(ctx context.Context, address string) (id, what string) {
	id, err := b.rooms.id(ctx, address)
	if err != nil {
		return "", b.plainly(err)
	}
	if err := b.pace.wait(ctx, "conversations.info", ""); err != nil {
		return id, b.plainly(err)
	}
	channel, err := b.api.GetConversationInfoContext(ctx, &api.GetConversationInfoInput{ChannelID: id})
	switch {
	case err != nil:
		return id, b.plainly(answerOf(err))
	case channel.IsArchived:
		return id, remedy["is_archived"]
	case !channel.IsMember:
		return id, "the app is not in the channel; invite it there: /invite @crosslay"
	}
	return id, ""
}

// plainly is an error as a sentence for the person who sets up, without its mark.
func (b *Backend) plainly(err error) string {
	return strings.TrimSuffix(b.cfg.Tokens.scrub(err).Error(), ": "+chat.ErrRefused.Error())
}
