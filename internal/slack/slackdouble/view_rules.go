package slackdouble

// modalShape is what a modal may hold.
func modalShape() shape {
	return shape{need: words("type title blocks"), may: map[string]rule{
		"title": plain(24), "close": plain(24), "submit": plain(24), "blocks": list(0, 100, anything),
		"private_metadata": atMost(3000), "callback_id": atMost(255), "external_id": atMost(255),
		"clear_on_close": boolean, "notify_on_close": boolean, "submit_disabled": boolean,
	}}
}

// atMost is a string that may be empty.
func atMost(most int) rule {
	return func(k *check, path string, v any) {
		if v != "" {
			str(most)(k, path, v)
		}
	}
}

// viewProblems says what is wrong with a modal.
func (w *Workspace) viewProblems(o object) (wrong []string, pictures []*file) {
	k := newCheck(w, inModal)
	if o["type"] != "modal" {
		k.fail("view", "type must be modal")
		return k.wrong, nil
	}
	modalShape().check(k, "view", o)
	blocks, _ := o["blocks"].([]any)
	k.blockList("view.blocks", blocks, 100)
	if k.inputs > 0 && o["submit"] == nil {
		k.fail("view", "submit is needed where there are inputs")
	}
	if len(encode(o)) > 250_000 {
		k.fail("view", "is larger than 250 kB")
	}
	if k.busy != "" {
		k.wrong = append(k.wrong, k.busy)
	}
	return k.wrong, k.pictures
}
