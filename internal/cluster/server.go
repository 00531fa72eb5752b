package cluster

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"
)

// Config says where a private server lives and how careful it is.
type Config struct {
	// Dir is the cluster's folder. It is made when missing, used again when it
	// is one of ours, and refused when it holds anything else.
	Dir string
	// Durable keeps PostgreSQL's promise to lose nothing. Without it a crash
	// may lose everything and all is faster: for tests.
	Durable bool
	// Log is told what happens, a sentence at a time; nil says nothing.
	Log func(string)

	places        places        // where to look for programs
	leavePatience time.Duration // how long a dying predecessor may take to let go
}

// withDefaults fills what a caller leaves out.
func (c Config) withDefaults() Config {
	if c.Log == nil {
		c.Log = func(string) {}
	}
	if c.places.patterns == nil {
		c.places = usualPlaces()
	}
	if c.leavePatience == 0 {
		c.leavePatience = 8 * time.Second
	}
	return c
}

// Server is a running private PostgreSQL. Its methods may be called from many
// goroutines.
type Server struct {
	// Dir is the cluster's folder, absolute: data/, log and lock.
	Dir string

	folder  *folder
	socket  socket
	process *process
	once    sync.Once
}

// How long to wait for a shutdown before it is forced, and for a start that
// may have to replay a long log after a crash.
const (
	stopPatience  = 10 * time.Second
	startPatience = 2 * time.Minute
)

// Start runs a private server on config.Dir and returns once it answers. Data
// from an earlier run is kept, and recovered when that run was killed. The
// server ends with [Server.Stop], and on Linux also when this process dies.
//
// Errors to test for: [ErrNoPostgres], [ErrRunning]. All of them say in words
// what to do next.
func Start(ctx context.Context, config Config) (_ *Server, err error) {
	dir, err := filepath.Abs(config.Dir)
	if err != nil {
		return nil, fmt.Errorf("start PostgreSQL: %w", err)
	}
	server := &Server{Dir: dir}
	if err := server.start(ctx, config.withDefaults()); err != nil {
		server.letGo()
		return nil, fmt.Errorf("start PostgreSQL: %w", err)
	}
	return server, nil
}

func (s *Server) start(ctx context.Context, config Config) error {
	binaries, err := config.places.binariesFor(ctx, s.Dir)
	if err != nil {
		return err
	}
	who, err := accountFor(s.Dir)
	if err != nil {
		return err
	}
	if s.folder, err = claim(s.Dir, who); err != nil {
		return err
	}
	if err := s.folder.reach(binaries); err != nil {
		return err
	}
	made, err := s.folder.initialise(ctx, binaries, config.Durable)
	if err != nil {
		return err
	}
	if made {
		config.Log("Made a PostgreSQL data folder in " + s.Dir)
	}
	if s.socket, err = socketFor(s.folder); err != nil {
		return err
	}
	if err := s.launch(ctx, binaries, config); err != nil {
		return err
	}
	config.Log(fmt.Sprintf("PostgreSQL runs on %s", s.Dir))
	return nil
}

// launch starts postgres, and again for a while when a predecessor that was
// killed has not left the folder yet: its parts take a moment to notice.
func (s *Server) launch(ctx context.Context, binaries string, config Config) error {
	giveUp := time.Now().Add(config.leavePatience)
	for {
		err := s.launchOnce(ctx, binaries, config.Durable)
		if !errors.Is(err, errOccupied) {
			return err
		}
		if time.Now().After(giveUp) {
			return s.occupied(err)
		}
		if err := pause(ctx, 100*time.Millisecond); err != nil {
			return err
		}
	}
}

func (s *Server) launchOnce(ctx context.Context, binaries string, durable bool) error {
	log, err := s.folder.openLog()
	if err != nil {
		return err
	}
	defer log.Close()
	from, err := log.Seek(0, io.SeekEnd)
	if err != nil {
		return err
	}
	arguments := append([]string{"-D", s.folder.in(dataFolder)}, settings(s.socket.folder, durable)...)
	s.process, err = launch(s.folder.who.command(s.Dir, filepath.Join(binaries, "postgres"), arguments...), log)
	if err != nil {
		return err
	}
	if err := s.untilReady(ctx); err != nil {
		return s.explain(err, from)
	}
	return nil
}

// Done is closed when the server has ended, asked or not.
func (s *Server) Done() <-chan struct{} { return s.process.ended }

// Stop shuts the server down and returns once it is gone; open transactions
// are rolled back. The folder stays. A second call does nothing.
func (s *Server) Stop() {
	s.once.Do(func() {
		s.process.stop(stopPatience)
		s.letGo()
	})
}

// letGo ends what a start has begun.
func (s *Server) letGo() {
	if s.process != nil && s.process.alive() {
		s.process.stop(stopPatience)
	}
	if s.socket.temporary {
		os.RemoveAll(s.socket.folder)
	}
	if s.folder != nil {
		s.folder.release()
	}
}
