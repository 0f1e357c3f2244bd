"""The fire guard, requests, clearances and the life of engines (SPEC.md, REQ, CLR, RBK, CON, ENG)."""
import conditions


class Engines:
    def sent_readyToStart(self, fact, n):
        if self.stage != "starting" or self.stops:
            self.bad("REQ-1", "a request at the wrong stage or while a stop stands")
        if "cockpit" not in (self.post, fact.get("seenFrom")):
            self.bad("REQ-1", "a request that is not the cockpit's")
        if self.request or self.clearance:
            self.bad("REQ-4", "a request beside another, or while a clearance stands")
        self.request = {n: self.seq}

    def sent_clearToStart(self, fact, n):
        self.decides()
        if self.post != "supervisor" or self.stage != "starting":
            self.bad("CLR-1", "cleared by another post, or at another stage")
        if n not in self.request or fact.get("ref") != self.request[n]:
            self.bad("CLR-1", f"{n} is cleared without its request")
        if self.clearance:
            self.bad("CLR-3", "two clearances stand")
        if self.also and fact.get("standsAt") != self.aircraft:
            self.bad("PST-13", "a supervisor of several does not say that they stand here")
        seconds = conditions.seconds(self.type, "clearance")
        if fact.get("expiresAt", 0) > self.at + seconds:
            self.bad("CLR-4", "a clearance lasts longer than the type allows")
        for rule, text in conditions.unmet(self, n, self.at, fact.get("basis")):
            self.bad(rule, f"cleared {n}: {text}")
        self.request = {}
        self.clearance = {
            "id": self.seq, "engine": n, "epoch": self.epoch, "until": fact.get("expiresAt", self.at),
            "read": False, "wrong": False,
        }

    def sent_cranking(self, fact, n):
        if self.post != "cockpit":
            self.bad("CLR-5", "cranked by another post")
        burns = any(s["is"] == "fire" and n in s["burns"] for s in self.stops.values())
        clearance = self.clearance
        if burns:
            if self.hands and self.hands[0] == n:
                self.bad("HND-3", f"{n} is cranked with hands on its propeller")
            others = [is_ for e, is_ in self.life.items() if e != n]
            early = self.stage in ("plan", "brief", "secure", "powerUp", "groundPower")
            if n in self.not_clear or "cranking" in others or early:
                self.bad("FIR-8", f"{n} burns and is cranked while its arc is not clear, beside another, or too early")
        elif not clearance or clearance["engine"] != n or fact.get("ref") != clearance["id"]:
            self.bad("CLR-12", f"{n} is cranked without a clearance that stands")
        else:
            self.decides()
            if not clearance["read"]:
                self.bad("RBK-1", f"{n} is cranked before the read-back")
            for rule, text in conditions.unmet(self, n, self.at):
                self.bad(rule, f"cranked {n}: {text}")
            self.clearance = None
        self.cranks(n)

    def cranks(self, n):
        self.arcs.pop(n, None)
        self.leaves.clear()
        self.life[n] = "cranking"
        if self.hands and self.hands[0] == n:
            self.turned_under = True
        self.unseen.discard(n)
        self.stopped_by.pop(n, None)
        self.switches_off = False
        self.starter.append([n, self.at, None, self.seq, "starterCool" in conditions.aside(self, n)])
        self.begins("turning", n)

    def starter_off(self, n):
        for use in self.starter:
            if use[0] == n and use[2] is None:
                use[2] = self.at

    def sent_caught(self, fact, n):
        if self.life[n] != "cranking":
            self.bad("ENG-3", f"{n} catches without cranking")
        self.starter_off(n)
        self.life[n] = "caught"

    def sent_started(self, fact, n):
        if self.life[n] not in ("caught", "stable"):
            self.bad("ENG-3", f"{n} is stable without having caught")
        self.life[n] = "stable"

    def sent_startAbandoned(self, fact, n):
        self.request.pop(n, None)
        if self.clearance and self.clearance["engine"] == n:
            self.clearance = None
        if self.life[n] == "cranking":
            self.stands_still(n)

    def sent_shutDown(self, fact, n):
        if n in self.life:
            self.stands_still(n)

    def stands_still(self, n):
        self.acted("an engine was stopped")
        self.stopped_warm(n)
        self.stopped_by[n] = self.who
        self.starter_off(n)
        self.life[n] = "off"
        self.unseen.add(n)
        self.ends("turning", n)

    def sent_guardInPlace(self, fact, n):
        if "fireGuard" not in (self.post, fact.get("seenFrom")):
            self.bad("CON-15", "a guard's place reported for nobody")
        if not self.guard or self.guard["engine"] != n:
            self.guard, self.arcs = {"engine": n, "since": self.seq}, {}
            self.not_clear = set()
        self.guard["at"] = self.at

    def sent_guardAway(self, fact, n):
        self.guard, self.arcs = None, {}

    def sent_arcClear(self, fact, n):
        if "fireGuard" not in (self.post, fact.get("seenFrom")) or not self.guard or self.guard["engine"] != n:
            self.bad("CON-15", f"the arc of {n} is clear by no guard who stands there")
        self.arcs[n] = (self.seq, self.at)
        self.not_clear.discard(n)

    def sent_arcNotClear(self, fact, n):
        for engine in self.engines if n is None else (n,):
            self.arcs.pop(engine, None)
            self.not_clear.add(engine)

    sent_peopleAtAircraft = sent_arcNotClear

    def read_back(self, fact, asked):
        clearance = self.clearance
        if asked["kind"] != "clearToStart" or not clearance or clearance["id"] != fact["signal"]:
            return self.bad("RBK-4", "a read-back of a clearance that does not stand")
        if self.post != "cockpit":
            self.bad("RBK-1", "a read-back by another post")
        right = fact.get("engine") == asked["engine"]
        if fact.get("right") != right:
            self.bad("RBK-2", "a read-back is judged wrongly")
        clearance["read" if right else "wrong"] = True

    def on_clearanceVoid(self, fact):
        if not self.clearance or self.clearance["id"] != fact["clearance"]:
            return self.bad("CLR-14", "a clearance ends that does not stand")
        self.clearance = None

    def on_requestWithdrawn(self, fact):
        if self.request.pop(fact["engine"], None) != fact["signal"]:
            self.bad("REQ-5", "a request is withdrawn that does not stand")
