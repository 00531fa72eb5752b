package store

import (
	"context"
	"math"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// ruleHistory is every change of a club's rules, the oldest first.
type ruleHistory []query.ClubRule

// judging returns the rules that the version of advice names, as "1+7"; "" names
// those in force. Only what is not as the rules come is in it.
func (h ruleHistory) judging(version string) drill.ClubRules {
	revision := math.MaxInt
	if version != "" {
		_, own, _ := strings.Cut(version, "+")
		revision, _ = strconv.Atoi(own) // none is 0, the rules as they come
	}
	var c drill.ClubRules
	for _, r := range h {
		if r.Revision <= revision {
			c = c.WithSetting(ruleSettingFromRow(r))
			c.Revision = r.Revision
		}
	}
	return c.WithoutStandard()
}

// loadRulesVersions returns the versions of the rules by which a student's sets were
// judged.
func (t *tx) loadRulesVersions(ctx context.Context, student PersonID) (map[SetID]string, error) {
	rows, err := t.ListRulesVersions(ctx, student.UUID)
	versions := make(map[SetID]string, len(rows))
	for _, r := range rows {
		versions[SetID{r.SetID}] = r.RulesVersion
	}
	return versions, err
}
