package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Comparison is one item's rate of failures against another's, or its fellows'
// together. Given all failures, those of the item are binomial with its share
// of the hours if the two rates are alike: an exact test, without a least number
// of failures (Przyborowski and Wilenski 1940).
type Comparison struct {
	Silent    Silence
	Mine      Count
	Others    Count
	Among     int       // items from which this one was picked; 1 if it was not picked
	Ratio     float64   // of the rates, mine to others'; +Inf where the others had no failure
	Bounds    Interval  // of the ratio, central (Clopper-Pearson)
	TwoSided  float64   // probability of a split as unlikely as this or more so
	MidP      float64   // the same, with half the weight on splits just as likely
	AsMany    float64   // probability of as many failures of mine, or more
	AsFew     float64   // probability of as few, or fewer
	Direction Direction // Steady where it could be luck
	Luck      Luck
}

// Compare tests mine against others. Among is how many items were looked at to
// find this one: the worst of twelve looks bad by luck more often than one that
// somebody asked about, and has to be worse to be called so.
func Compare(mine, others Count, among int, confidence float64) Comparison {
	c := Comparison{Mine: mine, Others: others, Among: max(among, 1), Direction: Steady, Luck: CouldBe}
	if c.Silent = c.silence(); c.Silent != Spoken {
		return c
	}
	n, k := mine.Failures+others.Failures, mine.Failures
	b := distuv.Binomial{N: float64(n), P: mine.Hours / (mine.Hours + others.Hours)}
	c.AsFew, c.AsMany = b.CDF(float64(k)), 1-b.CDF(float64(k)-1)
	c.TwoSided, c.MidP = minlike(b, k, n)
	c.Ratio = float64(k) / mine.Hours / (float64(others.Failures) / others.Hours)
	share := ClopperPearson(k, n, confidence)
	c.Bounds = Interval{odds(share.Lower) * others.Hours / mine.Hours, odds(share.Upper) * others.Hours / mine.Hours}
	c.Direction, c.Luck = c.verdict()
	return c
}

// silence also keeps quiet where nothing could come of the test: if not even all
// failures falling on the one side would be more than luck.
func (c Comparison) silence() Silence {
	switch {
	case c.Mine.Failures < 0 || c.Others.Failures < 0:
		return Disorder
	case !c.Mine.watched():
		return NoTime
	case !c.Others.watched():
		return NoFellows
	}
	share := c.Mine.Hours / (c.Mine.Hours + c.Others.Hours)
	all := math.Pow(share, float64(c.Mine.Failures+c.Others.Failures))
	if luck(c.picked(all)) != MoreThan {
		return TooFew
	}
	return Spoken
}

// picked is the probability that the luckiest or unluckiest of all items looked
// at shows what one shows with probability p.
func (c Comparison) picked(p float64) float64 {
	return -math.Expm1(float64(c.Among) * math.Log1p(-min(p, 1)))
}

// verdict asks each side by itself: whoever asks whether an item is worse does
// not ask whether it is better.
func (c Comparison) verdict() (Direction, Luck) {
	switch {
	case luck(c.picked(c.AsMany)) == MoreThan:
		return Worse, MoreThan
	case luck(c.picked(c.AsFew)) == MoreThan:
		return Better, MoreThan
	}
	return Steady, CouldBe
}

// minlike adds up the probabilities of all outcomes that are no likelier than k.
func minlike(b distuv.Binomial, k, n int) (all, mid float64) {
	const crumb = 1e-7 // relative; outcomes meant to be as likely differ by roundings
	at := b.Prob(float64(k))
	for i := 0; i <= n; i++ {
		switch p := b.Prob(float64(i)); {
		case p < at*(1-crumb):
			all, mid = all+p, mid+p
		case p <= at*(1+crumb):
			all, mid = all+p, mid+p/2
		}
	}
	return min(all, 1), mid
}

func odds(p float64) float64 { return p / (1 - p) }
