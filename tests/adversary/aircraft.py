"""The sessions of one aircraft, and the aircraft's own record, held against each other (SPEC.md, STN)."""
STANDS = ("hold", "cut", "fire", "hands", "turning", "drill")
# What comes back under a new number: an engine turns and stops again.
PROPELLERS = ("turning", "unseen")
RULE = {"hands": "STN-6", "turning": "STN-7", "drill": "STN-8"}


class Aircraft:
    def __init__(self, sessions, record, slack):
        self.sessions = {s.id: s for s in sessions}
        self.record, self.slack, self.findings = record, slack, []
        self.keys = {}  # number in the record -> (session, is, ref)
        self.gone = set()  # what was ended from elsewhere, and may be contributed for a while still
        self.office = []  # ends in the record without a session: (time, number)

    def bad(self, rule, session, seq, text):
        self.findings.append((rule, session, seq, text))

    def judge(self):
        self.number()
        self.one_past_brief()
        for session in self.sessions.values():
            self.planned_with(session)
            self.decided(session)
            self.lost(session)
        self.starters()
        return self.findings

    def number(self):
        """Takes over which number the record gave to which thing: each thing has one, and no number is used again."""
        numbers = {}
        if self.record:
            self.fold()
        for session in self.sessions.values():
            for seq, _, _, items, _ in session.told:
                for i in items:
                    key = (i["session"], i["item"]["is"], i["item"]["ref"])
                    if self.keys.setdefault(i["no"], key) != key:
                        self.bad("STN-1", session.id, seq, f"number {i['no']} stands for two things")
                    if key[1] not in PROPELLERS and numbers.setdefault(key, i["no"]) != i["no"]:
                        self.bad("STN-10", session.id, seq, f"a {key[1]} comes back under a new number")
                    self.known(session, seq, i)

    def known(self, session, seq, told):
        """A thing that is told of another session is in that session's record, and its owner is the same."""
        other = self.sessions.get(told["session"])
        is_, ref = told["item"]["is"], told["item"]["ref"]
        if other is None or is_ not in STANDS:
            return
        own = [i for i in other.items if i[:2] == [is_, ref]]
        if not own:
            self.bad(RULE.get(is_, "STN-1"), session.id, seq, f"told of a {is_} that {other.id} does not have")
        elif is_ == "hold" and own[0][6] != told["item"]["person"]:
            self.bad("STN-1", session.id, seq, "told of a hold as another person's")

    def ended_at(self, key, began, own):
        """The earliest time at which the thing ended, in its own session, in another, or in the record."""
        ends = [own] if own is not None else []
        ends += [at for s in self.sessions.values() for no, (_, at) in s.ended.items() if self.keys.get(no) == key]
        ends += [at for at, no in self.office if self.keys.get(no) == key]
        return min((at for at in ends if at >= began), default=float("inf"))

    def standing(self, but, at):
        """What other sessions have standing at a time, beyond the slack."""
        for other in self.sessions.values():
            if other is but:
                continue
            for is_, ref, _, began, _, own, _ in other.items:
                key = (other.id, is_, ref)
                if began + self.slack < at < self.ended_at(key, began, own):
                    yield key

    def planned_with(self, session):
        first = next((told for told in session.told if told[0] == 1), None)
        told = {(i["session"], i["item"]["is"], i["item"]["ref"]) for i in first[3]} if first else set()
        for key in self.standing(session, session.planned_at):
            if key not in told:
                self.bad(RULE.get(key[1], "STN-1"), session.id, 1, f"planned without the {key[1]} {key[2]} of {key[0]}")

    def decided(self, session):
        for seq, at, what in session.decisions:
            told = {self.keys[i["no"]] for t in session.told if t[0] < seq for i in t[3]}
            for key in self.standing(session, at):
                if key not in told and (what == "start" or key[1] not in RULE):
                    self.bad("STN-2", session.id, seq, f"decided without the {key[1]} {key[2]} of {key[0]}")

    def lost(self, session):
        before = {}
        for seq, at, _, items, ended in session.told:
            now = {i["no"] for i in items}
            for no, key in before.items():
                if no in now or key[1] not in STANDS or no in session.ended:
                    continue
                if not self.over(key, at):
                    self.bad(RULE.get(key[1], "STN-1"), session.id, seq, f"the {key[1]} {key[2]} of {key[0]} is lost")
            for item in ended:
                key = (session.id, item["is"], item["ref"])
                if item["is"] in STANDS and not self.over(key, at, own=False):
                    self.bad("STN-2", session.id, seq, f"its {key[1]} {key[2]} ended by nobody")
            before = {no: self.keys[no] for no in now}

    def over(self, key, at, own=True):
        other = self.sessions.get(key[0])
        spans = [i for i in other.items if (i[0], i[1]) == key[1:]] if other else []
        if not spans:
            return other is None and (key[0] is not None or self.ended_at(key, 0, None) <= at + self.slack)
        # What began again since, such as an engine that turns once more, is told anew.
        past = [i for i in spans if i[3] <= at]
        return all(self.ended_at(key, i[3], i[5] if own else None) <= at + self.slack for i in past)

    def one_past_brief(self):
        spans = sorted((s.past_brief, s.over_at or float("inf"), s.id) for s in self.sessions.values() if s.past_brief)
        for (_, end, _), (begin, _, session) in zip(spans, spans[1:]):
            if begin + self.slack < end:
                self.bad("STG-17", session, 0, "two sessions of the aircraft are past their brief")

    def starters(self):
        """A cleared crank comes after the rest that all earlier uses ask for, whichever session they were in."""
        every = [(on, off, n, seq, aside, s) for s in self.sessions.values() for n, on, off, seq, aside in s.starter]
        uses = sorted(every, key=lambda use: use[0])
        for i, (on, _, n, seq, aside, session) in enumerate(uses):
            cleared = any(d[0] == seq for d in session.decisions)
            earlier = [u for u in uses[:i] if u[2] == n and u[1] is not None and u[1] <= on]
            if cleared and not aside and earlier and on < rested(session.type["starter"], earlier):
                self.bad("STN-4" if earlier[-1][5] is not session else "CON-11", session.id, seq, f"the starter of {n} has not rested")

    def fold(self):
        """Replays the aircraft's record: what each session added must be what its own record says stood there."""
        stands, number, open_, opened = {}, 1, {}, False
        words, words_at = {}, {}
        self.stands_at = {}
        for event in self.record:
            fact, seq, at = event["fact"], event["seq"], event["at"]
            where = event["session"]
            if (fact["type"] == "opened") == opened:
                self.bad("STN-1", where, seq, "a record is opened once, first")
            opened = True
            if fact["type"] == "reported":
                stands[number] = (None, fact["item"]["is"], fact["item"]["ref"])
                number += 1
            elif fact["type"] == "located":
                if stands.get(fact["no"], ("", ""))[1] != "fire":
                    self.bad("FIR-15", where, seq, "says where a fire burns that does not stand")
                words.setdefault(stands.get(fact["no"]), set()).add(word(fact["word"]))
            elif fact["type"] == "ended":
                if open_ or fact["no"] not in stands:
                    self.bad("STN-3", where, seq, "ended without a session while one is open, or ended twice")
                self.keys.setdefault(fact["no"], stands.pop(fact["no"], (None, "none", 0)))
                self.office.append((at, fact["no"]))
            elif fact["type"] == "contributed":
                self.contribution(event, stands)
                for item in fact["contribution"]["items"]:
                    key = (fact["session"], item["is"], item["ref"])
                    words.setdefault(key, set()).update(word(w) for w in item.get("said", []))
                for told in fact["contribution"].get("located", []):
                    words.setdefault(stands.get(told["no"]), set()).update(word(w) for w in told["said"])
                items = [(fact["session"], i["is"], i["ref"]) for i in fact["contribution"]["items"]]
                for no in fact["contribution"]["ended"]:
                    self.gone.add(stands.pop(no, None))
                for no in [no for no, key in stands.items() if key[0] == fact["session"] and key not in items]:
                    del stands[no]
                # An engine seen still is told of again only after it stood still in its own session too.
                self.gone -= {g for g in self.gone if g and g[0] == fact["session"] and g[1] == "turning" and g not in items}
                for key in items:
                    if key not in stands.values() and key not in self.gone:
                        stands[number] = key
                        number += 1
                open_.pop(fact["session"], None)
                if not fact["over"]:
                    open_[fact["session"]] = fact["through"]
            self.keys.update(stands)
            self.stands_at[seq] = dict(stands)
            words_at[seq] = {key: set(said) for key, said in words.items()}
        for session in self.sessions.values():
            for seq, _, record, items, _ in session.told:
                told = {i["no"]: (i["session"], i["item"]["is"], i["item"]["ref"]) for i in items}
                now = self.stands_at.get(record, {})
                if told != {no: key for no, key in now.items() if key[0] != session.id}:
                    self.bad("STN-1", session.id, seq, f"told of something else than stood at event {record} of the record")
                for no, item in ((i["no"], i["item"]) for i in items):
                    if {word(w) for w in item.get("said", [])} != words_at.get(record, {}).get(now.get(no), set()):
                        self.bad("FIR-15", session.id, seq, "told of other words of where a fire burns than were given")



    def contribution(self, event, stands):
        fact = event["fact"]
        session = self.sessions.get(fact["session"])
        if session is None:
            return
        through = fact["through"]
        mine = {
            (is_, ref) for is_, ref, began, _, ended, _, _ in session.items
            if began <= through and (ended is None or ended > through)
        }
        told = {(i["is"], i["ref"]) for i in fact["contribution"]["items"] if i["is"] in STANDS}
        if mine != told:
            self.bad("STN-1", event["session"], event["seq"], f"{sorted(mine ^ told)} of {session.id} is added or left out")
        for item in fact["contribution"]["items"]:
            known = {w for w, seq in session.said.get(item["ref"], {}).items() if seq <= through}
            if item["is"] == "fire" and {word(w) for w in item.get("said", [])} != known:
                self.bad("FIR-15", event["session"], event["seq"], f"words of where {session.id} saw fire are left out")
        ended = {no for no, (seq, _) in session.ended.items() if seq <= through}
        if {no for no in ended if no in stands} - set(fact["contribution"]["ended"]):
            self.bad("STN-2", event["session"], event["seq"], f"an end in {session.id} is left out")


def word(said):
    """A word of where a fire burns: whose, the engine, the place."""
    return said["person"], said["engine"], said["place"]


def rested(starter, uses):
    """The time from which the next engagement is allowed, by the mildest of the type's ladders."""
    return min(rest(duty, uses) for duty in [starter, *starter.get("colder", [])])


def rest(duty, uses):
    ladder, step, allowed, last = duty["ladder"], 0, 0, None
    for on, off, *_ in uses:
        if last is not None and on - last >= duty["resetAfter"]["value"] * 1000:
            step = 0
        allowed = off + ladder[min(step, len(ladder) - 1)]["rest"]["value"] * 1000
        last, step = off, step + 1
    return allowed
