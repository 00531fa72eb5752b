//go:build soak && linux

package main

import (
	"bufio"
	"context"
	"fmt"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"regexp"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"breakwright/internal/store/storetest"
)

const (
	soakClients = 1000
	// mostMegabytes is what a server may take with all of them: a small machine's
	// share.
	mostMegabytes = 150
)

// A thousand follow a class live while its students record.
func TestSoak_Clients(t *testing.T) {
	clearSettings(t)
	database, missing := buildOwnDatabase(t)
	if missing != "" {
		t.Fatal(missing)
	}
	f := newSoakField(t, database, 1)
	coach := signInWithJar(t, f.programs[0].url, f.load.scene.Login)
	ctx, stop := context.WithCancel(t.Context())
	var following sync.WaitGroup
	var boards, refused, pictures atomic.Int64
	for range soakClients {
		following.Go(func() {
			for ctx.Err() == nil {
				followBoard(ctx, coach, f.programs[0].url+"/classes/"+f.load.scene.Class.String()+"/live/events", &boards, &pictures)
				refused.Add(1)
				time.Sleep(time.Second) // as the page waits before it asks again
			}
		})
	}
	for boards.Load() < soakClients {
		time.Sleep(100 * time.Millisecond) // go test's own limit ends it
	}
	f.load.takeRow()
	idle, before := f.programs[0].residentMegabytes(t, "VmRSS"), pictures.Load()
	time.Sleep(30 * time.Second)
	kept, longest := f.load.takeRow()
	most := f.programs[0].residentMegabytes(t, "VmHWM")
	t.Logf("%d live boards, which asked again %d times, and %d students on two servers, 30 s: %d breaks saved, the longest silence %s, %d pictures of the board sent; %d MB when all were there, %d MB at most",
		boards.Load(), refused.Load(), soakStudents, len(kept), longest.Round(time.Millisecond), pictures.Load()-before, idle, most)
	if boards.Load() < soakClients || most > mostMegabytes || len(kept) == 0 || pictures.Load() == before {
		t.Errorf("%d boards; %d MB at most, want %d; %d saved, %d pictures", boards.Load(), most, mostMegabytes, len(kept), pictures.Load()-before)
	}
	stop()
	following.Wait()
	f.end(t)
}

// followBoard reads a board as it comes, until it or the context ends. boards counts those
// that are read now.
func followBoard(ctx context.Context, coach *http.Client, address string, boards, pictures *atomic.Int64) {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return
	}
	answer, err := coach.Do(r)
	if err != nil {
		return // it is asked for again
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return
	}
	boards.Add(1)
	defer boards.Add(-1)
	lines := bufio.NewReaderSize(answer.Body, 512)
	for {
		line, err := lines.ReadSlice('\n')
		if err != nil && err != bufio.ErrBufferFull {
			return
		}
		if string(line) == "event: board\n" {
			pictures.Add(1)
		}
	}
}

// signInWithJar signs a coach in who keeps cookies.
func signInWithJar(t *testing.T, site, login string) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := &http.Client{Jar: jar, Transport: &http.Transport{}}
	answer, err := client.PostForm(site+"/sign-in", url.Values{"who": {login}, "secret": {storetest.Passphrase}})
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.Request.URL.Path != "/desk" {
		t.Fatalf("the coach comes to %s", answer.Request.URL.Path)
	}
	return client
}

// residentMegabytes reads what a process holds (proc(5)): VmRSS now, VmHWM at most.
func (p *programProcess) residentMegabytes(t *testing.T, what string) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.command.Process.Pid))
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(what + `:\s+(\d+) kB`).FindSubmatch(text)
	if found == nil {
		t.Fatalf("no %s in %s", what, text)
	}
	kilobytes, err := strconv.Atoi(string(found[1]))
	if err != nil {
		t.Fatal(err)
	}
	return kilobytes >> 10
}
