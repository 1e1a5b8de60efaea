package reckon

import "slices"

// Topics lists all topics, group by group.
func Topics() []Topic {
	return slices.Concat(fastenerTopics(), patternTopics(), shimTopics(), gearTopics(), trainTopics(),
		bearingTopics(), filmTopics(), fitTopics(), oilTopics(), coolantTopics(),
		electricTopics(), glowTopics(), hydraulicTopics(), coatingTopics(),
		engineTopics(), timingTopics(), powerTopics(), cleaningTopics())
}
