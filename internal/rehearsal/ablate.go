package rehearsal

import (
	"context"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// Ablation says what each rule is worth: every student is taught twice with the
// same luck, with the rules as they come and with one of them switched.
type Ablation struct {
	Seed     uint64 `json:"seed"`
	Students int    `json:"students_a_fault"`
	Faults   int    `json:"faults"`
	Sets     int    `json:"sets"`
	Breaks   int    `json:"breaks_a_set"`
	Rules    string `json:"rules"`
	Model    Model  `json:"model"`
	// Without names rules that were off on both sides.
	Without []advice.RuleName `json:"without,omitempty"`
	Rows    []RuleWorth       `json:"rows"`
}

// RuleWorth is what one rule does for the students, all faults together. Means are
// differences, with the rule less without it, in breaks of ten averaged over the
// training.
type RuleWorth struct {
	Rule advice.RuleName `json:"rule"`
	// Usual says that the rule is on as it comes.
	Usual bool `json:"usual"`
	// Touched is the share of students whose training the rule changes.
	Touched Share `json:"touched"`

	// Value is what the breaks are worth, or how many of them are good of a curve
	// student.
	Value   Mean `json:"value"`
	Wing    Mean `json:"wing"`
	Window  Mean `json:"window"`
	Scratch Mean `json:"scratch"`
	Off     Mean `json:"off"`

	// First changes that were right, or as good, of the students with a fault;
	// and students without one who were told to change in their first three sets.
	RightWith    Share `json:"right_with"`
	RightWithout Share `json:"right_without"`
	EarlyWith    Share `json:"early_with"`
	EarlyWithout Share `json:"early_without"`
	// End is how much more ten breaks are worth under the last setup.
	End Mean `json:"end"`
}

// ruleVariants is one student's training with the rules as they come, and with each
// rule the other way.
type ruleVariants struct {
	student   Student
	asItComes trainingRun
	switched  map[advice.RuleName]trainingRun
}

// Ablate holds every student's training once for each rule, and compares. It
// stops early only when ctx ends.
func Ablate(ctx context.Context, p Options) (Ablation, error) {
	p, from, err := p.complete()
	if err != nil {
		return Ablation{}, err
	}
	from.fineBreaks = from.usualBreaks // no single student's verdict is asked for
	runs, err := collectFromStudents(ctx, p, func(fault, student int) ruleVariants {
		return p.trainWithEachRule(from, fault, student)
	})
	if err != nil {
		return Ablation{}, err
	}
	a := Ablation{
		Seed: p.Seed, Students: p.Students, Faults: len(p.Faults), Sets: p.Sets, Breaks: drill.UsualBreaks,
		Rules: advice.RulesVersion, Model: p.Model, Without: p.Without,
	}
	all := slices.Concat(runs...)
	for _, r := range p.switchableRules() {
		a.Rows = append(a.Rows, measureWorth(r, all))
	}
	return a, nil
}

// switchableRules are the rules that can bear on a training: not the one for new
// tables, nor the one that only counts the breaks still needed.
func (p Options) switchableRules() []advice.Rule {
	var list []advice.Rule
	for _, r := range advice.Catalogue() {
		off := r.Name == advice.RuleNewTable || r.Name == advice.RuleTooEarly
		for _, name := range p.Without {
			off = off || r.Name == name
		}
		if !off {
			list = append(list, r)
		}
	}
	return list
}

func (p Options) trainWithEachRule(from studentSource, fault, student int) ruleVariants {
	s, t, luck := p.drawStudent(from, fault, student)
	taught := func(rules advice.Rules) trainingRun {
		return runTraining(s, p.realAdviser(s, rules), t, p.Sets, luck)
	}
	both := ruleVariants{student: s, asItComes: taught(rulesWithout(p.Without...)), switched: map[advice.RuleName]trainingRun{}}
	for _, r := range p.switchableRules() {
		rules := rulesWithout(p.Without...)
		n := rules.Numbers[r.Name]
		n.On = !n.On
		rules.Numbers[r.Name] = n
		both.switched[r.Name] = taught(rules)
	}
	return both
}
