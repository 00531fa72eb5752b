package session

import (
	"fmt"
	"net/http"
	"strings"
	"time"

	"breakwright/internal/account"
)

// deviceLife is how long a browser is known after a sign-in.
const deviceLife = 365 * 24 * time.Hour

// DeviceHash returns the hash of this browser's own token, and has the browser
// keep one where it has none. It says nothing of a person: whom the store knows
// it for, it is known for.
func (m *Manager) DeviceHash(w http.ResponseWriter, r *http.Request) ([]byte, error) {
	cookie, _ := m.devices.Get(r, deviceCookie) // a bad cookie gives a usable new one
	if token, ok := cookie.Values["token"].(string); ok {
		return account.HashToken(token), nil
	}
	token, hash := account.NewToken()
	cookie.Values["token"] = token
	if err := cookie.Save(r, w); err != nil {
		return nil, fmt.Errorf("session: keep the device's token: %w", err)
	}
	return hash, nil
}

// deviceWords says what a browser calls itself, as a person would: "Firefox on
// Android". Programs say what they like, so it is a hint and no proof.
func deviceWords(userAgent string) string {
	browser, system := firstNamed(userAgent, browserMarks), firstNamed(userAgent, systemMarks)
	switch {
	case browser == "" && system == "":
		return "an unknown browser"
	case system == "":
		return browser
	case browser == "":
		return "a browser on " + system
	}
	return browser + " on " + system
}

// mark is a word in a user agent, and what it stands for.
type mark struct{ word, name string }

// The marks in an order in which the first that is found is right: Edge calls
// itself Chrome too, Chrome Safari. Common practice of browsers, no standard.
var (
	browserMarks = []mark{{"Edg", "Edge"}, {"OPR/", "Opera"}, {"SamsungBrowser", "Samsung Internet"}, {"Firefox", "Firefox"},
		{"FxiOS", "Firefox"}, {"CriOS", "Chrome"}, {"Chrome", "Chrome"}, {"Safari", "Safari"}}
	systemMarks = []mark{{"Android", "Android"}, {"iPhone", "iPhone"}, {"iPad", "iPad"}, {"CrOS", "ChromeOS"},
		{"Windows", "Windows"}, {"Mac OS X", "a Mac"}, {"Linux", "Linux"}}
)

func firstNamed(text string, marks []mark) string {
	for _, m := range marks {
		if strings.Contains(text, m.word) {
			return m.name
		}
	}
	return ""
}
