package advice_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// expectation is what a coach asks of the advice to one log, in the words of
// testdata/golden/README.md. An empty part asks nothing.
type expectation struct {
	title, coach       string
	verdicts           []string
	allowed, forbidden []string
	says, neverSays    []string
	outcomes           []string
	tellCoach, card    string
	within             []span
}

// span bounds a part of the next setup. Places are inches from the long string,
// contacts inches from full, negative toward the break side.
type span struct {
	part      string
	low, high float64
}

const nothing = "nothing"

// moves are all the changes that can be told, in the words of the expectations.
func moves() []string {
	return []string{
		"place in", "place out", "contact break-side", "contact far-side", "tip up", "tip down",
		"spin to nothing", "spin otherwise", "speed up", "speed down", "rack order", nothing,
	}
}

func verdictWords() []string {
	return []string{string(advice.Change), string(advice.More), string(advice.Keep)}
}

const notKnown = "not known"

func outcomeWords() []string {
	return []string{string(advice.Helped), string(advice.NoDifference), string(advice.Hurt), notKnown}
}

// parseExpectation reads the head of a case. It refuses every key, word and
// number that it does not know, so that no line is passed over in silence.
func parseExpectation(head string) (expectation, error) {
	var e expectation
	seen := map[string]bool{}
	for number, line := range strings.Split(strings.TrimRight(head, "\n"), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		key, value, found := strings.Cut(line, ":")
		value = strings.TrimSpace(value)
		if !found || value == "" {
			return e, fmt.Errorf("line %d: %q is not a key, a colon and a value", number+1, line)
		}
		if seen[key] {
			return e, fmt.Errorf("line %d: %q stands here twice", number+1, key)
		}
		seen[key] = true
		if err := e.readLine(key, value); err != nil {
			return e, fmt.Errorf("line %d: %w", number+1, err)
		}
	}
	return e, e.checkWhole()
}

func (e *expectation) readLine(key, value string) (err error) {
	switch key {
	case "title":
		e.title = value
	case "coach":
		e.coach = value
	case "verdict":
		e.verdicts, err = splitWords(value, verdictWords())
	case "change":
		e.allowed, err = splitWords(value, moves())
	case "never":
		e.forbidden, err = splitWords(value, moves())
	case "outcome":
		e.outcomes, err = splitWords(value, outcomeWords())
	case "says":
		e.says, err = splitPhrases(value)
	case "never says":
		e.neverSays, err = splitPhrases(value)
	case "tell coach":
		e.tellCoach, err = readYesNo(value)
	case "card":
		e.card, err = readYesNo(value)
	default:
		return e.readSpan(key, value)
	}
	return err
}

func (e *expectation) readSpan(key, value string) error {
	part, found := strings.CutPrefix(key, "next ")
	if !found || !slices.Contains([]string{"place", "contact", "tip", "speed"}, part) {
		return fmt.Errorf("%q is no key", key)
	}
	low, high, found := strings.Cut(value, " to ")
	if !found {
		return fmt.Errorf("%q is not two numbers with \" to \" between", value)
	}
	s := span{part: part}
	var err error
	if s.low, err = strconv.ParseFloat(low, 64); err != nil {
		return fmt.Errorf("%q is not a number", low)
	}
	if s.high, err = strconv.ParseFloat(high, 64); err != nil {
		return fmt.Errorf("%q is not a number", high)
	}
	if s.low > s.high {
		return fmt.Errorf("%q runs backwards", value)
	}
	e.within = append(e.within, s)
	return nil
}

// checkWhole refuses a case that asks nothing or contradicts itself.
func (e *expectation) checkWhole() error {
	if e.title == "" || e.coach == "" {
		return fmt.Errorf("a case needs a title and a coach's sentence")
	}
	if len(e.verdicts)+len(e.allowed)+len(e.forbidden)+len(e.outcomes) == 0 {
		return fmt.Errorf("the case asks nothing of verdict, change or outcome")
	}
	for _, move := range e.allowed {
		if slices.Contains(e.forbidden, move) {
			return fmt.Errorf("%q is both allowed and never told", move)
		}
	}
	return nil
}

func splitWords(value string, accepted []string) ([]string, error) {
	words := strings.Split(value, " or ")
	for _, word := range words {
		if !slices.Contains(accepted, word) {
			return nil, fmt.Errorf("%q is none of %s", word, strings.Join(accepted, ", "))
		}
	}
	return words, nil
}

func splitPhrases(value string) ([]string, error) {
	phrases := strings.Split(value, "/")
	for i, phrase := range phrases {
		if phrases[i] = strings.TrimSpace(phrase); phrases[i] == "" {
			return nil, fmt.Errorf("%q has an empty phrase", value)
		}
	}
	return phrases, nil
}

func readYesNo(value string) (string, error) {
	if value != "yes" && value != "no" {
		return "", fmt.Errorf("%q is neither yes nor no", value)
	}
	return value, nil
}

// listBroken says in what the advice is not as expected.
func (e *expectation) listBroken(a advice.Advice) []string {
	var broken []string
	fail := func(format string, args ...any) { broken = append(broken, fmt.Sprintf(format, args...)) }
	if len(e.verdicts) > 0 && !slices.Contains(e.verdicts, string(a.Verdict)) {
		fail("verdict is %s, not %s", a.Verdict, strings.Join(e.verdicts, " or "))
	}
	move := moveOf(a)
	if len(e.allowed) > 0 && !slices.Contains(e.allowed, move) {
		fail("change is %s, not %s", move, strings.Join(e.allowed, " or "))
	}
	if slices.Contains(e.forbidden, move) {
		fail("change is %s, which is never to be told here", move)
	}
	if outcome := outcomeOf(a); len(e.outcomes) > 0 && !slices.Contains(e.outcomes, outcome) {
		fail("outcome is %s, not %s", outcome, strings.Join(e.outcomes, " or "))
	}
	if e.tellCoach != "" && e.tellCoach != yesNo(a.NeedsCoach) {
		fail("the coach is told: %s", yesNo(a.NeedsCoach))
	}
	if e.card != "" && e.card != yesNo(a.Card != nil) {
		fail("a break card is given: %s", yesNo(a.Card != nil))
	}
	for _, s := range e.within {
		if value := partOf(a.Next, s.part); value < s.low || value > s.high {
			fail("next %s is %.4g, not from %.4g to %.4g", s.part, value, s.low, s.high)
		}
	}
	return append(broken, e.listBrokenWords(sentencesOf(a))...)
}

func (e *expectation) listBrokenWords(sentences string) []string {
	var broken []string
	lower := strings.ToLower(sentences)
	contains := func(phrase string) bool { return strings.Contains(lower, strings.ToLower(phrase)) }
	if len(e.says) > 0 && !slices.ContainsFunc(e.says, contains) {
		broken = append(broken, fmt.Sprintf("none of %q is said", e.says))
	}
	for _, phrase := range e.neverSays {
		if contains(phrase) {
			broken = append(broken, fmt.Sprintf("%q is said", phrase))
		}
	}
	return broken
}

// moveOf is the change that is told, in the words of moves.
func moveOf(a advice.Advice) string {
	p := a.Prescription
	if p == nil {
		return nothing
	}
	grows := p.To.Number > p.From.Number
	toward := (p.To.Number - p.From.Number) * float64(a.Next.Side.Sign()) // positive: toward the break side
	switch p.Variable {
	case advice.VaryNone:
		return nothing
	case advice.VaryPlace:
		return either(toward > 0, "place out", "place in")
	case advice.VaryContact:
		return either(toward > 0, "contact break-side", "contact far-side")
	case advice.VaryTip:
		return either(grows, "tip up", "tip down")
	case advice.VarySpin:
		return either(p.To.Number == 0, "spin to nothing", "spin otherwise")
	case advice.VarySpeed:
		return either(grows, "speed up", "speed down")
	case advice.VaryRack:
		return "rack order"
	}
	return "a change of " + string(p.Variable)
}

func outcomeOf(a advice.Advice) string {
	if a.FollowUp == nil || a.FollowUp.Outcome == advice.InTrial {
		return notKnown
	}
	return string(a.FollowUp.Outcome)
}

func partOf(s drill.Setup, part string) float64 {
	side := float64(s.Side.Sign())
	switch part {
	case "place":
		return float64(s.Cue.X) * side
	case "contact":
		return -float64(s.Contact) * side
	case "tip":
		return float64(s.Tip)
	}
	return float64(s.Speed)
}

// sentencesOf are the sentences about this student; the cautions shown with
// every drill and the counts of every pattern are left out.
func sentencesOf(a advice.Advice) string {
	lines := append([]string{a.Says}, a.Checks...)
	if a.Prescription != nil {
		lines = append(lines, a.Prescription.Reason, a.Prescription.Expect, a.Prescription.Caution)
	}
	if a.FollowUp != nil {
		lines = append(lines, a.FollowUp.Says)
	}
	return strings.Join(lines, "\n")
}

// listBrokenGrammar finds what no sentence may look like, whatever it says.
func listBrokenGrammar(sentences string) []string {
	var broken []string
	for _, line := range strings.Split(sentences, "\n") {
		if line == "" {
			continue
		}
		if first := line[:1]; first != strings.ToUpper(first) {
			broken = append(broken, fmt.Sprintf("%q begins small", line))
		}
		if !strings.HasSuffix(line, ".") {
			broken = append(broken, fmt.Sprintf("%q has no end", line))
		}
		for _, slip := range []string{"%!", "  ", "..", " ,", " .", "only none", "only no ", "NaN", "Inf"} {
			if strings.Contains(line, slip) {
				broken = append(broken, fmt.Sprintf("%q has %q in it", line, slip))
			}
		}
	}
	return broken
}

func yesNo(is bool) string { return either(is, "yes", "no") }

func either(first bool, one, other string) string {
	if first {
		return one
	}
	return other
}
