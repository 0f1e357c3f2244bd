"""One session's record, judged event by event. Nothing of the program is used: only the rules in SPEC.md.

A finding is the id of the broken rule, the session, the event's number, and a sentence.
"""
from course import Course
from engines import Engines
from returning import Returning
from services import DONE, SERVICES, Services
from stops import FOREIGN, STOPS, Stops


class Session(Course, Engines, Returning, Stops, Services):
    def __init__(self, events):
        first = events[0]
        self.id, self.findings = first["session"], []
        plan = first["fact"]
        self.aircraft, self.type, self.source = plan.get("aircraft"), plan["aircraftType"], plan["powerSource"]
        self.rehearsal = "rehearsal" in plan
        self.planned_at = first["at"]
        self.purpose, self.order = plan.get("purpose", "start"), plan["order"]
        self.on_stand, self.cooling, self.switches_off = False, None, False
        self.gauges = {}  # (engine, gauge) -> (value, when)
        self.stopped_by = {}  # who reported each engine stopped, until its propeller is seen still
        self.cuts_due, self.remarks = {}, set()  # cool-downs cut short: not told yet, and told without a reason
        self.engines = [e["n"] for e in self.type["engines"]]
        self.stage, self.over = "plan", False
        self.posts = dict.fromkeys(("cockpit", "fireGuard", "groundPower", "supervisor"))
        self.offers, self.epoch, self.stops, self.sent = {}, 1, {}, {}
        self.not_clear = set()
        self.guard, self.arcs, self.brakes, self.chocks, self.power = None, {}, None, False, None
        self.life = dict.fromkeys(self.engines, "off")
        self.request, self.clearance, self.cleared = {}, None, 0
        self.leaves, self.out, self.drills = {}, set(), {}
        self.hands, self.left_hands, self.left_turning = None, {}, {}
        self.turned_under, self.checks = False, {}
        # Engines that stopped in this session and whose propeller nobody has seen still.
        self.unseen = set()
        self.overrides, self.alerts, self.late, self.commands = {}, {}, set(), {}
        self.opened = {}  # the stop or alert that opened each drill
        self.said = {}  # words of where each fire burns, by its number, each with the event that first told it
        self.heard = {}  # the words of each fire that the record told last
        self.seq = self.at = 0
        # For the comparison between sessions: what each event changed, and when.
        self.items = []  # [is, ref, from seq, from time, to seq, to time, person]
        self.told, self.decisions, self.ended, self.starter = [], [], {}, []
        self.also = []  # the other aircraft of the supervisor
        self.asked, self.past_brief, self.over_at = None, None, None
        for event in events:
            self.step(event)
        self.cuts_are_told()

    def bad(self, rule, text):
        self.findings.append((rule, self.id, self.seq, text))

    def step(self, event):
        fact, actor = event["fact"], event["actor"]
        if event["seq"] != self.seq + 1:
            self.bad("EVT-1", f"event {event['seq']} follows {self.seq}")
        if event["at"] < self.at:
            self.bad("EVT-7", "the time runs backwards")
        self.seq, self.at = event["seq"], event["at"]
        if self.over:
            self.bad("STG-14", "an event after the end")
        kind = fact["type"]
        if (kind == "planned") != (self.seq == 1):
            self.bad("STG-1", "a session begins with its one plan")
        self.who = actor if actor["kind"] == "person" else None
        self.post = actor.get("post")
        command = event["command"]
        if command is not None:
            self.command(command)
        for n in (fact.get("engine"),):
            if n is not None and n not in self.engines:
                self.bad("SIG-10", f"the type has no engine {n}")
        getattr(self, "on_" + kind, lambda fact: None)(fact)

    def command(self, command):
        last = self.commands.get(command)
        if last is not None and last != self.seq - 1:
            self.bad("WIR-6", "one command acts twice")
        if last is None:
            self.acts()
        self.commands[command] = self.seq

    def acts(self):
        """A person acts: in their own post, on a record in which everything due before is recorded."""
        self.cuts_are_told()
        holder = self.posts.get(self.post)
        me = (self.who["id"], self.who["device"])
        if self.post and (not holder or (holder["id"], holder["device"]) != me):
            self.bad("PST-11", f"acts at {self.post} without holding it")
        clearance = self.clearance
        if clearance and clearance["epoch"] != self.epoch:
            self.bad("CLR-7", "a clearance outlives its epoch")
        elif clearance and self.at >= clearance["until"]:
            self.bad("CLR-13", "a clearance outlives its end time")
        elif clearance and clearance["wrong"]:
            self.bad("RBK-2", "a clearance outlives a wrong read-back")
        if self.request and self.stops:
            self.bad("REQ-5", "a request outlives a stop")

    def begins(self, is_, ref, person=None):
        self.items.append([is_, ref, self.seq, self.at, None, None, person])

    def ends(self, is_, ref):
        for item in self.items:
            if item[:2] == [is_, ref] and item[4] is None:
                item[4], item[5] = self.seq, self.at

    def ends_foreign(self, no):
        self.ended.setdefault(no, (self.seq, self.at))

    def new_epoch(self):
        self.epoch += 1

    def on_planned(self, fact):
        if "standing" in fact:
            self.hears(fact["standing"])
            self.epoch = 1

    def on_sent(self, fact):
        kind, n = fact["kind"], fact.get("engine")
        self.sent[self.seq] = fact
        if self.who is None:
            return self.bad("CUT-3" if kind.startswith("cut") else "EVT-3", f"{kind} was sent by nobody")
        if kind in STOPS:
            is_ = {"cutAll": "cut", "turning": "hold"}.get(kind, kind)
            self.stop_begins(self.seq, is_, n, self.who["id"], self.post)
            self.begins(is_, self.seq, self.who["id"])
        if kind in SERVICES + ("handlePropeller",):
            if self.stops:
                self.bad("PWR-7", f"{kind} is asked for while a stop stands")
            if self.post == "cockpit" and "seenFrom" not in fact:
                self.leave(kind, n, self.seq)
        elif kind in DONE:
            self.work_done(kind, fact)
        else:
            getattr(self, "sent_" + kind, lambda fact, n: None)(fact, n)

    def on_answered(self, fact):
        asked = self.sent.get(fact["signal"])
        if self.who is None or self.post is None:
            return self.bad("SIG-2", "an answer by nobody at a post")
        if asked is None:
            return self.bad("SIG-2", "an answer to nothing")
        answer, kind = fact["answer"], asked["kind"]
        if answer != "received" and fact["signal"] in self.stops:
            self.stops[fact["signal"]]["acted"] = f"the answer {answer}"
        if answer == "readBack":
            self.read_back(fact, asked)
        elif answer == "unable" and kind == "readyToStart":
            self.request.pop(asked["engine"], None)
        elif answer == "authorise":
            if self.post != "cockpit" or kind not in SERVICES + ("handlePropeller",):
                return self.bad("PWR-2", "leave by another post")
            self.leave(kind, asked.get("engine"), fact["signal"])
        elif answer == "done" and kind in ("cut", "cutAll"):
            if self.post != "cockpit":
                self.bad("CUT-4", "a cut is done by the word of another post")
            if fact["signal"] in self.stops:
                self.stops[fact["signal"]]["done"] = True
            for n in self.engines:
                if asked.get("engine") in (None, n) and self.life[n] != "off":
                    self.stands_still(n)

    def on_late(self, fact):
        key = (fact["signal"], fact["level"])
        if key in self.late or (fact["level"] == 2 and (fact["signal"], 1) not in self.late):
            self.bad("SIG-9", "late twice, or the second time first")
        self.late.add(key)

    def decides(self, what="start"):
        """Marks a decision that a stop anywhere at the aircraft must have prevented."""
        self.decisions.append((self.seq, self.at, what))

    def on_rehearsed(self, fact):
        if not self.rehearsal:
            self.bad("RHS-6", "a start says what was rehearsed")

    def on_supervisesAlso(self, fact):
        self.also = fact["aircraft"]

    def on_aircraftKnown(self, fact):
        self.hears(fact["standing"])

    def hears(self, standing):
        items = {i["no"]: i for i in standing["items"] if i["no"] not in self.ended}
        self.told.append((self.seq, self.at, standing["record"], standing["items"], standing["ended"]))
        for ref in [ref for ref in self.stops if ref > FOREIGN and ref - FOREIGN not in items]:
            del self.stops[ref]
        for item in standing["ended"]:
            if item["is"] in ("hold", "cut", "fire"):
                self.stops.pop(item["ref"], None)
            if item["is"] == "drill":
                self.drills.pop(item["ref"], None)
            if item["is"] == "hands" and self.hands and self.hands[1] == item["ref"]:
                self.hands = None
            if item["is"] == "unseen":
                self.unseen.discard(item["engine"])
                self.stopped_by.pop(item["engine"], None)
            # A propeller seen still from elsewhere: by this session's own reports the engine goes on turning.
            if item["is"] != "turning":
                self.ends(item["is"], item["ref"])
        self.left_hands = {no: i["item"]["engine"] for no, i in items.items() if i["item"]["is"] == "hands"}
        self.left_turning = {no: i["item"]["engine"] for no, i in items.items() if i["item"]["is"] in ("turning", "unseen")}
        self.drills = {run: d for run, d in self.drills.items() if run < FOREIGN or run - FOREIGN in items}
        for no, it in items.items():
            item = it["item"]
            if item["is"] == "drill":
                self.drills[FOREIGN + no] = (item["drill"], item["engine"])
            if item["is"] in ("hold", "cut", "fire") and FOREIGN + no not in self.stops:
                person, post = item.get("person"), item["by"]["post"]
                self.stop_begins(FOREIGN + no, item["is"], item.get("engine"), person, post)
            if item["is"] == "fire":
                self.hears_of_fire(FOREIGN + no, item.get("said", []))
        for own in standing.get("located", []):
            self.hears_of_fire(own["ref"], own["said"])

    def hears_of_fire(self, ref, words):
        """What the record told of where a fire burns is told again: no word is lost."""
        told = {(w["person"], w["engine"], w["place"]) for w in words}
        if self.heard.get(ref, set()) - told:
            self.bad("FIR-13", "a word of where a fire burns is lost")
        self.heard[ref] = told
        for word in told - set(self.said.get(ref, {})):
            if ref in self.stops:
                self.burns(self.stops[ref], word[1])
                self.says(ref, word)

    def says(self, ref, word):
        self.said.setdefault(ref, {}).setdefault(word, self.seq)
