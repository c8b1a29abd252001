package sqlite

import (
	"database/sql"
	"path/filepath"
	"strings"
	"testing"
)

// TestNoStatementScansATable: the cost of an event must not grow with the years,
// so every statement that the writer has prepared goes by an index.
func TestNoStatementScansATable(t *testing.T) {
	s, err := Open(filepath.Join(t.TempDir(), "c.db"), Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	grows := map[string]bool{"inbox": true, "outbox": true, "record": true, "defect": true}
	for _, query := range statements(t, s) {
		for _, step := range plan(t, s, query) {
			words := strings.Fields(step)
			if words[0] == "SCAN" && grows[words[1]] && !strings.Contains(step, "INDEX") {
				t.Errorf("%s\n%s", step, query)
			}
		}
	}
}

func plan(t *testing.T, s *Store, query string) (steps []string) {
	t.Helper()
	rows, err := s.w.conn.QueryContext(t.Context(), "EXPLAIN QUERY PLAN "+query, make([]any, strings.Count(query, "?"))...)
	if err != nil {
		t.Fatalf("%s: %v", query, err)
	}
	err = drain(rows, func(rows *sql.Rows) error {
		var id, parent, unused int
		var step string
		err := rows.Scan(&id, &parent, &unused, &step)
		steps = append(steps, step)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return steps
}

// statements exercises the store and lists what it prepared by that.
func statements(t *testing.T, s *Store) (list []string) {
	t.Helper()
	exercise(t, s)
	for query := range s.w.stmts {
		switch strings.Fields(query)[0] {
		case "SELECT", "UPDATE", "DELETE":
			list = append(list, query)
		}
	}
	for _, group := range indexed {
		query, _ := outgoing(group.states)
		one, _ := outgoing(group.states[1:])
		list = append(list, query, one)
	}
	list = append(list, `SELECT seq, reason, body FROM inbox WHERE state = 'parked' ORDER BY seq`)
	if len(list) < 20 {
		t.Errorf("only %d statements were tried", len(list))
	}
	return list
}
