package account

import (
	"net/netip"
	"strconv"
	"testing"
)

func TestNetworkBucket_OneForANetwork(t *testing.T) {
	key := []byte("a key")
	bucket := func(address string) int { return NetworkBucket(key, netip.MustParseAddr(address)) }
	if bucket("2001:db8:1:2::3") != bucket("2001:db8:1:2:ffff::9") {
		t.Error("two addresses of one household are two networks")
	}
	if bucket("2001:db8:1:2::3") == bucket("2001:db8:1:3::3") {
		t.Error("two households are one network")
	}
	if bucket("192.0.2.7") != bucket("::ffff:192.0.2.7") {
		t.Error("an address is another in its long form")
	}
	used := map[int]bool{}
	for i := range 2000 {
		b := bucket("10.0." + strconv.Itoa(i/250) + "." + strconv.Itoa(i%250))
		if b < 0 || b >= networkBuckets {
			t.Fatalf("bucket %d", b)
		}
		used[b] = true
	}
	// Of 2000 balls in 65536 boxes about 30 share one (2000²/2/65536).
	if len(used) < 1900 {
		t.Errorf("2000 networks share %d buckets", len(used))
	}
	if bucket("192.0.2.7") == NetworkBucket([]byte("another key"), netip.MustParseAddr("192.0.2.7")) {
		t.Error("the key makes no difference")
	}
	NetworkBucket(key, netip.Addr{}) // no address at all is counted, too
}

// The share of four-digit PINs that can be tried between two looks of a coach.
func TestLimitOfPIN_BelowOneInAThousand(t *testing.T) {
	limit := LimitOfPIN()
	if tries := limit.OnDevice + limit.ByStrangers; tries*1000 >= 10_000 {
		t.Errorf("%d tries of 10,000 PINs", tries)
	}
	if limit.OpensItself {
		t.Error("a student's lock opens by itself")
	}
}
