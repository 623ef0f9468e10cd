package bench_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"hotroom/advisor/bench"
	"hotroom/knowledge"
)

func number(v float64) *float64 { return &v }

// A run comes back from its JSON as it was, and the JSON has a key for every
// column of runs.csv, in their order.
func TestRowRoundTrip(t *testing.T) {
	run := knowledge.Run{
		ID: "a", Date: "2025-06-01", Board: "b", Chip: "c", Firmware: "1", Enclosure: "e", Cooler: "k", Thermometer: "t", Load: "l",
		Setup: "custom", PowerLimitW: number(1), CurrentLimitA: number(2), RoomC: 3, GraphicsW: 4, AltitudeM: 5, Minutes: number(6),
		GHz: number(7), Volts: number(8), PackageW: number(9), HotC: number(10), Outcome: "settled", By: "me", Note: "n",
	}
	text, err := json.Marshal(bench.NewRow(&run))
	if err != nil {
		t.Fatal(err)
	}
	var row bench.Row
	if err := json.Unmarshal(text, &row); err != nil {
		t.Fatal(err)
	}
	back, err := row.Run()
	if err != nil || !reflect.DeepEqual(back, run) {
		t.Errorf("got %+v (%v)", back, err)
	}
	var keys []string
	for _, part := range strings.Split(strings.Trim(string(text), "{}"), ",") {
		keys = append(keys, strings.Trim(strings.SplitN(part, ":", 2)[0], `"`))
	}
	if !slices.Equal(keys, knowledge.RunColumns()) {
		t.Errorf("the keys are %v", keys)
	}
	if _, err := (&bench.Row{}).Run(); err == nil || err.Error() != "the run has no room_c: give the mean room temperature under load, °C" {
		t.Errorf("without a room: %v", err)
	}
}

// Where there is no value the JSON says null, and lists are never null.
func TestNulls(t *testing.T) {
	s := usual()
	s.loadW, s.riseK = s.idleW, 5
	r := reduce(t, s.text(writing{}), bench.Options{})
	text, err := json.Marshal(bench.Result{Run: bench.NewRow(&knowledge.Run{}), Quality: r.Quality})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`"id":null`, `"hot_c":null`, `"grade":"D"`, `"settled":false`, `"settle_c":null`, `"settle_low_c":null`, `"settle_high_c":null`,
		`"time_constant_min":null`, `"throttled":null`, `"throttle_events":[]`, `"uncertainty_c":null`, `"budget":[]`,
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("there is no %s in %s", want, text)
		}
	}
}
