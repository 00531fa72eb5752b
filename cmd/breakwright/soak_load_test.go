//go:build soak && linux

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	websync "breakwright/web/sync"
)

// soakLoad is students who record breaks all the time, each on the server that
// answers them, and what was acknowledged to them.
type soakLoad struct {
	scene   storetest.Scene
	servers []string
	phones  []*http.Client
	stop    context.CancelFunc
	running sync.WaitGroup

	acknowledged atomic.Int64
	clockLead    atomic.Int64 // nanoseconds that the phones' clocks are off
	mu           sync.Mutex
	all          []store.BreakID // acknowledged
	row          int             // where those of the present row begin in all
	last         time.Time
	longest      time.Duration // between two acknowledged breaks of anybody
	refusals     []string      // what was refused for good, and why
}

// beginLoad lets students join on the first server and begin.
func beginLoad(t *testing.T, scene storetest.Scene, students []store.Person, seed uint64, servers ...string) *soakLoad {
	t.Helper()
	l := &soakLoad{scene: scene, servers: servers}
	for _, student := range students {
		l.phones = append(l.phones, joinOnPhone(t, servers[0], student.Code))
	}
	ctx, stop := context.WithCancel(context.Background())
	l.stop, l.last = stop, time.Now()
	for i, student := range students {
		l.running.Go(func() { l.record(ctx, l.phones[i], student.ID, rand.New(rand.NewPCG(seed, uint64(i+1)))) })
	}
	return l
}

// joinOnPhone signs a student in for the first time.
func joinOnPhone(t *testing.T, server, code string) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	phone := &http.Client{Jar: jar, Timeout: 20 * time.Second, Transport: &http.Transport{}}
	answer, err := phone.PostForm(server+"/join/"+code, url.Values{"secret": {"blue chalk"}, "again": {"blue chalk"}, "side": {"left"}})
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.Request.URL.Path != "/today" {
		t.Fatalf("a student joins and comes to %s", answer.Request.URL.Path)
	}
	return phone
}

// record records one set after another until the load is stopped.
func (l *soakLoad) record(ctx context.Context, phone *http.Client, student store.PersonID, random *rand.Rand) {
	for ctx.Err() == nil {
		set := store.NewID[store.SetID]()
		start := map[string]any{"kind": "start", "set": set, "assignment": l.scene.Assignment, "table": l.scene.Table.ID, "at": l.phoneTime()}
		l.sendUntilKept(ctx, phone, student, start, random)
		for number := 1; number <= 10 && ctx.Err() == nil; number++ {
			made := storetest.NewBreak(number)
			content, _ := websync.WriteBreak(made.Break) // a break that is valid
			item := map[string]any{"kind": "break", "set": set, "id": made.ID, "revision": 1, "content": json.RawMessage(content)}
			if l.sendUntilKept(ctx, phone, student, item, random) {
				l.acknowledge(made.ID)
			}
		}
		l.sendUntilKept(ctx, phone, student, map[string]any{"kind": "close", "set": set, "breaks": 10}, random)
	}
}

// phoneTime is what the phones' clocks show.
func (l *soakLoad) phoneTime() time.Time {
	return time.Now().Add(time.Duration(l.clockLead.Load())).UTC()
}

func (l *soakLoad) acknowledge(id store.BreakID) {
	l.acknowledged.Add(1)
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, id)
	now := time.Now()
	l.longest, l.last = max(l.longest, now.Sub(l.last)), now
}

// takeRow returns what was acknowledged and the longest silence since it was last
// asked.
func (l *soakLoad) takeRow() (acknowledged []store.BreakID, longest time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	acknowledged, longest = l.all[l.row:], max(l.longest, time.Since(l.last))
	l.row, l.longest, l.last = len(l.all), 0, time.Now()
	return acknowledged, longest
}

// sendUntilKept sends an item to one server after another, as a phone does, until
// one says that it is kept; false when the load was stopped before.
func (l *soakLoad) sendUntilKept(ctx context.Context, phone *http.Client, student store.PersonID, item map[string]any, random *rand.Rand) bool {
	body, _ := json.Marshal(map[string]any{"person": student, "sent": l.phoneTime(), "items": []any{item}}) // plain values
	for ctx.Err() == nil {
		server := l.servers[random.IntN(len(l.servers))]
		says, why, err := postSync(ctx, phone, server, body)
		if err == nil && (says == "accepted" || says == "had") {
			return true
		}
		if err == nil {
			l.refuse(says + ": " + why)
		}
		select {
		case <-ctx.Done():
		case <-time.After(time.Duration(5+random.IntN(20)) * time.Millisecond):
		}
	}
	return false
}

// refuse notes why something was refused, which nothing should be: the first few.
func (l *soakLoad) refuse(why string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.refusals) < 5 {
		l.refusals = append(l.refusals, why)
	}
}

// postSync returns what became of the one item, and why.
func postSync(ctx context.Context, phone *http.Client, server string, body []byte) (says, why string, err error) {
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, server+"/sync", bytes.NewReader(body))
	if err != nil {
		return "", "", err
	}
	answer, err := phone.Do(r)
	if err != nil {
		return "", "", err
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		return "", "", fmt.Errorf("%d %.200s (%v)", answer.StatusCode, text, err)
	}
	var said struct {
		Answers []struct {
			Is  string `json:"is"`
			Why string `json:"why"`
		} `json:"answers"`
	}
	if err := json.Unmarshal(text, &said); err != nil || len(said.Answers) != 1 {
		return "", "", fmt.Errorf("%.200s (%v)", text, err)
	}
	return said.Answers[0].Is, said.Answers[0].Why, nil
}
