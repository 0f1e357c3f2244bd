#!/usr/bin/env python3
"""Judges exported records by the rules alone: python3 judge.py SLACK FOLDER...

A folder holds the NDJSON of one aircraft's sessions and of its own record. Nothing of the program is read. Prints a line
of JSON for each folder: {"events": n, "sessions": n, "findings": [{"rule", "session", "seq", "text"}]}. Ends with 1 when
it found something. SLACK is how long a change in one session may take to reach another, milliseconds.

Invariants of signals.md 3.6 and where they are judged: I1 CLR-3, CON-9. I2 CON-3, CLR-7. I3 CON-4 to CON-7. I4 CLR-4,
CLR-13. I5 CLR-12, CLR-14. I6 CLR-7, EVT-1. I7 RBK-1, RBK-2. I8 SIG-2. I9 HLD-1, CUT-1, FIR-1, TRN-1. I10 CUT-3.
I11 STG-14, RBK-4, CLR-14. I13 WIR-6. I15 PWR-1, PWR-3, CHK-2, HND-2. I16 ALR-6. I17 PST-2, PST-3, PST-11. I18 CAN-3,
EVT-1. I19 SIG-9. I21 SIG-10. I23 FIR-5, OVR-2. I24 CLR-7 (a restart begins an epoch), STN-1. A record does not show
I12 (replay), I14 (what panels show), I20 (views) and I22 (flashing).
"""
import hashlib
import json
import os
import sys

from aircraft import Aircraft
from session import Session


def events_of(data):
    """The events of one file, and what is wrong with their chain."""
    lines = [line for line in data.decode().split("\n") if line]
    found, events, head = [], [], None
    for line in lines:
        event = json.loads(line)
        if "fact" not in event:
            continue
        if head is None:
            head = hashlib.sha256(f"chockside session {event['session']}".encode()).hexdigest()
        if event["prev"] != head:
            found.append(("CAN-3", event["session"], event["seq"], "not chained to the event before"))
        head = hashlib.sha256(line.encode()).hexdigest()
        events.append(event)
    return events, found


def judge(files, slack=0):
    sessions, record, found, count = [], [], [], 0
    for data in files:
        events, broken = events_of(data)
        found += broken
        count += len(events)
        if not events:
            continue
        if events[0]["fact"]["type"] == "opened":
            record = events
        else:
            session = Session(events)
            sessions.append(session)
            found += session.findings
    found += Aircraft(sessions, record, slack).judge()
    keys = ("rule", "session", "seq", "text")
    return {"events": count, "sessions": len(sessions), "findings": [dict(zip(keys, f)) for f in found]}


def folder_of(name):
    contents = []
    for file_name in sorted(os.listdir(name)):
        with open(os.path.join(name, file_name), "rb") as file:
            contents.append(file.read())
    return contents


if __name__ == "__main__":
    slack, *folders = sys.argv[1:]
    verdicts = [judge(folder_of(name), int(slack)) for name in folders]
    for verdict in verdicts:
        print(json.dumps(verdict))
    sys.exit(1 if any(verdict["findings"] for verdict in verdicts) else 0)
