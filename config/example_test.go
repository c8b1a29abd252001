package config_test

import (
	"testing"

	"crosslay/config"
)

func TestFilesOfTheRepositoryHaveNoMistakes(t *testing.T) {
	for _, path := range []string{"example.yaml", "../testdata/saw-and-fan.yaml"} {
		if _, err := config.Load(path); err != nil {
			t.Errorf("%s:\n%v", path, err)
		}
	}
}
