package chat

import (
	"errors"
	"fmt"
	"time"
)

// ErrUnsure is returned, wrapped, by a backend that cannot tell whether a message
// arrived: the connection broke after it was handed over. The sender then looks
// it up by key, or repeats it where repeating is harmless.
var ErrUnsure = errors.New("it is not known whether the message arrived")

// ErrRefused is returned, wrapped, for what will not go through by being tried
// again: the room is gone, the bot was thrown out, the message is too long.
var ErrRefused = errors.New("the service refuses the message")

// Wait is the error of a service that asks to be left alone for a while.
type Wait struct{ For time.Duration }

func (w Wait) Error() string { return fmt.Sprintf("the service asks to wait %s", w.For) }
