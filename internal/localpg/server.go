package localpg

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
	// CopyOf is the data folder of a stopped server of the same version, which a new
	// cluster begins as a copy of; with "" it begins empty.
	CopyOf string
	// Log is called with what happens, a sentence at a time; nil says nothing.
	Log func(string)

	places        searchPlaces  // where to look for programs
	leavePatience time.Duration // how long a dying predecessor may take to let go
}

// withDefaults fills what a caller leaves out.
func (c Config) withDefaults() Config {
	if c.Log == nil {
		c.Log = func(string) {}
	}
	if c.places.patterns == nil {
		c.places = defaultPlaces()
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

	folder  *serverFolder
	socket  socketFolder
	process *serverProcess
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
	if err := server.startServer(ctx, config.withDefaults()); err != nil {
		server.releaseResources()
		return nil, fmt.Errorf("start PostgreSQL: %w", err)
	}
	return server, nil
}

func (s *Server) startServer(ctx context.Context, config Config) error {
	binaries, err := config.places.binariesFor(ctx, s.Dir)
	if err != nil {
		return err
	}
	who, err := chooseAccount(s.Dir)
	if err != nil {
		return err
	}
	if s.folder, err = claimFolder(s.Dir, who); err != nil {
		return err
	}
	if err := s.folder.checkReachable(binaries); err != nil {
		return err
	}
	made, err := s.folder.initialiseData(ctx, binaries, config)
	if err != nil {
		return err
	}
	if made {
		config.Log("Made a PostgreSQL data folder in " + s.Dir)
	}
	if s.socket, err = chooseSocketFolder(s.folder); err != nil {
		return err
	}
	if err := s.launchWithRetries(ctx, binaries, config); err != nil {
		return err
	}
	config.Log(fmt.Sprintf("PostgreSQL runs on %s", s.Dir))
	return nil
}

// launchWithRetries starts postgres, and again for a while when a predecessor that was
// killed has not left the folder yet: its parts take a moment to notice.
func (s *Server) launchWithRetries(ctx context.Context, binaries string, config Config) error {
	giveUp := time.Now().Add(config.leavePatience)
	for {
		err := s.launchOnce(ctx, binaries, config.Durable)
		if !errors.Is(err, errOccupied) {
			return err
		}
		if time.Now().After(giveUp) {
			return s.occupiedError(err)
		}
		if err := sleepUnlessDone(ctx, 100*time.Millisecond); err != nil {
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
	arguments := append([]string{"-D", s.folder.pathOf(dataFolder)}, serverSettings(s.socket.folder, durable)...)
	s.process, err = launchProcess(s.folder.owner.newCommand(s.Dir, filepath.Join(binaries, "postgres"), arguments...), log)
	if err != nil {
		return err
	}
	if err := s.waitUntilReady(ctx); err != nil {
		return s.withServerLog(err, from)
	}
	return nil
}

// Done is closed when the server has ended, asked or not.
func (s *Server) Done() <-chan struct{} { return s.process.ended }

// Stop shuts the server down and returns once it is gone; open transactions
// are rolled back. The folder stays. A second call does nothing.
func (s *Server) Stop() {
	s.once.Do(func() {
		s.process.shutDown(stopPatience)
		s.releaseResources()
	})
}

// releaseResources ends what a start has begun.
func (s *Server) releaseResources() {
	if s.process != nil && s.process.isRunning() {
		s.process.shutDown(stopPatience)
	}
	if s.socket.temporary {
		os.RemoveAll(s.socket.folder)
	}
	if s.folder != nil {
		s.folder.releaseLock()
	}
}
