package account

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/binary"
	"net/netip"
	"time"
)

// SecretLimit is how often a person's secret may be tried wrongly. Devices on
// which the person has signed in have tries of their own, so that strangers
// lock nobody out of their own phone.
type SecretLimit struct {
	OnDevice    int           // wrong in a row on a known device, before it is a stranger
	ByStrangers int           // wrong on all other devices, within Window
	Window      time.Duration // after which a count begins anew
	// OpensItself says that a lock opens after the Window; else somebody opens it.
	OpensItself bool
}

// LimitOfPIN is a student's: nine tries at most, between two looks of the coach.
// Of the 10,000 PINs of four digits that is a chance of a hit below 1 in 1,000.
func LimitOfPIN() SecretLimit {
	return SecretLimit{OnDevice: 4, ByStrangers: 5, Window: 7 * 24 * time.Hour}
}

// LimitOfPassphrase is a coach's, whose passphrase is long; with nobody there to
// open it, the lock opens by itself.
func LimitOfPassphrase() SecretLimit {
	return SecretLimit{OnDevice: 10, ByStrangers: 10, Window: time.Hour, OpensItself: true}
}

// NetworkLimit is how many wrong tries may come from one network, whoever they
// are about. It is wide, since a whole club may sit behind one address: what it
// slows is guessing codes and names.
type NetworkLimit struct {
	Burst     float64 // at once
	PerSecond float64 // regained
}

// LimitOfNetwork allows 300 wrong tries at once, and 300 more an hour. Against
// 27 to the power of 8 codes, a thousand of them in use, 600 guesses in an hour
// hit with a chance of 2 in a million.
func LimitOfNetwork() NetworkLimit { return NetworkLimit{Burst: 300, PerSecond: 300.0 / 3600} }

// networkBuckets is how many networks are told apart: a bound on what is kept.
const networkBuckets = 1 << 16

// NetworkBucket returns the bucket, from 0 to 65535, in which the tries of an
// address's network are counted: the address itself for IPv4, its /64 for IPv6.
// The key keeps others from choosing whom they share a bucket with.
func NetworkBucket(key []byte, address netip.Addr) int {
	address = address.Unmap().WithZone("")
	bits := address.BitLen()
	if address.Is6() {
		bits = 64
	}
	network, _ := address.Prefix(bits) // an invalid address is a network of its own
	mac := hmac.New(sha256.New, key)
	mac.Write([]byte(network.String()))
	return int(binary.BigEndian.Uint64(mac.Sum(nil)) % networkBuckets)
}
