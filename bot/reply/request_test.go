package reply

import (
	"testing"
	"time"

	"crosslay/bot/dept"
)

var requestKnown = Names{
	Companies: map[string]dept.CompanyID{"e1": "E1", "engine 1": "E1", "engine one": "E1", "e2": "E2", "engine 2": "E2", "e3": "E3", "engine 3": "E3"},
	Stations:  map[string]dept.StationID{"station 2": "st2", "st2": "st2"},
	Items:     map[string]dept.ItemID{"pu-07": "pump", "s-01": "saw", "the blue one": "blue"},
}

func TestReadRequest(t *testing.T) {
	tests := []struct {
		text string
		want Request
	}{
		{"status", Request{Kind: RequestStatus}},
		{"Status?", Request{Kind: RequestStatus}},
		{"status please", Request{Kind: RequestStatus}},
		{"what's ready", Request{Kind: RequestStatus}},
		{"who's in service", Request{Kind: RequestStatus}},
		{"how is engine 3", Request{Kind: RequestStatus, Company: "E3"}},
		{"how's engine one doing?", Request{Kind: RequestStatus, Company: "E1"}},
		{"status station 2", Request{Kind: RequestStatus, Station: "st2"}},
		{"status of station 2 please", Request{Kind: RequestStatus, Station: "st2"}},
		{"status e3", Request{Kind: RequestStatus, Company: "E3"}},
		{"can engine 3 cut", Request{Kind: RequestStatus, Company: "E3", Check: "cut"}},
		{"can E3 cut and spread?", Request{Kind: RequestStatus, Company: "E3", Check: "cut and spread"}},
		{"who can spread?", Request{Kind: RequestStatus, Check: "spread"}},
		{"is PU-07 back in service?", Request{Kind: RequestStatus, Item: "pump"}},
		{"is pu 7 ok", Request{Kind: RequestStatus, Item: "pump"}},
		{"what is out of service", Request{Kind: RequestOutOfService}},
		{"oos", Request{Kind: RequestOutOfService}},
		{"OOS list", Request{Kind: RequestOutOfService}},
		{"what's out of service at station 2?", Request{Kind: RequestOutOfService, Station: "st2"}},
		{"anything out of service on e1", Request{Kind: RequestOutOfService, Company: "E1"}},
		{"who has not checked", Request{Kind: RequestNotChecked}},
		{"who hasn't checked yet?", Request{Kind: RequestNotChecked}},
		{"who is missing", Request{Kind: RequestNotChecked}},
		{"not checked", Request{Kind: RequestNotChecked}},
		{"what is down?", Request{Kind: RequestOutOfService}},
		{"open defects", Request{Kind: RequestOpenDefects}},
		{"what's broken", Request{Kind: RequestOpenDefects}},
		{"defects on engine 2", Request{Kind: RequestOpenDefects, Company: "E2"}},
		{"fuel", Request{Kind: RequestFuel}},
		{"how much fuel on e3", Request{Kind: RequestFuel, Company: "E3"}},
		{"how much fuel does engine 3 have left?", Request{Kind: RequestFuel, Company: "E3"}},
		{"fuel in PU-07", Request{Kind: RequestFuel, Item: "pump"}},
		{"history of PU-07", Request{Kind: RequestHistory, Item: "pump"}},
		{"PU07 history", Request{Kind: RequestHistory, Item: "pump"}},
		{"history of PU-07 throttle", Request{Kind: RequestHistory, Item: "pump", Check: "throttle"}},
		{"what happened with the saw on e1", Request{Kind: RequestHistory, Company: "E1", Check: "saw"}},
		{"what happened to s-01?", Request{Kind: RequestHistory, Item: "saw"}},
		{"why is PU-07 out of service", Request{Kind: RequestHistory, Item: "pump"}},
		{"why was nothing sent to e3", Request{Kind: RequestWhy, Company: "E3"}},
		{"why no reminder", Request{Kind: RequestWhy}},
		{"why did engine 2 get a reminder?", Request{Kind: RequestWhy, Company: "E2"}},
		{"why wasn't e1 asked about PU-07", Request{Kind: RequestWhy, Company: "E1", Item: "pump"}},
		{"take PU-07 out of service", Request{Kind: RequestTakeOut, Item: "pump"}},
		{"please take pu07 out of service!", Request{Kind: RequestTakeOut, Item: "pump"}},
		{"can you take the blue one out of service", Request{Kind: RequestTakeOut, Item: "blue"}},
		{"take S-01 on E1 out of service now", Request{Kind: RequestTakeOut, Item: "saw", Company: "E1"}},
		{"tag out s-01", Request{Kind: RequestTakeOut, Item: "saw"}},
		{"put PU-07 back in service", Request{Kind: RequestPutBack, Item: "pump"}},
		{"return PU-07 to service", Request{Kind: RequestPutBack, Item: "pump"}},
		{"who covers engine 1?", Request{Kind: RequestCover, Company: "E1"}},
		{"who can cover for E1", Request{Kind: RequestCover, Company: "E1"}},
		{"who covers PU-07", Request{Kind: RequestCover, Item: "pump"}},
		{"who can cut for engine 1", Request{Kind: RequestCover, Company: "E1", Check: "cut"}},
		{"nearest company to E1", Request{Kind: RequestCover, Company: "E1"}},
		{"where should the spares go?", Request{Kind: RequestSpares}},
		{"where do the spares do most good", Request{Kind: RequestSpares}},
		{"where should we put the spares", Request{Kind: RequestSpares}},
		{"board", Request{Kind: RequestBoard}},
		{"show me the board", Request{Kind: RequestBoard}},
		{"picture PU-07", Request{Kind: RequestPicture, Item: "pump"}},
		{"picture of PU-07", Request{Kind: RequestPicture, Item: "pump"}},
		{"month", Request{Kind: RequestMonth}},
		{"this month", Request{Kind: RequestMonth}},
		{"week ahead", Request{Kind: RequestService}},
		{"what's due this week?", Request{Kind: RequestService}},
		{"what is overdue", Request{Kind: RequestService}},
		{"service due", Request{Kind: RequestService}},
		{"next service of PU-07", Request{Kind: RequestService, Item: "pump"}},
		{"when is PU-07 due for service?", Request{Kind: RequestService, Item: "pump"}},
		{"PU-07 serviced", Request{Kind: RequestServiced, Item: "pump"}},
		{"PU-07 has been serviced today", Request{Kind: RequestServiced, Item: "pump"}},
		{"PU-07 was serviced yesterday", Request{Kind: RequestServiced, Item: "pump", Check: "yesterday"}},
		{"serviced PU-07 this morning", Request{Kind: RequestServiced, Item: "pump"}},
		{"who covers us?", Request{Kind: RequestCover}},
		{"service done on PU-07", Request{Kind: RequestServiced, Item: "pump"}},
		{"how is PU-07 doing?", Request{Kind: RequestReliability, Item: "pump"}},
		{"how reliable is PU-07", Request{Kind: RequestReliability, Item: "pump"}},
		{"which pump is worst", Request{Kind: RequestReliability, Check: "pump"}},
		{"which pump is the worst?", Request{Kind: RequestReliability, Check: "pump"}},
		{"how are the saws doing?", Request{Kind: RequestReliability, Check: "saws"}},
		{"worst", Request{Kind: RequestReliability}},
		{"worst power unit", Request{Kind: RequestReliability, Check: "power unit"}},
		{"warm-up record of PU-07", Request{Kind: RequestRuns, Item: "pump"}},
		{"warm-up record", Request{Kind: RequestRuns}},
		{"runs of PU-07", Request{Kind: RequestRuns, Item: "pump"}},
		{"hours E1", Request{Kind: RequestRuns, Company: "E1"}},
		{"help", Request{Kind: RequestHelp}},
		{"?", Request{Kind: RequestHelp}},
		{"summary", Request{Kind: RequestSummary}},
		{"morning report", Request{Kind: RequestSummary}},
		{"show me the morning report please", Request{Kind: RequestSummary}},
	}
	for _, tt := range tests {
		t.Run(shopName(tt.text), func(t *testing.T) {
			got, ok := ReadRequest(tt.text, time.Time{}, requestKnown)
			if !ok || got != tt.want {
				t.Errorf("%q\n got %+v %v\nwant %+v", tt.text, got, ok, tt.want)
			}
		})
	}
}

// TestReadRequestNearMisses holds what is not a request, or an order that must
// not be carried out on these words.
func TestReadRequestNearMisses(t *testing.T) {
	for _, text := range []string{
		"", "fuel half", "down", "missing", "low fuel", "no problems", "no defects", "fuel's good", "fuel is full", "all good", "on a run", "saw full, good, tight, 3 min", "ready", "1 ok 2 low", "help wanted at the bbq",
		"status quo", "how is engine 99", "status of engine 9", "status station 7", "why is the sky blue", "why so loud",
		"take PU-99 out of service", "take it out of service", "take out of service", "put it back in service", "take PU-07 and S-01 out of service",
		"don't take PU-07 out of service", "do not put PU-07 back in service", "should we take PU-07 out of service?", "take PU-07 out of service tomorrow",
		"put PU-07 back in service if it runs", "put PU-07 back in service when it's fixed", "we will put PU-07 back in service", "PU-07 is not back in service",
		"PU-07 back in service", "take PU-07 out", "never put PU-07 back in service", "put PU-07 back", "put PU-07 in the compartment", "return of the saw",
		"PU-07 not serviced", "will service PU-07 tomorrow", "PU-07 needs service", "should PU-07 be serviced", "on a run", "run", "ran 6 min", "month old gas", "the board is cracked",
		"open the door", "what happened", "defect on the saw: chain is cracked", "the saw is broken", "can engine 3 cut the grass on sunday",
	} {
		t.Run(shopName(text), func(t *testing.T) {
			if got, ok := ReadRequest(text, time.Time{}, requestKnown); ok {
				t.Errorf("%q read as %+v", text, got)
			}
		})
	}
}
