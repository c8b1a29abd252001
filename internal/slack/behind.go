package slack

import "sync"

// behind are the channels that are not caught up with yet, by the how-manyeth gap
// that they have.
type behind struct {
	mu       sync.Mutex
	gaps     int
	channels map[string]int
	slow     int // the gap that takes longer than an event can wait
}

func (b *behind) add(channels []string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.channels == nil {
		b.channels = map[string]int{}
	}
	b.gaps++
	for _, c := range channels {
		b.channels[c] = b.gaps
	}
}

// of is the gap of a channel, 0 if it has none.
func (b *behind) of(channel string) int {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.channels[channel]
}

// wait is the gap of a channel that an event should wait for, 0 for none. When one
// has waited in vain none does any more: those behind it would be acknowledged late.
func (b *behind) wait(channel string) int {
	b.mu.Lock()
	defer b.mu.Unlock()
	if gap := b.channels[channel]; gap != b.slow {
		return gap
	}
	return 0
}

func (b *behind) inVain(gap int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.slow = gap
}

// done closes a gap, unless another one came meanwhile.
func (b *behind) done(channel string, gap int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.channels[channel] == gap {
		delete(b.channels, channel)
	}
}
