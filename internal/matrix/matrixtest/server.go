// Package matrixtest starts a real homeserver on this machine and has people talk
// on it, for the tests of the Matrix backend and of the whole bot. The homeserver
// is built from the nested module beside this package and kept between runs.
package matrixtest

import (
	"bytes"
	"context"
	"crypto/hmac"
	"crypto/sha1"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"
)

// Domain is the server's name in accounts and addresses.
const Domain = "localhost"

// Password is everybody's.
const Password = "correct horse"

// Server is a homeserver that can be killed and started again. Its data live as
// long as the test.
type Server struct {
	URL string

	bin, dir, address string
	process           *exec.Cmd
	log               *os.File
}

// Start builds the homeserver if it has not been, and runs a fresh one until the
// test ends. It fails the test where that does not work.
func Start(t testing.TB) *Server {
	t.Helper()
	if testing.Short() {
		t.Skip("a homeserver is not for short tests")
	}
	s := &Server{bin: build(t), dir: t.TempDir(), address: freeAddress(t)}
	s.URL = "http://" + s.address
	if err := os.WriteFile(filepath.Join(s.dir, "server.yaml"), []byte(config), 0o600); err != nil {
		t.Fatal(err)
	}
	s.prepare(t)
	if out, err := s.command("generate-keys", "--private-key", "matrix_key.pem").CombinedOutput(); err != nil {
		t.Fatalf("make the homeserver's key: %v\n%s", err, out)
	}
	log, err := os.Create(filepath.Join(s.dir, "server.log"))
	if err != nil {
		t.Fatal(err)
	}
	s.log = log
	t.Cleanup(func() {
		s.Kill()
		log.Close()
	})
	s.Up(t)
	return s
}

// config is the smallest that works; everything is beside it.
const config = `version: 2
global: {server_name: localhost, private_key: matrix_key.pem, disable_federation: true, jetstream: {storage_path: ./jetstream, in_memory: false}}
client_api: {registration_disabled: true, registration_shared_secret: s3cret, rate_limiting: {enabled: false}}
federation_api: {database: {connection_string: "file:federationapi.db"}, key_perspectives: []}
key_server: {database: {connection_string: "file:keyserver.db"}}
media_api: {base_path: ./media, database: {connection_string: "file:mediaapi.db"}}
mscs: {database: {connection_string: "file:mscs.db"}}
room_server: {database: {connection_string: "file:roomserver.db"}}
sync_api: {database: {connection_string: "file:syncapi.db"}}
relay_api: {database: {connection_string: "file:relayapi.db"}}
user_api: {bcrypt_cost: 4, account_database: {connection_string: "file:userapi.db"}}
logging: [{type: std, level: warn}]
`

var databases = regexp.MustCompile(`file:(\w+\.db)`)

// prepare makes the databases in the mode in which readers do not lock writers
// out. In the other one the homeserver locks itself up, now and then, when a
// client dies in the middle of a request.
func (s *Server) prepare(t testing.TB) {
	t.Helper()
	for _, name := range databases.FindAllStringSubmatch(config, -1) {
		db, err := sql.Open("sqlite", filepath.Join(s.dir, name[1]))
		if err != nil {
			t.Fatal(err)
		}
		_, err = db.Exec(`PRAGMA journal_mode = WAL`)
		if err := errors.Join(err, db.Close()); err != nil {
			t.Fatal(err)
		}
	}
}

// build builds the homeserver into the user's cache, once for each state of the
// nested module.
func build(t testing.TB) string {
	t.Helper()
	_, here, _, _ := runtime.Caller(0)
	module := filepath.Join(filepath.Dir(here), "..", "homeserver")
	sum, err := os.ReadFile(filepath.Join(module, "go.sum"))
	if err != nil {
		t.Fatalf("the homeserver's module is not there: %v", err)
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatalf("no place to keep the homeserver: %v", err)
	}
	hash := sha256.Sum256(append(sum, runtime.Version()...))
	bin := filepath.Join(cache, "crosslay", "homeserver-"+hex.EncodeToString(hash[:6]))
	if err := os.MkdirAll(filepath.Dir(bin), 0o755); err != nil {
		t.Fatal(err)
	}
	unlock, err := lock(bin + ".lock") // the packages that need it are tested at the same time
	if err != nil {
		t.Fatal(err)
	}
	defer unlock()
	if exists(filepath.Join(bin, "dendrite")) {
		return bin
	}
	fresh, err := os.MkdirTemp(filepath.Dir(bin), "building-")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(fresh)
	cmd := exec.Command("go", "build", "-o", fresh+string(filepath.Separator), "tool")
	cmd.Dir = module
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOFLAGS=-mod=readonly", "GOWORK=off")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("The homeserver for the Matrix tests cannot be built in %s; its modules come from the Go module proxy: %v\n%s", module, err, out)
	}
	if err := os.Rename(fresh, bin); err != nil && !errors.Is(err, os.ErrExist) && !exists(filepath.Join(bin, "dendrite")) {
		t.Fatal(err)
	}
	return bin
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// taken are the ports given out in this process.
var taken sync.Map

// freeAddress finds a port that nobody listens on. It lies below those that the system
// gives out by itself, and is given out once: between finding it and the server's
// listening on it, another server of the tests must not find it too.
func freeAddress(t testing.TB) string {
	t.Helper()
	for range 200 {
		port := 20000 + rand.IntN(12000)
		if _, had := taken.LoadOrStore(port, true); had {
			continue
		}
		l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
		if err != nil {
			continue
		}
		l.Close()
		return l.Addr().String()
	}
	t.Fatal("no port is free for the homeserver")
	return ""
}

func (s *Server) command(name string, args ...string) *exec.Cmd {
	cmd := exec.Command(filepath.Join(s.bin, name), args...)
	cmd.Dir = s.dir
	return cmd
}

// Up starts the homeserver, at its old address and with its old data, and waits
// until it answers.
func (s *Server) Up(t testing.TB) {
	t.Helper()
	s.process = s.command("dendrite", "--config", "server.yaml", "--http-bind-address", s.address)
	s.process.Stdout, s.process.Stderr = s.log, s.log
	if err := s.process.Start(); err != nil {
		t.Fatalf("start the homeserver: %v", err)
	}
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		resp, err := http.Get(s.URL + "/_matrix/client/versions")
		if err != nil {
			continue
		}
		resp.Body.Close()
		if resp.StatusCode == http.StatusOK {
			return
		}
	}
	t.Fatalf("The homeserver does not answer at %s. It says:\n%s", s.URL, s.Said())
}

// Said is what the homeserver last wrote to its log.
func (s *Server) Said() string {
	said, err := os.ReadFile(s.log.Name())
	if err != nil {
		return err.Error()
	}
	const most = 4000
	return string(said[max(0, len(said)-most):])
}

// Kill ends the homeserver as a power cut would.
func (s *Server) Kill() {
	if s.process == nil {
		return
	}
	_ = s.process.Process.Signal(syscall.SIGKILL)
	_ = s.process.Wait()
	s.process = nil
}

// Register makes an account and returns its full name.
func (s *Server) Register(t testing.TB, name string) string {
	t.Helper()
	url := s.URL + "/_synapse/admin/v1/register"
	var nonce struct{ Nonce string }
	if err := s.call(http.MethodGet, url, nil, &nonce); err != nil {
		t.Fatalf("register %s: %v", name, err)
	}
	mac := hmac.New(sha1.New, []byte("s3cret"))
	mac.Write([]byte(strings.Join([]string{nonce.Nonce, name, Password, "notadmin"}, "\x00")))
	body := map[string]any{"nonce": nonce.Nonce, "username": name, "password": Password, "admin": false, "mac": hex.EncodeToString(mac.Sum(nil))}
	var account struct {
		UserID string `json:"user_id"`
	}
	if err := s.call(http.MethodPost, url, body, &account); err != nil {
		t.Fatalf("register %s: %v", name, err)
	}
	return account.UserID
}

func (s *Server) call(method, url string, body, into any) error {
	raw, err := json.Marshal(body)
	if err != nil {
		return err
	}
	req, err := http.NewRequestWithContext(context.Background(), method, url, bytes.NewReader(raw))
	if err != nil {
		return err
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return err
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return fmt.Errorf("the homeserver answers %s", resp.Status)
	}
	return json.NewDecoder(resp.Body).Decode(into)
}
