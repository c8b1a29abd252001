// Package slackdouble is a strict double of Slack for tests: a workspace with
// channels and people on a loopback port (or on a network inside the process),
// which answers the Web API, opens Socket Mode connections, delivers signed HTTP
// events, and shows what people see. It knows the documented rules of Slack and
// writes down every breach as a Violation, whether Slack itself would refuse the
// request, limit it, or let it pass in silence.
//
// A test makes a Workspace, points the client at URL with the tokens BotToken and
// AppToken, lets people talk (Say, React, Click, SubmitView ...), looks at what is
// shown (Messages, Thread, Views) and at last asks for Violations.
//
//	w := slackdouble.New(t, slackdouble.Options{})
//	station := w.AddChannel("station-1")
//	ines := w.AddUser("ines", "Ines Vega")
//	... connect the backend to w.URL() with w.BotToken and w.AppToken ...
//	ts := w.Say(ines, station, "", "all good")
//
// Time is the ordinary clock, so the double runs on the fake one inside
// testing/synctest. Sockets of the operating system do not work there: set
// Options.InMemory and reach the workspace by Client and Dialer.
//
// # How it is built
//
// Bottom-up: violation.go (rules and breaches), message.go and files.go (what is
// kept), kit.go, blocks.go, elements.go and view_rules.go (Block Kit's limits),
// rate.go (tiers and 429), faults.go (what a test makes go wrong), methods.go (the
// table of methods with their tokens, scopes, tiers and arguments), api.go (one
// request), web_*.go (the methods), event.go, socket.go, post.go (the ways events
// go out), people.go and tap.go (what people do), shown.go (what they see).
//
// Rules come from Slack's public documentation. Where one is from memory, without
// the page at hand, its comment says MEMORY; those deserve a second look when the
// double and the real service disagree.
package slackdouble
