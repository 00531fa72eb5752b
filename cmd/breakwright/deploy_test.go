package main

import (
	"net/http"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"breakwright/internal/store/storetest"
)

// deployFiles are the examples by which the program is run elsewhere.
var deployFiles = []string{"docker-compose.yml", "deploy/Dockerfile", "deploy/kubernetes.yaml", "deploy/breakwright.service", "deploy/README.md"}

func readDeployFile(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// findInDeploy returns what the pattern's group finds in a file, at least once.
func findInDeploy(t *testing.T, name, pattern string) []string {
	t.Helper()
	var found []string
	for _, match := range regexp.MustCompile(pattern).FindAllStringSubmatch(readDeployFile(t, name), -1) {
		found = append(found, match[1])
	}
	if len(found) == 0 {
		t.Errorf("%s has nothing like %s", name, pattern)
	}
	return found
}

// The examples set what the program reads, start what it can do, and meet on one port.
func TestDeploy_NamesWhatThereIs(t *testing.T) {
	settings := []string{"BREAKWRIGHT_DB_PASSWORD"} // deploy/database/create.sh reads it
	for _, s := range listSettings() {
		settings = append(settings, s.env)
	}
	for _, name := range deployFiles {
		for _, set := range regexp.MustCompile(`BREAKWRIGHT_[A-Z_]+`).FindAllString(readDeployFile(t, name), -1) {
			if !slices.Contains(settings, set) {
				t.Errorf("%s sets %s, which nothing reads", name, set)
			}
		}
	}
	for name, pattern := range map[string]string{
		"deploy/Dockerfile": `CMD \["(?:/breakwright", ")?([a-z]+)"\]`, "docker-compose.yml": `"/breakwright", "([a-z]+)"`, "deploy/breakwright.service": `ExecStart=\S+ (\w+)`,
		"deploy/README.md": `exec app /breakwright ([a-z]+)`,
	} {
		for _, word := range findInDeploy(t, name, pattern) {
			if !slices.ContainsFunc(listCommands(), func(c subcommand) bool { return c.name == word }) {
				t.Errorf("%s runs %q, which is no command", name, word)
			}
		}
	}
	port := findInDeploy(t, "deploy/Dockerfile", `BREAKWRIGHT_LISTEN=0\.0\.0\.0:(\d+)`)[0]
	for name, pattern := range map[string]string{
		"deploy/Dockerfile": `EXPOSE (\d+)`, "docker-compose.yml": `127\.0\.0\.1:\d+:(\d+)`, "deploy/kubernetes.yaml": `containerPort: (\d+)`, "deploy/nginx.conf": `proxy_pass http://127\.0\.0\.1:(\d+)`,
	} {
		if got := findInDeploy(t, name, pattern)[0]; got != port {
			t.Errorf("%s has the port %s, not %s", name, got, port)
		}
	}
}

// Kubernetes starts nothing that must not be root under a user without a number, since
// it cannot tell who that is (Kubernetes API, SecurityContext, runAsNonRoot).
func TestDeploy_UserIsANumber(t *testing.T) {
	findInDeploy(t, "deploy/kubernetes.yaml", `(runAsNonRoot: true)`)
	user := findInDeploy(t, "deploy/Dockerfile", `\nUSER (\S+)`)[0]
	if id, err := strconv.Atoi(user); err != nil || id == 0 {
		t.Errorf("the image's user is %q", user)
	}
}

// The probes ask what a server answers without a sign-in.
func TestDeploy_ProbesAreAnswered(t *testing.T) {
	clearSettings(t)
	t.Setenv("DATABASE_URL", storetest.NewEmptyDatabase(t))
	s := startCommand(t, "serve", "--listen", "127.0.0.1:0")
	site := strings.TrimPrefix(s.awaitLine(t), "Breakwright answers at ")
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	for _, path := range findInDeploy(t, "deploy/kubernetes.yaml", `httpGet: {path: (\S+),`) {
		answer, err := client.Get(site + path)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if answer.StatusCode != http.StatusOK {
			t.Errorf("%s is answered with %d", path, answer.StatusCode)
		}
	}
}
