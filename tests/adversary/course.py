"""The stages of a session and its posts (SPEC.md, STG and PST)."""
import conditions

STAGES = {
    "start": "plan brief secure powerUp groundPower starting warmUp release closed".split(),
    "return": "plan brief arrival stopping stowing closed".split(),
}
OVER = ("closed", "abandoned")


class Course:
    def on_stageReached(self, fact):
        to = fact["stage"]
        if to == "abandoned":
            awaited = self.purpose == "return" and self.stage == "arrival" and not self.on_stand
            if any(is_ != "off" for is_ in self.life.values()) and not awaited:
                self.bad("STG-13", "abandoned while an engine turns")
            if any(s["is"] == "fire" for s in self.stops.values()):
                self.bad("STG-13", "abandoned while a fire stands")
            if self.depended_on() and not self.agreed():
                self.bad("STG-18", "abandoned by one person while others depend on it")
        else:
            self.decides("stage")
            if self.stops:
                self.bad("STG-4", f"{self.stage} left while a stop stands")
            back = to == "starting" and self.stage in ("warmUp", "release")
            stages = STAGES[self.purpose]
            if not back and (self.stage, to) not in zip(stages, stages[1:]):
                self.bad("STG-2", f"{to} after {self.stage}")
            if self.post not in ("cockpit", "supervisor"):
                self.bad("STG-3", "the stage moved by another post")
            self.leaves_return()
        self.stage, self.over = to, to in OVER
        if to in ("secure", "arrival"):
            self.past_brief = self.at
        if to == "arrival":
            self.arrives()
        if self.over:
            self.over_at = self.at

    def on_abandonAsked(self, fact):
        self.asked = (self.who, self.epoch, self.at)

    def depended_on(self):
        """Whether hands, a leave or another person's stop would be left behind."""
        others = any(s["person"] != (self.who or {}).get("id") for s in self.stops.values())
        return bool(others or self.hands or self.left_hands or self.out)

    def agreed(self):
        """Whether another person on another device asked for the same, in this epoch and within the type's time."""
        who, epoch, at = self.asked or ({}, None, 0)
        two = who and self.who and who["id"] != self.who["id"] and who["device"] != self.who["device"]
        return two and epoch == self.epoch and self.at < at + conditions.seconds(self.type, "override")

    def on_planAmended(self, fact):
        self.source = fact.get("powerSource", self.source)
        self.order = fact.get("order", self.order)
        self.new_epoch()

    def on_postTaken(self, fact):
        post, holder = fact["post"], self.posts[fact["post"]]
        me = self.who["id"]
        if any(h and h["id"] == me for p, h in self.posts.items() if p != post):
            self.bad("PST-3", "one person at two posts")
        if fact["how"] == "claimed" and holder:
            self.bad("PST-2", "a held post is claimed")
        if fact["how"] == "accepted" and self.offers.get(post) != me:
            self.bad("PST-4", "a post is accepted that was not offered")
        if fact["how"] == "moved" and (not holder or holder["id"] != me):
            self.bad("PST-5", "a post is moved by another person")
        moved = fact["how"] == "moved"
        briefed = moved and bool(holder) and holder["briefed"]
        self.posts[post] = {"id": me, "device": self.who["device"], "briefed": briefed}
        self.changed(post, moved)

    def on_postOffered(self, fact):
        self.offers[fact["post"]] = fact["to"]

    def on_postLeft(self, fact):
        self.posts[fact["post"]] = None
        self.changed(fact["post"], False)

    def changed(self, post, moved):
        self.offers.pop(post, None)
        if post == "fireGuard" and not moved:
            self.guard, self.arcs = None, {}
        if post == "supervisor" and not moved:
            self.also = []
        self.new_epoch()

    def on_briefed(self, fact):
        if self.posts[fact["post"]]:
            self.posts[fact["post"]]["briefed"] = True

    def on_restarted(self, fact):
        self.new_epoch()

    on_clockStepped = on_restarted
