package cover

import (
	"cmp"
	"math"
	"slices"
)

// place finds the placement by branch and bound. What several more spares can
// save together is at most the sum of what each of them would save now, since
// every spare leaves less for the next to save.
func (t table) place(k int, goal Goal) []int {
	s := search{table: t, limit: math.Inf(1)}
	if k = min(k, len(t.out)); goal == Farthest {
		s.limit, s.best = t.center(k)
		s.bestTotal = t.total(t.after(t.now, s.best...))
	} else {
		s.bestTotal = math.Inf(1)
	}
	s.branch(t.now, nil, t.indexes(), k)
	slices.Sort(s.best)
	return s.best
}

// crumb is the difference, in minutes, below which two placements are alike.
const crumb = 1e-9

type search struct {
	table
	limit     float64 // no drive may be longer
	best      []int
	bestTotal float64
}

type candidate struct {
	i    int
	save float64
}

// branch places k more spares among the candidates left, given the drives that
// those chosen leave.
func (s *search) branch(minutes []float64, chosen, left []int, k int) {
	total := s.total(minutes)
	if k == 0 || len(left) == 0 {
		if total < s.bestTotal-crumb && slices.Max(minutes) <= s.limit+crumb {
			s.best, s.bestTotal = slices.Clone(chosen), total
		}
		return
	}
	if !s.reachable(minutes, left) {
		return
	}
	ranked := s.rank(minutes, left)
	for n := range ranked {
		if total-together(ranked[n:], k) >= s.bestTotal-crumb && s.best != nil {
			return
		}
		rest := make([]int, 0, len(ranked)-n-1)
		for _, c := range ranked[n+1:] {
			rest = append(rest, c.i)
		}
		i := ranked[n].i
		s.branch(s.after(minutes, i), append(slices.Clip(chosen), i), rest, k-1)
	}
}

// rank orders the candidates by what each would save alone; on equal terms the
// order of the file holds.
func (s *search) rank(minutes []float64, left []int) []candidate {
	ranked := make([]candidate, len(left))
	for n, i := range left {
		ranked[n].i = i
		for j, m := range minutes {
			if d := s.drive[i][j]; d < m {
				ranked[n].save += (m - d) * s.weight[j]
			}
		}
	}
	slices.SortFunc(ranked, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.save, a.save), cmp.Compare(a.i, b.i))
	})
	return ranked
}

func together(ranked []candidate, k int) float64 {
	var sum float64
	for _, c := range ranked[:min(k, len(ranked))] {
		sum += c.save
	}
	return sum
}

// reachable reports whether some candidate serves each drive that is too long.
func (s *search) reachable(minutes []float64, left []int) bool {
	for j, m := range minutes {
		if m > s.limit+crumb && !slices.ContainsFunc(left, func(i int) bool { return s.drive[i][j] <= s.limit+crumb }) {
			return false
		}
	}
	return true
}

// center makes the longest drive as short as k spares can. Whatever shortens it
// serves the company that is farthest from help, so only its savers are tried.
func (t table) center(k int) (longest float64, at []int) {
	longest = math.Inf(1)
	var try func(minutes []float64, chosen []int)
	try = func(minutes []float64, chosen []int) {
		far := farthest(minutes)
		if minutes[far] < longest-crumb {
			longest, at = minutes[far], slices.Clone(chosen)
		}
		if len(chosen) == k {
			return
		}
		for i := range t.out {
			if t.drive[i][far] < longest-crumb {
				try(t.after(minutes, i), append(slices.Clip(chosen), i))
			}
		}
	}
	try(t.now, nil)
	return longest, at
}

func farthest(minutes []float64) int {
	far := 0
	for j, m := range minutes {
		if m > minutes[far] {
			far = j
		}
	}
	return far
}

// after is the drives once spares stand with the given companies too.
func (t table) after(minutes []float64, at ...int) []float64 {
	m := slices.Clone(minutes)
	for _, i := range at {
		for j, d := range t.drive[i] {
			m[j] = min(m[j], d)
		}
	}
	return m
}

func (t table) total(minutes []float64) float64 {
	var sum float64
	for j, m := range minutes {
		sum += m * t.weight[j]
	}
	return sum
}

func (t table) indexes() []int {
	all := make([]int, len(t.out))
	for i := range all {
		all[i] = i
	}
	return all
}
