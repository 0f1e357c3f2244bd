"""A return: arrival, cool-down, stopping, propellers seen still, switches, stowing (SPEC.md, RTN)."""
import conditions


class Returning:
    def arrives(self):
        """The engines of the order turn. Nobody has seen the other propellers still."""
        for n in self.engines:
            if n in self.order:
                self.life[n] = "stable"
                self.begins("turning", n)
            else:
                self.unseen.add(n)

    def held_by_wheels(self, rule):
        """The aircraft is held by chocks, or by brakes while an engine may keep people from the wheels."""
        listed = self.type["conditions"]
        braked = conditions.brakes_hold(self, self.at)
        if "brakesSet" in listed and not braked and not self.chocks:
            self.bad(rule, f"{self.stage} is left and neither brakes nor chocks hold the aircraft")
        kept_away = "inboardStopped" in listed and any(is_ != "off" for is_ in self.life.values())
        if "chocksIn" in listed and not self.chocks and not kept_away:
            self.bad(rule, f"{self.stage} is left without chocks")

    def leaves_return(self):
        """What must be so before a return leaves its stage."""
        if self.stage == "arrival":
            if not self.on_stand:
                self.bad("RTN-4", "the arrival is left and nobody said that the aircraft stands on its place")
            self.held_by_wheels("RTN-4")
        if self.stage in ("stopping", "stowing"):
            if any(is_ != "off" for is_ in self.life.values()):
                self.bad("RTN-11", f"{self.stage} is left while an engine turns")
            if self.unseen:
                self.bad("RTN-11", f"{self.stage} is left with propellers not seen still: {sorted(self.unseen)}")
            if not self.switches_off:
                self.bad("RTN-11", f"{self.stage} is left with the switches in doubt")
        for check in self.type["checks"]:
            # Without a cart, nothing of ground power is checked.
            due = check["stage"] == self.stage and (check["post"] != "groundPower" or self.source == "groundPower")
            if self.stage in ("stopping", "stowing") and due and not self.checks.get(check["id"]):
                self.bad("RTN-11", f"{self.stage} is left without its check {check['id']}")
        if self.stage == "stopping":
            self.held_by_wheels("RTN-11")
        if self.stage == "stowing":
            if self.hands or self.power is not None:
                self.bad("RTN-11", "a return is closed with hands at a propeller or power on")
            if self.remarks:
                self.bad("RTN-7", f"a return is closed without the reason for {sorted(self.remarks)}")

    def sent_onStand(self, fact, n):
        if self.stage != "arrival" or self.post not in ("supervisor", "fireGuard"):
            self.bad("RTN-3", "it stands on its place by another post, or at another stage")
        self.on_stand = True

    def sent_coolDown(self, fact, n):
        if self.post != "cockpit":
            self.bad("RTN-5", "the engines idle by the word of another post")
        self.cooling = self.at

    def on_checked(self, fact):
        self.checks[fact["check"]] = fact["good"]

    def on_reading(self, fact):
        if "engine" in fact:
            self.gauges[fact["engine"], fact["gauge"]] = (fact["reading"]["value"], self.at)

    def short_of(self, n):
        """What an engine that is stopped now is short of its cool-down."""
        rule = self.type.get("stopping", {}).get("coolDown")
        if self.purpose != "return" or not rule or self.life[n] != "stable":
            return []
        short, since = [], self.cooling
        if "atIdle" in rule:
            idled = 0 if since is None else (self.at - since) / 1000
            if since is None or idled < rule["atIdle"]["value"]:
                short.append(("time", rule["atIdle"]["value"], idled))
        for gauge in rule["gauges"]:
            value, when = self.gauges.get((n, gauge["gauge"]), (None, 0))
            found = value if since is not None and when >= since else None
            if found is None or found > gauge["atMost"]["value"]:
                short.append((gauge["gauge"], gauge["atMost"]["value"], found))
        return short

    def stopped_warm(self, n):
        """Notes that the record owes what was short, before the engine counts as stopped."""
        short = self.short_of(n)
        if short:
            self.cuts_due[n] = short

    def cuts_are_told(self):
        for n in sorted(self.cuts_due):
            self.bad("RTN-7", f"{n} was stopped warm and the record does not say so")
        self.cuts_due.clear()

    def on_coolDownCut(self, fact):
        n = fact["engine"]
        told = [(s.get("gauge", "time"), s["allowed"], s["found"]) for s in fact["short"]]
        if told != self.cuts_due.pop(n, None):
            self.bad("RTN-7", f"{n} was short of something else than the record says")
        self.remarks.add(n)

    def on_defectWritten(self, fact):
        self.remarks.discard(fact.get("engine"))

    def sent_switchesOff(self, fact, n):
        if self.post != "cockpit" or any(is_ != "off" for is_ in self.life.values()):
            self.bad("RTN-9", "the switches are proved off while an engine turns, or by another post")
        self.switches_off = True

    def seen_still(self, n):
        if self.life.get(n, "off") != "off":
            self.bad("RTN-8", f"the propeller of {n} is seen still while it turns")
        by = self.stopped_by.pop(n, None)
        if by is None:
            return
        if by["id"] == self.who["id"] or by["device"] == self.who["device"]:
            self.bad("RTN-8", f"the propeller of {n} is seen still by who stopped it, or on that device")
        if self.type.get("stopping", {}).get("still", {}).get("by") == "guard" and self.post != "fireGuard":
            self.bad("RTN-8", f"the propeller of {n} is seen still by another post than the guard")

    def hands_after_run(self, n):
        if n in self.unseen:
            self.bad("RTN-10", f"hands to {n} before its propeller was seen still")
        if self.purpose != "return":
            return
        if self.stage != "stowing":
            self.bad("RTN-10", f"hands to {n} before the stowing of a return")
        if self.unseen or any(is_ != "off" for is_ in self.life.values()):
            self.bad("RTN-10", f"hands to {n} before every propeller was seen still")
        if not self.switches_off:
            self.bad("RTN-10", f"hands to {n} with the switches in doubt")
