package config_test

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"crosslay/config"
)

func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	s, err := jsonschema.NewCompiler().Compile("department.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// instance is YAML as the JSON that an editor would hold against the schema.
func instance(t *testing.T, data []byte) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal(data, &v); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestSchemaAcceptsWhatParseAccepts(t *testing.T) {
	s := schema(t)
	files := map[string][]byte{"small": []byte(small), "example": config.ExampleYAML}
	for _, path := range []string{"../testdata/saw-and-fan.yaml"} {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files[path] = data
	}
	for name, data := range files {
		if err := s.Validate(instance(t, data)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// beyond are the mistakes that a schema cannot see: blocks that contradict each
// other, and what YAML itself refuses.
var beyond = map[string]bool{
	"key_twice": true, "anchor": true, "second_document": true, "secret_in_a_comment": true, "zone": true,
	"rota_stranger": true, "rota_idle": true, "rota_broken_days": true, "rota_start": true,
	"station_twice": true, "road_to_nowhere": true, "room_twice": true, "company_without_room": true, "company_nowhere": true,
	"company_names_collide": true, "shop_closes_first": true, "person_of_nowhere": true, "crew_without_company": true,
	"account_twice": true, "sheet_unused": true, "limits_upside_down": true, "number_of_another_unit": true, "damage_twice": true,
	"check_twice": true, "check_names_collide": true, "repeat_to_the_shop": true, "kind_unknown": true, "item_twice": true,
	"number_twice": true, "item_of_nowhere": true, "hangs_on_nothing": true, "hangs_on_itself": true,
	"check_called_good": true, "item_called_ok": true, "sheet_called_all": true, "damage_called_bad": true,
	"hangs_on_another_company": true, "ladder_order": true, "hours_at_the_service": true, "name_is_a_number": true,
	"floor_above_full": true, // 3/2 is text to a schema
}

func TestSchemaRefusesWhatItCanSee(t *testing.T) {
	s := schema(t)
	for _, m := range mistakes {
		if beyond[m.name] {
			continue
		}
		t.Run(m.name, func(t *testing.T) {
			if err := s.Validate(instance(t, []byte(strings.Replace(small, m.old, m.new, 1)))); err == nil {
				t.Errorf("the schema accepts what gives\n%s", m.want)
			}
		})
	}
}
