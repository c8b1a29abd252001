package bot

import (
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
)

// Snapshot is what a decision knows: what look found for the event, and no more.
type Snapshot struct {
	Thread    thread
	Target    chat.Key // of our message that the event is about
	Person    dept.Person
	Known     bool // the author is in the department file
	Room      dept.Room
	Standings map[dept.CompanyID]*Standing
	Items     map[dept.ItemID]*ItemState
	Defects   []*defect.Defect
	History   []Record
	Rungs     []Record
	FirstTime bool
	All       bool // the whole department is loaded
}

// look loads what deciding ev needs. Its cost depends on the size of a company,
// or for an officer's question of the department, never on the years on record.
func look(s Setup, tx Tx, ev chat.Event) (Snapshot, error) {
	l := &looker{s: s, tx: tx, ev: ev}
	l.snap.Standings = map[dept.CompanyID]*Standing{}
	l.snap.Items = map[dept.ItemID]*ItemState{}
	switch ev.Kind {
	case chat.Tick, chat.Followup:
		l.scope(ev.Scope)
	case chat.Accepted:
		l.snap.Thread = threadOf(ev.MsgKey)
		l.thread()
	case chat.Started, chat.Reloaded:
		l.everything()
	case chat.Said, chat.Edited, chat.Deleted, chat.Reacted, chat.Unreacted, chat.Chosen, chat.Lost:
		l.spoken()
	}
	return l.snap, l.err
}

type looker struct {
	s    Setup
	tx   Tx
	ev   chat.Event
	snap Snapshot
	err  error
}

func (l *looker) try(err error) bool {
	if l.err == nil {
		l.err = err
	}
	return l.err == nil
}

func (l *looker) scope(scope string) {
	switch {
	case strings.HasPrefix(scope, companyScope):
		l.company(dept.CompanyID(strings.TrimPrefix(scope, companyScope)))
	case strings.HasPrefix(scope, "defect/"):
		l.snap.Thread = threadOf(chat.Key(scope))
		l.thread()
		l.kind()
	case scope == shopScope:
		l.desk()
		defects, err := l.tx.DefectsOpen()
		if l.try(err) {
			l.snap.Defects = defects
		}
	default:
		l.everything()
	}
}

// spoken finds whose words the event belongs to, and loads that.
func (l *looker) spoken() {
	l.snap.Person, l.snap.Known = l.s.Dept.PersonAt(l.ev.Backend, l.ev.Author)
	l.snap.Room, _ = l.s.Dept.RoomAt(l.ev.Backend, l.ev.Place.Room)
	if l.ev.Target != "" {
		l.snap.Target = l.keyOf(l.ev.Target)
		l.snap.Thread = threadOf(l.snap.Target)
	}
	if l.ev.Place.Thread != "" {
		l.snap.Thread = threadOf(l.keyOf(l.ev.Place.Thread))
	}
	switch {
	case l.snap.Thread.company != "" || l.snap.Thread.defect != "":
		l.thread()
	case l.asksOfficer():
		l.everything()
		l.told()
		for _, it := range l.s.Dept.Carried(l.snap.Person.Company) {
			l.defects(it.ID)
		}
	case l.snap.Room.Purpose == dept.ForShop:
		l.everything()
	default:
		l.roomful()
	}
}

func (l *looker) keyOf(ref chat.Ref) chat.Key {
	key, err := l.tx.KeyOf(l.ev.Backend, l.ev.Place.Room, ref)
	l.try(err)
	return key
}

func (l *looker) asksOfficer() bool {
	if l.snap.Room.Purpose == dept.ForOfficers {
		return true
	}
	if !l.ev.Place.Direct {
		return false
	}
	return l.snap.Known && (l.snap.Person.Has(dept.Officer, dept.Chief, dept.Shop) || l.snap.Person.Company == "")
}

// told loads what an officer's question about one item or company needs.
func (l *looker) told() {
	req, ok := reply.ReadRequest(asked(l.ev.Text), l.ev.Said.In(l.s.Dept.Zone), names(l.s))
	if !ok {
		return
	}
	if req.Item != "" {
		h, err := l.tx.History(req.Item, 12)
		if l.try(err) {
			l.snap.History = h
		}
	}
	if req.Kind == reply.RequestReliability {
		l.failures()
	}
	if req.Kind == reply.RequestWhy {
		r, err := l.tx.Rungs(req.Company, 8)
		if l.try(err) {
			l.snap.Rungs = r
		}
	}
}

// failures loads every defect that the department ever had, for a question about
// how often things fail: as many as there were, which is little beside the records.
func (l *looker) failures() {
	for _, it := range l.s.Dept.Items {
		if s := l.snap.Items[it.ID]; s == nil || !s.Ailed {
			continue
		}
		found, err := l.tx.DefectsOf(it.ID, time.Time{})
		if !l.try(err) {
			return
		}
		for _, d := range found {
			l.add(d)
		}
	}
}

func (l *looker) thread() {
	if id := l.snap.Thread.defect; id != "" {
		d, err := l.tx.Defect(id)
		if l.try(err) && d != nil {
			l.company(d.Company)
			l.add(d)
		}
		l.spares()
		l.desk()
		return
	}
	l.company(l.snap.Thread.company)
}

// spares loads the state of every spare, which a shop's word may place.
func (l *looker) spares() {
	for _, it := range l.s.Dept.Items {
		if it.Spare {
			l.item(it.ID)
		}
	}
}

// roomful loads every company that shares the room, or the speaker's own.
func (l *looker) roomful() {
	for _, c := range l.s.Dept.CompaniesIn(l.snap.Room.ID) {
		l.company(c.ID)
	}
	if l.ev.Place.Direct && l.snap.Person.Company != "" {
		l.company(l.snap.Person.Company)
	}
}

func (l *looker) company(id dept.CompanyID) {
	if _, ok := l.s.Dept.Company(id); !ok || l.snap.Standings[id] != nil {
		return
	}
	st, err := l.tx.Standing(id)
	if !l.try(err) {
		return
	}
	if st == nil {
		st = &Standing{Company: id}
	}
	l.snap.Standings[id] = st
	for _, it := range l.s.Dept.Carried(id) {
		l.item(it.ID)
		l.defects(it.ID)
		if spare := l.snap.Items[it.ID].StandIn; spare != "" {
			l.item(spare)
			l.defects(spare)
		}
	}
	l.spokenOf(st)
	l.desk()
}

// spokenOf loads what a shift asked about and the company may carry no more: a
// spare that was taken back.
func (l *looker) spokenOf(st *Standing) {
	for _, w := range []*Watch{st.Watch, st.Prior} {
		if w == nil {
			continue
		}
		for _, a := range w.Asked {
			if l.snap.Items[a.Ref.Item] == nil {
				l.item(a.Ref.Item)
				l.defects(a.Ref.Item)
			}
		}
	}
}

func (l *looker) desk() {
	if l.snap.Standings[shopDesk] != nil {
		return
	}
	st, err := l.tx.Standing(shopDesk)
	if !l.try(err) {
		return
	}
	if st == nil {
		st = &Standing{Company: shopDesk}
	}
	l.snap.Standings[shopDesk] = st
}

func (l *looker) item(id dept.ItemID) {
	if l.snap.Items[id] != nil {
		return
	}
	it, err := l.tx.Item(id)
	if !l.try(err) || it == nil {
		it = newItem(l.s, id)
	}
	l.snap.Items[id] = it
}

func newItem(s Setup, id dept.ItemID) *ItemState {
	it, _ := s.Dept.Item(id)
	return &ItemState{Item: id, Hours: it.StartHours}
}

func (l *looker) defects(item dept.ItemID) {
	if it := l.snap.Items[item]; it != nil && !it.Ailed {
		return // nearly all items, nearly always
	}
	found, err := l.tx.DefectsOf(item, l.ev.Said.AddDate(0, 0, -defect.ReopenDays-1))
	if !l.try(err) {
		return
	}
	for _, d := range found {
		l.add(d)
	}
}

func (l *looker) add(d *defect.Defect) {
	for _, have := range l.snap.Defects {
		if have.ID == d.ID {
			return
		}
	}
	l.snap.Defects = append(l.snap.Defects, d)
}

// kind loads what a fleet matter and a cover need: the defects of the same kind
// and check, and the state of every item of the kind.
func (l *looker) kind() {
	d := l.snap.defect(l.snap.Thread.defect)
	if d == nil {
		return
	}
	found, err := l.tx.DefectsOfKind(d.Kind, d.Ref.Check, l.ev.Arrived.AddDate(0, 0, -defect.FleetDays))
	if !l.try(err) {
		return
	}
	for _, other := range found {
		l.add(other)
	}
	for _, it := range l.s.Dept.Items {
		if it.Kind == d.Kind {
			l.item(it.ID)
		}
	}
}

func (l *looker) everything() {
	l.snap.All = true
	first, err := l.tx.Meta("first_start")
	if !l.try(err) {
		return
	}
	l.snap.FirstTime = first == ""
	standings, err := l.tx.Standings()
	if !l.try(err) {
		return
	}
	items, err := l.tx.Items()
	if !l.try(err) {
		return
	}
	open, err := l.tx.DefectsOpen()
	if !l.try(err) {
		return
	}
	l.snap.Defects = open
	l.fill(standings, items)
}

func (l *looker) fill(standings map[dept.CompanyID]*Standing, items map[dept.ItemID]*ItemState) {
	for _, c := range append(companyIDs(l.s.Dept), shopDesk) {
		if l.snap.Standings[c] = standings[c]; standings[c] == nil {
			l.snap.Standings[c] = &Standing{Company: c}
		}
	}
	for _, it := range l.s.Dept.Items {
		if l.snap.Items[it.ID] = items[it.ID]; items[it.ID] == nil {
			l.snap.Items[it.ID] = newItem(l.s, it.ID)
		}
	}
}

func companyIDs(d *dept.Department) []dept.CompanyID {
	ids := make([]dept.CompanyID, 0, len(d.Companies)+1)
	for _, c := range d.Companies {
		ids = append(ids, c.ID)
	}
	return ids
}

func (s *Snapshot) defect(id defect.ID) *defect.Defect {
	for _, d := range s.Defects {
		if d.ID == id {
			return d
		}
	}
	return nil
}

// names are the words by which officers call companies, stations and items.
func names(s Setup) reply.Names {
	if s.called != nil {
		return *s.called
	}
	n := reply.Names{Companies: map[string]dept.CompanyID{}, Stations: map[string]dept.StationID{}, Items: map[string]dept.ItemID{}}
	for _, c := range s.Dept.Companies {
		for _, name := range append(c.Names, c.Name, string(c.ID)) {
			n.Companies[strings.ToLower(name)] = c.ID
		}
	}
	for _, st := range s.Dept.Stations {
		n.Stations[strings.ToLower(st.Name)] = st.ID
		n.Stations[strings.ToLower(string(st.ID))] = st.ID
	}
	for _, it := range s.Dept.Items {
		n.Items[strings.ToLower(it.Number)] = it.ID
		n.Items[strings.ToLower(string(it.ID))] = it.ID
	}
	return n
}
