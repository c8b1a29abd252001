package slack

import "encoding/json"

// envelope is a message of a Socket Mode connection.
type envelope struct {
	ID      string          `json:"envelope_id"`
	Type    string          `json:"type"`
	Reason  string          `json:"reason"` // of a disconnect
	Payload json.RawMessage `json:"payload"`
}

// callback is what the Events API sends.
type callback struct {
	Type      string `json:"type"` // event_callback, url_verification
	Challenge string `json:"challenge"`
	ID        string `json:"event_id"`
	Event     happening
}

// happening is an event of the Events API, as far as it is of interest here.
type happening struct {
	wrote
	Channel     name      `json:"channel"`
	ChannelType string    `json:"channel_type"`
	Stamp       string    `json:"event_ts"`
	Message     *wrote    `json:"message"`          // of message_changed: as it stands now
	Previous    *wrote    `json:"previous_message"` // of message_changed, message_deleted
	Deleted     string    `json:"deleted_ts"`
	Reaction    string    `json:"reaction"`
	Item        reactedTo `json:"item"`
}

// wrote is a message, in an event or in the history.
type wrote struct {
	Type      string     `json:"type"`
	Subtype   string     `json:"subtype"`
	User      name       `json:"user"`
	Bot       string     `json:"bot_id"`
	Text      string     `json:"text"`
	TS        string     `json:"ts"`
	Thread    string     `json:"thread_ts"`
	Files     []file     `json:"files"`
	Edited    *edited    `json:"edited"`
	Reactions []reaction `json:"reactions"`
	Replies   int        `json:"reply_count"`
	Latest    string     `json:"latest_reply"`
}

type edited struct {
	TS string `json:"ts"`
}

type file struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Title string `json:"title"`
	Type  string `json:"mimetype"`
}

type reaction struct {
	Name  string   `json:"name"`
	Users []string `json:"users"`
}

type reactedTo struct {
	Type    string `json:"type"`
	Channel string `json:"channel"`
	TS      string `json:"ts"`
}

// name is an id, which some events give as an object that has it.
type name string

// UnmarshalJSON implements json.Unmarshaler. What is neither is no id.
func (n *name) UnmarshalJSON(data []byte) error {
	var s string
	if json.Unmarshal(data, &s) == nil {
		*n = name(s)
		return nil
	}
	var o struct {
		ID string `json:"id"`
	}
	_ = json.Unmarshal(data, &o)
	*n = name(o.ID)
	return nil
}

// interaction is a button that was pressed, or a dialog that was sent off.
type interaction struct {
	Type    string `json:"type"` // block_actions, view_submission
	Trigger string `json:"trigger_id"`
	User    struct {
		ID   string `json:"id"`
		Name string `json:"name"`
	} `json:"user"`
	Channel   name  `json:"channel"`
	Message   wrote `json:"message"`
	Container struct {
		Channel string `json:"channel_id"`
		TS      string `json:"message_ts"`
		Thread  string `json:"thread_ts"`
	} `json:"container"`
	Actions []pressed `json:"actions"`
	View    view      `json:"view"`
}

type pressed struct {
	ID    string `json:"action_id"`
	Value string `json:"value"`
	Stamp string `json:"action_ts"`
	Label struct {
		Text string `json:"text"`
	} `json:"text"`
}

type view struct {
	ID       string `json:"id"`
	Callback string `json:"callback_id"`
	Private  string `json:"private_metadata"`
	State    struct {
		Values map[string]map[string]input `json:"values"`
	} `json:"state"`
}

type input struct {
	Value    string `json:"value"`
	Selected struct {
		Value string `json:"value"`
	} `json:"selected_option"`
}

// command is a slash command.
type command struct {
	Command string `json:"command"`
	Text    string `json:"text"`
	User    string `json:"user_id"`
	Name    string `json:"user_name"`
	Channel string `json:"channel_id"`
	Trigger string `json:"trigger_id"`
}
