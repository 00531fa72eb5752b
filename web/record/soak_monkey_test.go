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

const (
	// breaksPerFault is how many breaks the monkey saves for each fault that a soak was
	// asked for: two thousand in the usual one.
	breaksPerFault = 2
	monkeyActs     = 50 // on the set of a round, most of them a saved break
)

// monkeyWays are those who save in a round, by how many hands they have, two phones
// first: however few breaks are asked for, each way has a round.
var monkeyWays = []string{"one tab", "two tabs", "two phones, one with two tabs"}

// monkeyHand is one of those who save: a tab of a phone.
type monkeyHand struct {
	user *phoneUser
	tab  browser.Tab
	line *faultyProxy
}

// monkey saves random breaks with one tab of a phone, with two, or with two and a
// second phone, whose clocks are right, a day ahead or a day behind; corrects them,
// takes them out, closes the set and opens it again, while the lines fail, the server
// has trouble and is replaced, pages die and nobody waits.
type monkey struct {
	t     *testing.T
	rng   *rand.Rand
	site  *webtest.Site
	hands []monkeyHand
	// saved are the breaks that a phone said "saved" to, by id, as they were tapped
	// or corrected last, without those that it took out.
	saved map[string]string
	// own are the ids of those saved on each phone: a correction of another phone's
	// break is a clash, for the student to settle, and no monkey's.
	own [2][]string
	// did and faults count what was done, and what went wrong on the way.
	did, faults map[string]int
	// savedBy counts what each phone saved.
	savedBy [2]int
}

// Whatever a phone said "saved" to is in the database, row for row, once. The seed
// is printed, and the soak's flag for it runs it again.
func TestSoak_MonkeyAtTheTable(t *testing.T) {
	breaks, seed := breaksPerFault*soakNumber(t, "BREAKWRIGHT_SOAK_FAULTS"), soakNumber(t, "BREAKWRIGHT_SOAK_SEED")
	t.Logf("the seed is %d", seed)
	rng, did, faults := rand.New(rand.NewPCG(uint64(seed), 1)), map[string]int{}, map[string]int{}
	byWay, secondPhone, saved := map[string]int{}, 0, 0
	for round := 0; (saved < breaks || round < len(monkeyWays)) && !t.Failed(); round++ {
		hands := len(monkeyWays) - round%len(monkeyWays)
		way := monkeyWays[hands-1]
		t.Run(fmt.Sprintf("round %d, %s", round+1, way), func(t *testing.T) {
			m := newMonkey(t, rng, did, faults, hands)
			m.recordSet()
			byWay[way] += m.savedBy[0] + m.savedBy[1]
			secondPhone += m.savedBy[1]
		})
		saved = did["saved"]
	}
	for _, way := range monkeyWays {
		if byWay[way] == 0 && !t.Failed() {
			t.Errorf("nothing was saved by %s", way)
		}
	}
	if secondPhone == 0 && !t.Failed() {
		t.Error("the second phone saved nothing")
	}
	t.Logf("seed %d; breaks by way: %v, %d of them on the second phone; done: %v; faults: %v", seed, byWay, secondPhone, did, faults)
}

// soakNumber reads what verify gives: BREAKWRIGHT_SOAK_FAULTS, how many faults were
// asked for, and BREAKWRIGHT_SOAK_SEED.
func soakNumber(t *testing.T, name string) int {
	t.Helper()
	number, err := strconv.Atoi(os.Getenv(name))
	if err != nil || number < 1 {
		t.Fatalf("%s wants a number: %v", name, err)
	}
	return number
}

// newMonkey has one to three hands: a tab, a second one of the same phone, another
// phone.
func newMonkey(t *testing.T, rng *rand.Rand, did, faults map[string]int, hands int) *monkey {
	m := &monkey{t: t, rng: rng, site: webtest.New(t), did: did, faults: faults}
	m.addPhone()
	if hands > 1 {
		first := m.hands[0]
		first.user.OpenNewPage()
		first.user.Navigate(first.user.url + "/today")
		m.hands = append(m.hands, monkeyHand{first.user, first.user.CurrentTab(), first.line})
	}
	if hands > 2 {
		m.addPhone()
	}
	return m
}

// addPhone adds a phone with a line of its own, whose clock may be wrong by more than
// a day.
func (m *monkey) addPhone() {
	line := newFaultyProxy(m.t, m.site.URL)
	user := newPhoneUser(m.t, m.site, line.URL, 0, browser.Phone)
	if hours := 26 * (m.rng.IntN(3) - 1); hours != 0 {
		user.RunOnEveryPage(fmt.Sprintf(`(() => {
			const Real = Date, off = %d * 3600_000;
			Date = class extends Real {
				constructor(...a) { if (a.length) super(...a); else super(Real.now() + off); }
				static now() { return Real.now() + off; }
			};
		})()`, hours))
		m.faults[fmt.Sprintf("a clock is off by %d hours", hours)]++
	}
	user.Navigate(user.url + "/today")
	m.hands = append(m.hands, monkeyHand{user, user.CurrentTab(), line})
}

// phones are a hand of each phone.
func (m *monkey) phones() []monkeyHand {
	if len(m.hands) > 2 {
		return []monkeyHand{m.hands[0], m.hands[2]}
	}
	return m.hands[:1]
}

// settleAll settles all phones.
func (m *monkey) settleAll() {
	for _, h := range m.phones() {
		m.settle(h)
	}
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
	m.saved, m.own = map[string]string{}, [2][]string{}
	set := browser.Evaluate[string](m.use(m.hands[0]).Window, fmt.Sprintf(`(async () => {
		const held = await bw.held(), table = held.tables[0], plan = held.plans[held.tasks[0].on[table.id]], id = bw.newID();
		await bw.startSet({ id, person: held.person, table: table.id, label: table.label, drill: "Monkey", training: "Monkey", planned: %d, plan });
		return id;
	})()`, monkeyActs))
	m.settleAll()
	for n := range monkeyActs {
		i := m.rng.IntN(len(m.hands))
		m.disturb(i)
		m.act(i, set, n)
	}
	m.bringHome(set)
	m.did["sets compared"]++
	m.compare(set)
	browser.Evaluate[bool](m.use(m.hands[0]).Window, fmt.Sprintf(`bw.closeSet(%q).then(() => true)`, set))
	m.settleAll()
}

// disturb may make one of the faults before a hand saves.
func (m *monkey) disturb(i int) {
	h := m.hands[i]
	switch m.rng.IntN(10) {
	case 0, 1:
		mode := []proxyMode{good, dead, deaf, half, ill}[m.rng.IntN(5)]
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
	case 4:
		if m.rng.IntN(3) > 0 {
			return
		}
		next := webtest.NewOverScene(m.t, m.site.Scene)
		for _, h := range m.phones() {
			h.line.leadTo(m.t, next.URL)
		}
		m.faults["the server is replaced"]++
	}
}

// phoneOf is the phone of a hand: the first two are tabs of one.
func phoneOf(hand int) int { return hand / 2 }

// act does one thing to a set with a hand: mostly it saves a break. A set that is
// closed on the phone is opened first, as the page asks for; one that another phone
// has closed may be gone from this one, which then has to wait for it.
func (m *monkey) act(i int, set string, n int) {
	m.t.Helper()
	h, own := m.hands[i], m.own[phoneOf(i)]
	if !browser.Evaluate[bool](m.use(h).Window, fmt.Sprintf(`bw.getSet(%[1]q).then((s) => s?.closed ? bw.reopenSet(%[1]q).then(() => true) : Boolean(s))`, set)) {
		m.did["waited for a set closed elsewhere"]++
		return
	}
	switch k := m.rng.IntN(20); {
	case k < 3 && len(own) > 0:
		m.correct(h, set, own[m.rng.IntN(len(own))], n)
	case k < 5 && len(own) > 0:
		m.takeOut(h, set, own[m.rng.IntN(len(own))])
	case k == 5:
		browser.Evaluate[bool](h.user.Window, fmt.Sprintf(`bw.closeSet(%q).then(() => true)`, set))
		m.did["closed"]++
	default:
		m.own[phoneOf(i)] = append(own, m.save(h, set, n))
		m.savedBy[phoneOf(i)]++
	}
}

// correct writes other taps into a break that was saved on the phone.
func (m *monkey) correct(h monkeyHand, set, id string, n int) {
	m.t.Helper()
	text := m.drawTaps(n)
	if browser.Evaluate[bool](h.user.Window, fmt.Sprintf(`(async () => {
		const there = (await bw.getSet(%[1]q)).breaks.find((b) => b.id === %[2]q);
		if (!there || there.deleted !== undefined) return false;
		return bw.saveBreak({ setID: %[1]q, id: %[2]q, edit: true, base: there.revision },
			(number, at) => { const { number: _, ...seen } = %[3]s; return JSON.stringify({ number, at, ...seen }); })
			.then(() => true, (e) => { if (e.message !== "changed") throw e; return false; });
	})()`, set, id, text)) {
		m.saved[id] = text
		m.did["corrected"]++
	}
}

// takeOut deletes a break that was saved on the phone.
func (m *monkey) takeOut(h monkeyHand, set, id string) {
	m.t.Helper()
	if browser.Evaluate[bool](h.user.Window, fmt.Sprintf(`(async () => {
		const there = (await bw.getSet(%[1]q)).breaks.find((b) => b.id === %[2]q);
		if (!there || there.deleted !== undefined) return false;
		await bw.deleteBreak(%[1]q, %[2]q, "a loose rack");
		return true;
	})()`, set, id)) {
		delete(m.saved, id)
		m.did["taken out"]++
	}
}

// bringHome opens the set wherever it is closed and sends until nothing waits and
// nothing is stuck: one phone's numbers move the other's, and what one closed
// stops the other's breaks.
func (m *monkey) bringHome(set string) {
	m.t.Helper()
	for range 4 {
		for _, h := range m.phones() {
			m.settle(h)
			browser.Evaluate[bool](h.user.Window, fmt.Sprintf(`bw.getSet(%[1]q).then((s) => s && (s.closed || bw.stuck(s).length) ? bw.reopenSet(%[1]q).then(() => true) : true)`, set))
			m.settle(h)
		}
	}
}

// drawTaps is a random break as the phone writes it, told apart by its note.
func (m *monkey) drawTaps(n int) string {
	m.t.Helper()
	b := randomBreak(m.rng, m.site.Drill.Setup, 1)
	b.Note = fmt.Sprintf("tapped as number %d", n)
	text, err := sync.WriteBreak(b)
	if err != nil {
		m.t.Fatal(err)
	}
	return string(text)
}

// save saves a random break through the scripts of the page, and gives its id.
func (m *monkey) save(h monkeyHand, set string, n int) string {
	m.t.Helper()
	text := m.drawTaps(n)
	id := browser.Evaluate[string](m.use(h).Window, fmt.Sprintf(`bw.saveBreak({ setID: %q, id: bw.newID(), edit: false },
		(number, at) => { const { number: _, ...seen } = %s; return JSON.stringify({ number, at, ...seen }); }).then((b) => b.id)`, set, text))
	m.saved[id] = text
	m.did["saved"]++
	return id
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
	if len(kept.Breaks) != len(m.saved) {
		m.t.Errorf("set %s: %d breaks are kept, %d were saved", set, len(kept.Breaks), len(m.saved))
	}
	here := map[string]bool{}
	for _, b := range kept.Breaks {
		here[b.ID.String()] = true
		number := b.Number
		b.Number, b.At = 1, time.Time{}
		text, err := sync.WriteBreak(b.Break)
		if err != nil || string(text) != m.saved[b.ID.String()] {
			m.t.Errorf("set %s, break %d (%v)\nkept  %s\nsaved %s", set, number, err, text, m.saved[b.ID.String()])
		}
	}
	for id, text := range m.saved {
		if !here[id] {
			m.t.Errorf("set %s: a break that was saved is not kept: %s %s", set, id, text)
		}
	}
}
