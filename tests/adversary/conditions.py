"""The conditions of a clearance, from the reports in the record alone (SPEC.md, CON)."""


def seconds(aircraft_type, name):
    """A time of the type in milliseconds."""
    return aircraft_type["timing"][name]["value"] * 1000


def aside(session, n):
    """Conditions of engine `n` that two people have set aside in this epoch."""
    return {
        o["condition"]
        for o in session.overrides.values()
        if o["given"] and o["engine"] == n and o["epoch"] == session.epoch
    }


def inboards(aircraft_type):
    """The engine nearest the centre line on each side; one on the line belongs to neither."""
    sides = ([e for e in aircraft_type["engines"] if e["y"] * side > 0] for side in (-1, 1))
    return [min(engines, key=lambda e: abs(e["y"]))["n"] for engines in sides if engines]


def brakes_hold(session, at):
    least = session.type["brakePressure"]["atLeast"]
    if not session.brakes:
        return False
    pressure, when = session.brakes
    good = bool(pressure) and pressure["unit"] == least["unit"] and pressure["value"] >= least["value"]
    return good and at - when < seconds(session.type, "brakes")


def volts_good(aircraft_type, volts):
    low, high = aircraft_type["groundPower"]["steadyMin"], aircraft_type["groundPower"]["steadyMax"]
    return bool(volts) and volts["unit"] == low["unit"] and low["value"] <= volts["value"] <= high["value"]


def power_known(session, at):
    if session.power is None:
        return session.source == "batteries"
    volts, when = session.power
    return volts_good(session.type, volts) and at - when < seconds(session.type, "groundPower")


def drill_bars(session, n):
    """Whether an open drill bars the start of engine `n` by its card."""
    cards = {drill["id"]: drill for drill in session.type["drills"]}
    late = ("alert:oilFirstLate", "alert:oilNormalLate", "blades:resistance")
    for drill, engine in session.drills.values():
        card = cards.get(drill)
        if card is None:
            continue
        usual = "engine" if any(t in late for t in card["triggers"]) else "nothing"
        bars = card.get("bars", usual)
        if bars == "all" or (bars == "engine" and engine in (None, n)):
            return True
    return False


def unmet(session, n, at, basis=None):
    """The conditions that are not met for cranking engine `n`, each by its rule and in words."""
    found, listed = [], session.type["conditions"]
    skip = aside(session, n)

    def need(condition, rule, met, text, always=True):
        if (always or condition in listed) and not met and condition not in skip:
            found.append((rule, text))

    guard, arc = session.guard, session.arcs.get(n)
    here = bool(guard) and guard["engine"] == n
    need("noStopOpen", "CON-3", not session.stops, "a stop stands")
    need("guardInPlace", "CON-4", here and at - guard["at"] < seconds(session.type, "guardInPlace"), "no guard there")
    after = bool(arc) and (not here or arc[0] > guard["since"])
    need("arcClear", "CON-5", after and at - arc[1] < seconds(session.type, "arcClear"), "the arc is not clear")
    need("brakesSet", "CON-6", brakes_hold(session, at), "the brakes do not hold", False)
    need("chocksIn", "CON-7", session.chocks, "the chocks are not in", False)
    need("groundPowerKnown", "CON-8", power_known(session, at), "the power is not known", False)
    others = [is_ for e, is_ in session.life.items() if e != n]
    need("noOtherTurningUp", "CON-9", "cranking" not in others, "another engine is cranking")
    need("othersSettled", "CON-10", "caught" not in others, "another engine is not settled", False)
    posts = set(session.type["requiredPosts"]) | ({"groundPower"} if session.source == "groundPower" else set())
    held = all(session.posts[p] and session.posts[p]["briefed"] for p in posts)
    need("postsHeld", "CON-12", held, "a needed post is not held and briefed")
    need("handsOffPropellers", "HND-3", not session.hands, "hands are on a propeller")
    need("handsOffPropellers", "STN-6", not session.left_hands, "hands were left on a propeller")
    need("propellersStill", "STN-7", not session.left_turning, "a propeller was left turning")
    need("noLeaveOut", "LEV-1", not session.out, "people may be at the aircraft on a leave")
    need("noDrillBars", "DRL-9", not drill_bars(session, n), "an open drill bars it")
    if basis is not None:
        said = {report["id"] for report in basis if report["is"] == "overridden"}
        if not said <= skip:
            found.append(("OVR-5", "stands on a condition that nobody set aside"))
    return found
