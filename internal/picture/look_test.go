package picture

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// TestLook writes the pictures of the tests to a directory, to be looked at:
// PICTURES=/tmp/p go test -run TestLook ./internal/picture
func TestLook(t *testing.T) {
	dir := os.Getenv("PICTURES")
	if dir == "" {
		t.Skip("PICTURES names no directory")
	}
	for name, p := range samples() {
		data, err := p.png()
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name+".png"), data, 0o644); err != nil {
			t.Fatal(err)
		}
		fmt.Println(name, p.height, len(data))
	}
}
