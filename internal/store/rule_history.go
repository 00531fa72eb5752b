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

// judgedBy is what a set was judged by.
type judgedBy struct {
	rulesVersion string
	tablesPlay   drill.TablesPlay
}

// loadJudgedBy returns what students' sets were judged by.
func (t *tx) loadJudgedBy(ctx context.Context, students []PersonID) (map[SetID]judgedBy, error) {
	rows, err := t.ListJudgedBy(ctx, plainUUIDs(students))
	if err != nil {
		return nil, err
	}
	by := make(map[SetID]judgedBy, len(rows))
	for _, r := range rows {
		tablesPlay, err := readTablesPlay(r.TablesPlay)
		if err != nil {
			return nil, err
		}
		by[SetID{r.SetID}] = judgedBy{r.RulesVersion, tablesPlay}
	}
	return by, nil
}
