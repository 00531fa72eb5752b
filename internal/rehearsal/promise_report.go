package rehearsal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// PromiseReport is what became of what students were promised.
type PromiseReport struct {
	Rack     string `json:"rack"`
	Students int    `json:"students_a_fault"`
	Sets     int    `json:"sets"`
	Seed     uint64 `json:"seed"`
	// Table, Without and Forget are those of Options.
	Table    int               `json:"table,omitempty"`
	Without  []advice.RuleName `json:"without,omitempty"`
	Forget   Fact              `json:"forget,omitempty"`
	Promises []PromiseRow      `json:"promises"`
}

// CountPromises sends computed students through the adviser and holds what it says against
// the truth. It counts nothing else, so that it has time for more of them than Run.
func CountPromises(ctx context.Context, p Options) (PromiseReport, error) {
	p, from, err := p.complete()
	if err == nil && p.Model != PhysicsModel {
		err = errors.New("rehearse: promises are of what breaks are worth, and are counted of computed students")
	}
	if err != nil {
		return PromiseReport{}, err
	}
	return p.countPromises(ctx, from)
}

// countPromises counts with students from a source.
func (p Options) countPromises(ctx context.Context, from studentSource) (PromiseReport, error) {
	class, err := p.gatherClass(ctx, from)
	if err != nil {
		return PromiseReport{}, err
	}
	students, err := collectFromStudents(ctx, p, func(fault, student int) promisedStudent {
		return p.collectPromises(from, class, fault, student)
	})
	if err != nil {
		return PromiseReport{}, err
	}
	return PromiseReport{
		Rack: p.Rack.String(), Table: p.Table, Students: p.Students, Sets: p.Sets, Seed: p.Seed, Without: p.Without, Forget: p.Forget,
		Promises: countPromises(slices.Concat(students...)),
	}, nil
}

// promisedStudent is what a student was promised over all sets.
type promisedStudent struct {
	fault    Fault
	promises []promise
	// setsAfterChange is how many sets were held under another setup than the first.
	setsAfterChange int
}

func (p Options) collectPromises(from studentSource, class classmates, fault, student int) promisedStudent {
	s, t, luck := p.drawStudent(from, fault, student)
	promised := promisedStudent{fault: s.Fault}
	var setups []drill.Setup
	t.holdSets(s, p.adviserBeside(class, s, fault, student), p.Sets, luck, func(h heldSet) {
		setups = append(setups, h.under.setup)
		promised.promises = append(promised.promises, listPromises(s, h.advised.advice, setups, h.under, t)...)
		if !h.under.setup.SameAs(setups[0]) {
			promised.setsAfterChange++
		}
	})
	return promised
}

// WriteText writes the report as a part of a page of Markdown.
func (r PromiseReport) WriteText(to io.Writer) error {
	var page strings.Builder
	of := Report{
		Model: PhysicsModel, Rack: r.Rack, Table: r.Table, Students: r.Students, Sets: r.Sets, Seed: r.Seed, Without: r.Without, Forget: r.Forget,
	}
	fmt.Fprintf(&page, promiseWords+"\n", r.Rack, r.Students, r.Sets, of.commandLine(" --promises"), of.exceptionWords())
	writeTable(&page, r.Promises, promiseColumns)
	if _, err := io.WriteString(to, page.String()); err != nil {
		return fmt.Errorf("write what was promised: %w", err)
	}
	return nil
}

var promiseColumns = []textColumn[PromiseRow]{
	{"promise", func(w PromiseRow) string { return w.Promise }},
	{"made", func(w PromiseRow) string { return fmt.Sprint(w.Made) }},
	{"claimed", func(w PromiseRow) string { return formatOrDash(w.Made, fmt.Sprintf("%.2f", w.Claimed)) }},
	{"came", func(w PromiseRow) string { return formatOrDash(w.Made, w.Came.formatMean()) }},
	{"said where no change has an effect", func(w PromiseRow) string { return w.OfUnmoved.formatShare() }},
}

func formatOrDash(count int, text string) string {
	if count == 0 {
		return "–"
	}
	return text
}

const promiseWords = `# Promises: %s

What was said beside what was true, over all sets: %d computed students with each fault,
%d sets of ten. Made by ` + "`%s`" + `.
%s
All but the last column are of students whom changes affect. A change is said to help when
it makes a break worth a twentieth more; what is looked for is a share of breaks, and came
is the true share; it helped or got worse is true when the true share of what was compared
grew or shrank, and no real difference when it moved by less than 1½ of ten. The likeliest
cause is counted until something is changed. How often it is the one depends on how common
each is: they count as the adviser takes them to be, a third of students with nothing
amiss, and not as here, with as many of each; too much power and a stroke that does not
hold together are one. The last column counts how often each was said, a set, to students
whose breaks no change affects. What is true is counted over 600 breaks.
`
