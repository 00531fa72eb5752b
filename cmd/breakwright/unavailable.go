package main

import (
	"errors"
	"fmt"
	"net"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"
)

// reasonUnavailable says in one line, without the address's user, where nobody
// answered and what the system says of it.
func reasonUnavailable(err error) string {
	var answered *pgconn.PgError
	if errors.As(err, &answered) {
		return answered.Message
	}
	var dialled *net.OpError
	if errors.As(err, &dialled) && dialled.Addr != nil {
		return fmt.Sprintf("%s: %v", dialled.Addr, dialled.Err)
	}
	lines := strings.Split(err.Error(), "\n")
	return strings.TrimSpace(lines[len(lines)-1])
}
