package breaklog

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Write writes sets as a break log, all columns in the usual order, rows in the
// order given, lines ended as RFC 4180 has it. Reading it gives the same sets,
// each student's together, but for sets without breaks. Sets that could not be read back are refused
// before anything is written.
func Write(to io.Writer, sets []drill.Set) error {
	w := NewWriter(to)
	if err := w.Write(sets); err != nil {
		return err
	}
	return w.Close()
}

func checkSet(set drill.Set, seen map[setKey]bool) error {
	key := setKey{strings.TrimSpace(set.Student), strings.TrimSpace(set.Name)}
	if seen[key] {
		return errors.New("the student has two sets of this name")
	}
	seen[key] = true
	if says := checkName(set.Student); says != "" {
		return fmt.Errorf("student: %s", says)
	}
	if says := checkName(set.Name); says != "" {
		return fmt.Errorf("name: %s", says)
	}
	if says := checkName(set.Table); set.Table != "" && says != "" {
		return fmt.Errorf("table: %s", says)
	}
	if made, err := set.Kind.Checked(); err != nil {
		return err
	} else if made != set.Kind {
		return errors.New("the table's pocket mouths are not given")
	}
	for _, b := range set.Breaks {
		if !utf8.ValidString(b.Note) || strings.IndexByte(b.Note, 0) >= 0 {
			return fmt.Errorf("break %d: a note is letters, signs and line ends", b.Number)
		}
		if !b.At.IsZero() && !isBelievedTime(b.At.UTC()) {
			return fmt.Errorf("break %d: a break at %s is not believed", b.Number, b.At)
		}
	}
	if err := checkPlan(set); err != nil {
		return err
	}
	return set.Check()
}

// checkPlan refuses a plan that could not be read back.
func checkPlan(set drill.Set) error {
	p := set.Plan
	if p.Window != (table.Window{}) {
		if err := p.Window.Check(set.Kind); err != nil {
			return err
		}
	}
	for _, goal := range drill.TargetKinds() {
		if share := *goal.Of(&p.Targets); share != 0 && !isShare(share) {
			return fmt.Errorf("the goal %s is no share", goal.Name)
		}
	}
	if !p.Closed.IsZero() && !isBelievedTime(p.Closed.UTC()) {
		return fmt.Errorf("a set closed at %s is not believed", p.Closed)
	}
	if p.House.BreakBox < 0 {
		return errors.New("the break box has no reach")
	}
	if !canReadBack(p.Rules) {
		return errors.New("the club's rules could not be read back")
	}
	if !canReadTablesBack(p.TablesPlay) {
		return errors.New("how the club's tables play could not be read back")
	}
	for _, d := range p.Decisions {
		if got, ok := parseDecision(writeDecision(d, set.Setup), set.Setup); !ok || got != d || d.Setup.CheckPossible(set.Kind) != nil {
			return fmt.Errorf("the decision “%s” could not be read back", d.Answer)
		}
	}
	return nil
}
