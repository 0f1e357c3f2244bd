"""Power, chocks, brakes and hands on propellers, on the crew's leave (SPEC.md, PWR, CHK, HND)."""
import conditions

SERVICES = ("connectPower", "disconnectPower", "insertChocks", "removeChocks")
DONE = {
    "powerConnected": "connectPower",
    "powerDisconnected": "disconnectPower",
    "chocksIn": "insertChocks",
    "chocksOut": "removeChocks",
}


class Services:
    def sent_brakesSet(self, fact, n):
        self.brakes = (fact.get("pressure"), self.at)

    def sent_brakesReleased(self, fact, n):
        self.brakes = None
        self.leaves.pop("removeChocks", None)

    def leave(self, kind, n, signal):
        self.decides()
        if self.stops:
            self.bad("PWR-7", f"leave for {kind} while a stop stands")
        if kind == "removeChocks" and not conditions.brakes_hold(self, self.at):
            self.bad("CHK-2", "leave to remove chocks without brakes")
        if kind in ("insertChocks", "removeChocks") and "inboardStopped" in self.type["conditions"]:
            for inboard in conditions.inboards(self.type):
                if self.life[inboard] != "off":
                    self.bad("MCN-7", f"leave for {kind} while {inboard} turns beside the wheels")
        if kind != "handlePropeller":
            self.leaves[kind] = (signal, self.epoch)
            self.out.add(kind)
            return
        if self.clearance or "cranking" in self.life.values() or self.life.get(n) != "off":
            self.bad("HND-2", f"hands to {n} while an engine turns or is cleared")
        if self.hands or self.left_hands:
            self.bad("HND-2" if self.hands else "STN-6", "hands on two propellers")
        if self.left_turning:
            self.bad("STN-7", "hands on a propeller while one was left turning")
        self.hands_after_run(n)
        self.hands, self.turned_under = (n, self.seq), False
        self.begins("hands", self.seq)

    def work_done(self, kind, fact):
        service = DONE[kind]
        if "ref" in fact and kind != "chocksIn" and self.leaves.get(service) != (fact["ref"], self.epoch):
            self.bad("PWR-3" if "power" in kind else "CHK-2", f"{kind} on a leave that does not stand")
        if kind == "powerConnected":
            raises = conditions.volts_good(self.type, fact.get("volts"))
            if self.power is None and raises and "ref" not in fact:
                self.bad("PWR-1", "power comes on without the crew's leave")
            # With an engine they are the lowest volts of its last attempt, and say nothing of the steady volts.
            of_crank = "cranking" in self.life.values() or "engine" in fact
            if "starting" in self.type["groundPower"] and of_crank:
                return
            self.power = (fact.get("volts"), self.at)
        elif kind == "powerDisconnected":
            self.power = None
        else:
            self.chocks = kind == "chocksIn"
        self.leaves.pop(service, None)
        self.out.discard(service)

    def sent_clearOfAircraft(self, fact, n):
        if "groundPower" not in (self.post, fact.get("seenFrom")):
            self.bad("LEV-2", "another post says that everybody of ground power is clear")
        self.out.clear()

    def sent_propellerFree(self, fact, n):
        if self.hands and self.hands[0] == n:
            self.ends("hands", self.hands[1])
            self.hands = None
        for no in [no for no, engine in self.left_hands.items() if engine == n]:
            self.ends_foreign(no)
            del self.left_hands[no]

    def sent_propellerStill(self, fact, n):
        gone = [no for no, engine in self.left_turning.items() if engine == n]
        if not gone and n not in self.unseen:
            self.bad("STN-7", f"the propeller of {n} was not left turning")
        self.seen_still(n)
        self.unseen.discard(n)
        for no in gone:
            self.ends_foreign(no)
            del self.left_turning[no]

    def on_bladesCounted(self, fact):
        if not fact["resistance"] and (not self.hands or self.hands[0] != fact["engine"]):
            self.bad("HND-4", "blades are counted without leave for that propeller")
        elif not fact["resistance"] and (self.turned_under or self.life[fact["engine"]] != "off"):
            self.bad("RTN-32", "blades are counted of a propeller that turned under the hands")
