package signin

import (
	"net/http"
	"net/netip"

	"breakwright/internal/account"
	"breakwright/internal/store"
)

// try is one look at a secret or a code, counted before it is made.
type try struct {
	who    store.Actor // zero when nobody was found
	kind   store.TryKind
	device []byte
	bucket int
}

// isLocked reports whether the person has to be freed first.
func (t try) isLocked() bool { return t.kind == store.TryLocked }

// bucketOf returns the bucket of the network that a request came from.
func (d *Pages) bucketOf(r *http.Request) int {
	peer, _ := netip.ParseAddrPort(r.RemoteAddr) // no address is a network of its own
	return account.NetworkBucket(d.bucketKey, peer.Addr())
}

// takeTry counts a try at somebody's secret. A device that the person knows is
// counted for itself; any other also for its network, which may be refused with
// TooMany.
func (d *Pages) takeTry(w http.ResponseWriter, r *http.Request, who store.Actor) (t try, err error) {
	t = try{who: who, bucket: d.bucketOf(r)}
	if t.device, err = d.Sessions.DeviceHash(w, r); err != nil {
		return t, err
	}
	if !store.IsZero(who.Person) {
		if t.kind, err = d.Store.TakeTry(r.Context(), who, t.device, d.now()); err != nil || t.kind != store.TryByStranger {
			return t, err
		}
	}
	allowed, err := d.Store.TakeNetworkTry(r.Context(), t.bucket, d.now())
	if err != nil || allowed {
		return t, err
	}
	if !store.IsZero(who.Person) {
		if err := d.Store.ReturnTry(r.Context(), who); err != nil {
			return t, err
		}
	}
	return t, d.TooMany
}

// settleTry notes that a try was right: it does not count, and the device is
// known.
func (d *Pages) settleTry(r *http.Request, t try) error {
	if t.kind == store.TryByStranger {
		if err := d.Store.ReturnNetworkTry(r.Context(), t.bucket); err != nil {
			return err
		}
	}
	return d.Store.SettleTry(r.Context(), t.who, t.device, t.kind, d.now())
}

// countGuess counts a link or a code that nobody has; those that somebody has
// cost nothing, so that a whole class can open theirs at once.
func (d *Pages) countGuess(r *http.Request) error {
	allowed, err := d.Store.TakeNetworkTry(r.Context(), d.bucketOf(r), d.now())
	if err == nil && !allowed {
		return d.TooMany
	}
	return err
}
