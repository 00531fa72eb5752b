package rules

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// ruleListView is the page of all rules.
type ruleListView struct {
	Frame  page.Frame
	Answer string
	// Past says what the counts are counted on; Left what was left out.
	Past, LeftOut string
	// Hard are the rules before the weighing, Weighing it, Patterns those after it.
	Hard, Patterns []ruleRow
	Weighing       ruleRow
	Causes         []causeRow
	Worth          []worthRow
	Revision       int
	Changes        []changeLine
}

// ruleRow is a rule with its present numbers.
type ruleRow struct {
	Name, Number, Title, Pattern, Answer, Source, Support string
	// Speaks says the numbers in words, Onward how far it goes, Heard what it
	// said last month.
	Speaks, Onward, LastMonth string
	// Changed lists what the club has set; empty when it is as it comes.
	Changed []string
	Off     bool
	// ChangePath is where to change it, "" when nothing can be set.
	ChangePath string
}

// ownSource says where the rule comes from beyond what is said once above all; "" for
// nowhere else.
func (r ruleRow) ownSource() string {
	if r.Source == advice.UsualPractice {
		return say.Capitalize(r.Support)
	}
	return r.wholeSource()
}

// wholeSource says where the rule comes from, and what else speaks for it.
func (r ruleRow) wholeSource() string {
	if r.Support == "" {
		return "Source: " + r.Source
	}
	return "Source: " + r.Source + "; " + r.Support
}

// changeLine is a change of the rules that was made once.
type changeLine struct {
	When, Who, Rule, What string
	// Number is the club's change, which an analysis names after its "+".
	Number string
}

// maxChanges is how many changes are listed.
const maxChanges = 30

func (p *Pages) listRules(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	club, err := p.store.GetRules(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	changes, err := p.store.ListRuleChanges(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	past, err := p.listLastMonth(r)
	if err != nil {
		return err
	}
	h := tallyRules(setreview.ReplayCases(past.Cases, club))
	v := ruleListView{Frame: p.sessions.TakeFrame(w, r), Past: pastWords(h), LeftOut: leftOutWords(past), Revision: club.Revision}
	own := 0
	for number, rule := range advice.Catalogue() {
		row := newRuleRow(rule, setreview.RuleNumbers(rule, club.SettingOf(string(rule.Name))))
		row.Number = strconv.Itoa(number + 1)
		row.LastMonth = h.lastMonthWords(rule.Name)
		own += min(len(row.Changed), 1)
		v.addRule(row)
	}
	for _, part := range advice.WorthParts() {
		row := newWorthRow(part, setreview.RuleNumbers(part, club.SettingOf(string(part.Name))))
		own += min(len(row.Changed), 1)
		v.Worth = append(v.Worth, row)
	}
	v.Causes = listCauses(h)
	v.Answer = ruleListAnswer(own)
	v.Changes = changeLines(changes, user.Zone)
	return page.Render(w, r, http.StatusOK, ruleListPage(v))
}

func newRuleRow(rule advice.Rule, n advice.Numbers) ruleRow {
	row := ruleRow{
		Name: string(rule.Name), Title: rule.Title, Pattern: rule.Pattern, Answer: rule.Answer,
		Source: rule.Source, Support: rule.Support, Speaks: speaksWhen(rule, n), Onward: onwardWords(rule, n), Changed: changedNumbers(rule, n), Off: !n.On,
	}
	if setreview.ListSettable(rule).HasAny() {
		row.ChangePath = changePath(rule.Name)
	}
	return row
}

func changePath(rule advice.RuleName) string {
	return "/rules/change?rule=" + url.QueryEscape(string(rule))
}

// addRule puts a rule where it is checked: before the weighing, or after it.
func (v *ruleListView) addRule(row ruleRow) {
	switch {
	case row.Name == string(advice.RuleWeighing):
		v.Weighing = row
	case v.Weighing.Name == "":
		v.Hard = append(v.Hard, row)
	default:
		v.Patterns = append(v.Patterns, row)
	}
}

func ruleListAnswer(own int) string {
	switch own {
	case 0:
		return "These rules judge every set when it is done. All have their standard values."
	case 1:
		return "These rules judge every set when it is done. One has your club’s own numbers."
	}
	return fmt.Sprintf("These rules judge every set when it is done. %d have your club’s own numbers.", own)
}

func pastWords(h ruleTally) string {
	if h.sets == 0 {
		return "No sets in the last 30 days. Once there are some, each rule says here what it said of them."
	}
	return fmt.Sprintf("“Last month” means the %s of the last 30 days, judged again by the numbers below.", say.CountFromOne(h.sets, "set", "sets"))
}

// changeLines words the latest changes. What a rule was before is not told:
// the next line of the same rule says it.
func changeLines(changes []store.RuleChange, zone *time.Location) []changeLine {
	titles := map[string]advice.Rule{}
	for _, rule := range advice.EverySetting() {
		titles[string(rule.Name)] = rule
	}
	var lines []changeLine
	for _, c := range changes[:min(len(changes), maxChanges)] {
		rule, known := titles[c.Rule]
		line := changeLine{
			When: say.MomentOfYear(c.At.In(zone)), Who: c.ByName, Rule: rule.Title,
			Number: strconv.Itoa(c.Revision), What: settingWords(rule, c.RuleSetting),
		}
		if !known {
			line.Rule, line.What = c.Rule, "a rule that this version does not have"
		}
		lines = append(lines, line)
	}
	return lines
}
