//go:build soak

package record_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/web/browser"
	"breakwright/web/sync"
	"breakwright/web/webtest"
)

// How many breaks the monkey saves, in sets of fifty, the most that a set takes.
const (
	monkeyRounds = 20 // each with browsers of its own, which live for minutes
	monkeySets   = 2  // of a round
	monkeyBreaks = 50
)

// monkeyHand is one of those who save: a tab of a phone.
type monkeyHand struct {
	user *phoneUser
	tab  browser.Tab
	line *faultyProxy
}

// monkey saves random breaks with two tabs of one phone and with a second phone
// whose clock is a day ahead, while the lines fail, pages die and nobody waits.
type monkey struct {
	t     *testing.T
	rng   *rand.Rand
	site  *webtest.Site
	hands []monkeyHand
	// saved are the breaks that a phone said "saved" to, by id, as they were
	// tapped.
	saved  map[string]string
	faults map[string]int
}

// Whatever a phone said "saved" to is in the database, row for row, once. The seed
// is printed, and BREAKWRIGHT_MONKEY_SEED runs it again.
func TestSoak_MonkeyAtTheTable(t *testing.T) {
	rng, faults := rand.New(rand.NewPCG(monkeySeed(t), 1)), map[string]int{}
	for round := range monkeyRounds {
		t.Run(strconv.Itoa(round), func(t *testing.T) {
			m := newMonkey(t, rng, faults)
			for range monkeySets {
				m.recordSet()
			}
		})
	}
	t.Logf("%d breaks in %d sets; faults: %v", monkeyRounds*monkeySets*monkeyBreaks, monkeyRounds*monkeySets, faults)
}

func monkeySeed(t *testing.T) uint64 {
	seed := uint64(time.Now().UnixNano())
	if text := os.Getenv("BREAKWRIGHT_MONKEY_SEED"); text != "" {
		var err error
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("BREAKWRIGHT_MONKEY_SEED=%d", seed)
	return seed
}

func newMonkey(t *testing.T, rng *rand.Rand, faults map[string]int) *monkey {
	m := &monkey{t: t, rng: rng, site: webtest.New(t), faults: faults}
	lines := []*faultyProxy{newFaultyProxy(t, m.site.URL), newFaultyProxy(t, m.site.URL)}
	phone := newPhoneUser(t, m.site, lines[0].URL, 0, browser.Phone)
	first := phone.CurrentTab()
	phone.OpenNewPage()
	phone.Navigate(phone.url + "/today")
	other := newPhoneUser(t, m.site, lines[1].URL, 0, browser.Phone)
	other.RunOnEveryPage(`(() => {
		const Real = Date;
		Date = class extends Real {
			constructor(...a) { if (a.length) super(...a); else super(Real.now() + 26 * 3600_000); }
			static now() { return Real.now() + 26 * 3600_000; }
		};
	})()`)
	other.Navigate(other.url + "/today")
	m.hands = []monkeyHand{{phone, first, lines[0]}, {phone, phone.CurrentTab(), lines[0]}, {other, other.CurrentTab(), lines[1]}}
	return m
}

// use brings a hand's tab to the front.
func (m *monkey) use(h monkeyHand) *phoneUser {
	h.user.ShowTab(h.tab)
	return h.user
}

// settle sends until the server has answered for all that a hand's phone holds.
func (m *monkey) settle(h monkeyHand) {
	h.line.set(good)
	m.use(h).WaitFor(`bw.exchange().then(() => !bw.state.waiting && !bw.state.trouble)`)
}

// recordSet begins a set on the first phone, lets all hands fill it, and compares.
func (m *monkey) recordSet() {
	m.t.Helper()
	m.saved = map[string]string{}
	set := browser.Evaluate[string](m.use(m.hands[0]).Window, fmt.Sprintf(`(async () => {
		const held = await bw.held(), table = held.tables[0], plan = held.plans[held.tasks[0].on[table.id]], id = bw.newID();
		await bw.startSet({ id, person: held.person, table: table.id, label: table.label, drill: "Monkey", training: "Monkey", planned: %d, plan });
		return id;
	})()`, monkeyBreaks))
	m.settle(m.hands[0])
	m.settle(m.hands[2])
	for n := range monkeyBreaks {
		i := m.rng.IntN(len(m.hands))
		m.disturb(i)
		m.save(m.hands[i], set, n)
	}
	for range 2 { // one phone's numbers move the other's
		m.settle(m.hands[0])
		m.settle(m.hands[2])
	}
	m.compare(set)
	browser.Evaluate[bool](m.use(m.hands[0]).Window, fmt.Sprintf(`bw.closeSet(%q).then(() => true)`, set))
	m.settle(m.hands[0])
	m.settle(m.hands[2])
}

// disturb may make one of the faults before a hand saves.
func (m *monkey) disturb(i int) {
	h := m.hands[i]
	switch m.rng.IntN(10) {
	case 0, 1:
		mode := []proxyMode{good, dead, deaf, half}[m.rng.IntN(4)]
		h.line.set(mode)
		m.faults["the line is "+string(mode)]++
	case 2:
		// Nobody waits for it: the next break comes while it is under way.
		browser.Evaluate[bool](m.use(h).Window, `(bw.exchange(), true)`)
		m.faults["sent in between"]++
	case 3:
		if m.rng.IntN(3) > 0 {
			return
		}
		h.line.set(good) // the page comes over the line, or from the phone
		user := m.use(h)
		user.CrashPage()
		user.Navigate(user.url + "/today")
		user.WaitFor(`window.bw && bw.held()`)
		m.hands[i].tab = user.CurrentTab()
		m.faults["the page is killed"]++
	}
}

// save saves a random break through the scripts of the page.
func (m *monkey) save(h monkeyHand, set string, n int) {
	m.t.Helper()
	b := randomBreak(m.rng, m.site.Drill.Setup, 1)
	b.Note = fmt.Sprintf("tapped as number %d", n)
	text, err := sync.WriteBreak(b)
	if err != nil {
		m.t.Fatal(err)
	}
	id := browser.Evaluate[string](m.use(h).Window, fmt.Sprintf(`bw.saveBreak({ setID: %q, id: bw.newID(), edit: false },
		(number, at) => { const { number: _, ...seen } = %s; return JSON.stringify({ number, at, ...seen }); }).then((b) => b.id)`, set, text))
	m.saved[id] = string(text)
}

// compare fails the test unless the server keeps exactly what was saved.
func (m *monkey) compare(set string) {
	m.t.Helper()
	id, err := store.ParseID[store.SetID](set)
	if err != nil {
		m.t.Fatal(err)
	}
	kept, err := m.site.Store.GetSet(m.t.Context(), m.site.Coach, id)
	if err != nil {
		m.t.Fatal(err)
	}
	if len(kept.Breaks) != len(m.saved) || len(m.saved) != monkeyBreaks {
		m.t.Errorf("set %s: %d breaks are kept, %d were saved", set, len(kept.Breaks), len(m.saved))
	}
	for _, b := range kept.Breaks {
		number := b.Number
		b.Number, b.At = 1, time.Time{}
		text, err := sync.WriteBreak(b.Break)
		if err != nil || string(text) != m.saved[b.ID.String()] {
			m.t.Errorf("set %s, break %d (%v)\nkept  %s\nsaved %s", set, number, err, text, m.saved[b.ID.String()])
		}
	}
}
