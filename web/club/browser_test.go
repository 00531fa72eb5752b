//go:build !quick

package club_test

import (
	"net/url"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/browser"
	"breakwright/web/webtest"
)

// busySite is a club with two coaches, one of them removed, links not used, a
// second step begun, and a student who is locked out.
func busySite(t *testing.T) (site *webtest.Site, invite string) {
	t.Helper()
	site = webtest.New(t)
	token, hash := account.NewToken()
	second, ended := account.HashToken("second"), account.HashToken("ended")
	for _, link := range [][]byte{hash, second, ended} {
		if err := site.Store.InviteCoach(t.Context(), site.Coach, link, time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	for name, link := range map[string][]byte{"Levi": second, "Theodora Constantinopoulou-Fotheringham of the Harbour": ended} {
		coach := store.NewCoach{Name: name, Login: name[:4] + site.Coach.Club.String(), SecretHash: "$argon2id$x"}
		who, err := site.Store.AcceptInvite(t.Context(), link, coach)
		if err == nil && name == "Levi" {
			err = site.Store.ArchivePerson(t.Context(), site.Coach, who.Person)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	site.SignInStudent(t, site.Students[0])
	for range account.LimitOfPIN().ByStrangers {
		site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {site.Students[0].Code}, "secret": {"guess"}})
	}
	return site, site.URL + "/invite/" + token
}

// coachLaptop is the size of the laptop that coaches were watched on.
var coachLaptop = browser.Size{Width: 1366, Height: 768}

// The pages are within reach of everybody, by day and by night, and none is
// wider than the window.
func TestPagesInTheBrowser(t *testing.T) {
	site, invite := busySite(t)
	for _, size := range []browser.Size{browser.Phone, coachLaptop} {
		w := browser.OpenWindow(t, size)
		w.CheckLightAndDark(invite, "invite")
		w.SignIn(site.URL, site.Login, storetest.Passphrase)
		for name, path := range map[string]string{"account": "/account", "club": "/club", "step": "/account/step", "desk-locked": "/desk"} {
			w.CheckLightAndDark(site.URL+path, name)
		}
		if err := site.Store.BeginSecondStep(t.Context(), site.Coach, account.NewTOTPSecret()); err != nil {
			t.Fatal(err)
		}
		w.CheckLightAndDark(site.URL+"/account/step", "step-begun")
		if err := site.Store.DropSecondStep(t.Context(), site.Coach); err != nil {
			t.Fatal(err)
		}
		student := browser.OpenWindow(t, size)
		site.SignInStudent(t, site.Students[1])
		student.SignIn(site.URL, site.Students[1].Code, webtest.PIN)
		student.CheckLightAndDark(site.URL+"/account", "account-student")
	}
}

// Who chose dark has it on a device that is light.
func TestThemeInTheBrowser(t *testing.T) {
	site := webtest.New(t)
	w := browser.OpenWindow(t, browser.Laptop)
	w.SetDark(false)
	w.SignIn(site.URL, site.Login, storetest.Passphrase)
	paper := func() string {
		w.Navigate(site.URL + "/account")
		return browser.Evaluate[string](w, "getComputedStyle(document.body).backgroundColor")
	}
	light := paper()
	w.RunToNextPage(chromedp.Click(chromedp.CSS("input[value=dark]")), chromedp.Click(chromedp.CSS("form[action='/account/theme'] button")))
	dark := paper()
	w.SetDark(true)
	if again := paper(); again != dark || dark == light {
		t.Errorf("light %s, dark by choice %s, and on a dark device %s", light, dark, again)
	}
	w.RunToNextPage(chromedp.Click(chromedp.CSS("input[value=light]")), chromedp.Click(chromedp.CSS("form[action='/account/theme'] button")))
	if again := paper(); again != light {
		t.Errorf("light by choice on a dark device is %s, want %s", again, light)
	}
}
