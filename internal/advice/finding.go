package advice

import "breakwright/internal/say"

// Finding is a pattern looked at in a stint, with its counts.
type Finding struct {
	Rule RuleName `json:"rule"`
	// Count of Of breaks (or misses) show the pattern.
	Count int `json:"count"`
	Of    int `json:"of"`
	// Rate is Count/Of; Low and High its 95 % Jeffreys interval. All 0, 0, 1
	// when Of is 0.
	Rate float64 `json:"rate"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
	// Certainty is the posterior probability that the true rate is beyond the
	// rule's line.
	Certainty float64 `json:"certainty"`
	// Fired says that the pattern is sure enough for a change.
	Fired bool   `json:"fired"`
	Says  string `json:"says"`
	// Said is Says as data.
	Said say.Statement `json:"-"`
}
