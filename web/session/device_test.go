package session

import "testing"

// User agents as their makers' pages give them, shortened.
func TestDeviceWords(t *testing.T) {
	for agent, want := range map[string]string{
		"Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0":                                                                    "Firefox on Android",
		"Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1": "Safari on iPhone",
		"Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/150.0.0.0 Safari/537.36 Edg/150.0.0.0":           "Edge on Windows",
		"Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/150.0.0.0 Safari/537.36":                   "Chrome on a Mac",
		"curl/8.0": "an unknown browser", "": "an unknown browser",
	} {
		if got := deviceWords(agent); got != want {
			t.Errorf("%q is %q, want %q", agent, got, want)
		}
	}
}
