package store

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/url"
	"strings"

	"github.com/jackc/pgx/v5"
)

// AppRole is the database role that the program works as. It owns nothing and
// cannot step over the walls between clubs and students.
const AppRole = "breakwright_app"

// AppDSN derives the address that [Open] takes from the address of the
// database's owner, which [Migrate] takes: the same server and database, the
// role [AppRole], and as its password the HMAC-SHA256 of the role's name in
// hexadecimal, keyed with secret. An empty secret means the owner's password,
// so that whoever runs it has one address to look after. Where neither is set, as on a
// private server reached through its socket, there is no password either.
//
// Changing the owner's password changes the app role's at the next Migrate.
func AppDSN(ownerDSN, secret string) (string, error) {
	config, err := pgx.ParseConfig(ownerDSN)
	if err != nil {
		return "", fmt.Errorf("read the database address: %w", err)
	}
	if secret == "" {
		secret = config.Password
	}
	return withUser(ownerDSN, AppRole, appPassword(secret))
}

func appPassword(secret string) string {
	if secret == "" {
		return ""
	}
	mac := hmac.New(sha256.New, []byte(secret))
	mac.Write([]byte(AppRole))
	return hex.EncodeToString(mac.Sum(nil))
}

// withUser changes the user and password of an address in either of
// PostgreSQL's two ways of writing one.
func withUser(dsn, user, password string) (string, error) {
	if !strings.HasPrefix(dsn, "postgres://") && !strings.HasPrefix(dsn, "postgresql://") {
		return fmt.Sprintf("%s user=%s password='%s'", dsn, user, password), nil // the last one counts
	}
	address, err := url.Parse(dsn)
	if err != nil {
		return "", fmt.Errorf("read the database address: %w", err)
	}
	address.User = url.User(user)
	if password != "" {
		address.User = url.UserPassword(user, password)
	}
	parameters := address.Query()
	parameters.Del("user")
	parameters.Del("password")
	address.RawQuery = strings.ReplaceAll(parameters.Encode(), "+", "%20") // to PostgreSQL a plus is a plus
	return address.String(), nil
}
