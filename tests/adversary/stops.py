"""Stops and what ends them, alerts, and conditions set aside (SPEC.md, HLD, CUT, FIR, TRN, ALR, OVR)."""
import conditions

STOPS = ("hold", "cut", "cutAll", "fire", "turning")
NEVER_SET_ASIDE = (
    "noStopOpen", "noOtherTurningUp", "arcClear", "postsHeld", "handsOffPropellers", "propellersStill",
    "noLeaveOut", "noDrillBars",
)
# A stop of the aircraft's record with number n has this number more in a session.
FOREIGN = 1_000_000_000


class Stops:
    def stop_begins(self, ref, is_, engine, person, post):
        self.stops[ref] = {
            "is": is_, "engine": engine, "person": person, "post": post, "done": False, "out": None,
            "at": self.at, "device": self.who["device"] if self.who else None, "burns": {engine} - {None}, "acted": None,
        }
        for other in self.stops.values():
            if other["person"] != person and person is not None and other is not self.stops[ref]:
                other["acted"] = "a stop by another person"
        self.new_epoch()

    def stop_ends(self, ref):
        stop = self.stops.pop(ref)
        if ref > FOREIGN:
            self.ends_foreign(ref - FOREIGN)
        else:
            self.ends(stop["is"], ref)

    def on_presenceLapsed(self, fact):
        self.stop_begins(self.seq, "hold", None, None, fact["post"])
        self.begins("hold", self.seq)

    def on_silenceHeld(self, fact):
        self.stop_begins(self.seq, "hold", None, None, None)
        self.begins("hold", self.seq)

    def on_fireOutLapsed(self, fact):
        if fact["fire"] in self.stops:
            self.stops[fact["fire"]]["out"] = None

    def sent_turning(self, fact, n):
        if n in self.life and self.life[n] == "off":
            self.cranks(n)
        self.request.pop(n, None)
        if self.clearance and self.clearance["engine"] == n:
            self.clearance = None

    def sent_release(self, fact, n):
        hold = self.named(fact, "hold", "HLD-3")
        if not hold:
            return
        owner = hold["person"]
        there = any(h and h["id"] == owner for h in self.posts.values())
        if owner is None:
            may = self.post in ("supervisor", "cockpit")
        else:
            by_post = self.post is not None and self.post == hold["post"]
            heir = by_post or (self.post == "supervisor" and "note" in fact)
            may = owner == self.who["id"] or (not there and heir)
        if not may:
            self.bad("PRS-12" if owner is None else "HLD-3", "a hold is released by somebody who may not")
        self.stop_ends(fact["ref"])

    def sent_resetCut(self, fact, n):
        cut = self.named(fact, "cut", "CUT-5")
        if not cut:
            return
        turning = [e for e in self.engines if cut["engine"] in (None, e) and self.life[e] != "off"]
        if turning or not cut["done"] or self.post not in ("supervisor", "cockpit"):
            self.bad("CUT-5", "a cut is reset before it is done, or by another post")
        self.stop_ends(fact["ref"])

    def sent_fireAt(self, fact, n):
        fire = self.named(fact, "fire", "FIR-11")
        if not fire:
            return
        self.burns(fire, n)
        if self.who["id"] != fire["person"]:
            fire["acted"] = "another person's word of where it burns"
        self.says(fact["ref"], (self.who["id"], n, fact.get("place", "notSaid")))

    def burns(self, fire, n):
        """An engine is named for a fire. Whoever says so sees it burn: a word that it is out counts no more."""
        fire["burns"] |= {n} - {None}
        fire["out"] = None

    def sent_disregard(self, fact, n):
        stop = self.stops.get(fact.get("ref"))
        limit = self.type["timing"].get("slip")
        if not stop or fact["ref"] > FOREIGN or self.sent.get(fact["ref"], {}).get("kind", "turning") == "turning":
            return self.bad("STP-2", "a slip is taken back that is none")
        if limit is None or self.at >= stop["at"] + limit["value"] * 1000:
            self.bad("STP-1", "a slip is taken back too late, or where the type gives no time")
        if (stop["person"], stop["device"]) != (self.who["id"], self.who["device"]):
            self.bad("STP-1", "a slip is taken back by another person or on another device")
        if stop["acted"] or stop["done"] or stop["out"]:
            self.bad("STP-3", f"a slip is taken back after {stop['acted'] or 'a word that it is over'}")
        self.stop_ends(fact["ref"])

    def acted(self, what):
        """Somebody may have acted on whatever stands now."""
        for stop in self.stops.values():
            stop["acted"] = stop["acted"] or what

    def sent_fireOut(self, fact, n):
        fire = self.named(fact, "fire", "FIR-5")
        if not fire:
            return
        if self.post not in ("fireGuard", "supervisor", "cockpit"):
            self.bad("FIR-5", "a fire is out by the word of another post")
        if fire["out"] is None:
            fire["out"] = (self.who["id"], self.who["device"])
        else:
            if self.who["id"] == fire["out"][0] or self.who["device"] == fire["out"][1]:
                self.bad("FIR-5", "a fire is out by the word of one person or one device")
            self.stop_ends(fact["ref"])

    def named(self, fact, is_, rule):
        stop = self.stops.get(fact.get("ref"))
        if not stop or stop["is"] != is_:
            self.bad(rule, f"ends a {is_} that does not stand")
            return None
        return stop

    def on_alertRaised(self, fact):
        self.alerts[self.seq] = fact["kind"]

    def on_alertShelved(self, fact):
        if self.alerts.get(fact["alert"]) in ("hold", "cut", "fire"):
            self.bad("ALR-6", "the alert of a stop is shelved")

    def on_drillStepped(self, fact):
        if self.opened.get(fact["run"]) in self.stops:
            self.stops[self.opened[fact["run"]]]["acted"] = "a step of its drill"

    def on_drillStarted(self, fact):
        self.opened[self.seq] = fact.get("ref")
        self.drills[self.seq] = (fact["drill"], fact.get("engine"))
        self.begins("drill", self.seq)

    def on_drillEnded(self, fact):
        run = fact["run"]
        if self.drills.pop(run, None) is None:
            self.bad("DRL-3", "a drill ends that is not open")
        if run > FOREIGN:
            self.ends_foreign(run - FOREIGN)
        else:
            self.ends("drill", run)

    def on_overrideAsked(self, fact):
        condition = fact["condition"]
        if condition in NEVER_SET_ASIDE or condition not in self.type["overridable"]:
            self.bad("OVR-1", f"{condition} is set aside")
        self.overrides[self.seq] = {
            "condition": condition, "engine": fact["engine"], "at": self.at, "epoch": self.epoch, "given": False,
            "by": (self.who["id"], self.who["device"], self.post),
        }

    def on_overrideGiven(self, fact):
        asked = self.overrides.get(fact["override"])
        if not asked:
            return self.bad("OVR-2", "a second person agrees to nothing")
        first, second = asked["by"], (self.who["id"], self.who["device"], self.post)
        if any(a == b for a, b in zip(first, second)) or {first[2], second[2]} != {"cockpit", "supervisor"}:
            self.bad("OVR-2", "a condition is set aside by one person, one device or another post")
        if self.at >= asked["at"] + conditions.seconds(self.type, "override"):
            self.bad("OVR-3", "the second person came too late")
        asked["given"] = True

    def on_overrideEnded(self, fact):
        self.overrides.pop(fact["override"], None)

    def on_refused(self, fact):
        action = fact["action"]
        if action["type"] == "send" and action["kind"] == "fireAt":
            self.bad("FIR-11", "a word of where a fire burns is refused")
        if action["type"] == "send" and action["kind"] in STOPS:
            self.bad({"fire": "FIR-1", "hold": "HLD-1", "turning": "TRN-1"}.get(action["kind"], "CUT-1"), "a stop is refused")
