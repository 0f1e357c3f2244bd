#!/usr/bin/env python3
"""A second verifier of exported records, written from server/EVIDENCE.md alone, without any package.

python3 verify.py FILE [KEY | CHECKPOINT_FILE]...

Prints the verdict of that page and ends with its exit code. It does not replay the events.
"""
import base64
import hashlib
import json
import re
import sys

# Ed25519, RFC 8032 section 5.1: points in extended coordinates.
P = 2**255 - 19
ORDER = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P


def sha(data):
    return hashlib.sha256(data).digest()


def plus(p, q):
    (x1, y1, z1, t1), (x2, y2, z2, t2) = p, q
    a, b = (y1 - x1) * (y2 - x2) % P, (y1 + x1) * (y2 + x2) % P
    c, d = 2 * t1 * t2 * D % P, 2 * z1 * z2 % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return e * f % P, g * h % P, f * g % P, e * h % P


def multiple(n, p):
    total = (0, 1, 1, 0)
    for bit in bin(n)[2:]:
        total = plus(total, total)
        if bit == "1":
            total = plus(total, p)
    return total


def point(data):
    number = int.from_bytes(data, "little")
    y, odd = number & (1 << 255) - 1, number >> 255
    square = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    x = pow(square, (P + 3) // 8, P)
    if x * x % P != square:
        x = x * pow(2, (P - 1) // 4, P) % P
    assert y < P and x * x % P == square and not (x == 0 and odd), "a key or signature is no point"
    if x & 1 != odd:
        x = P - x
    return x, y, 1, x * y % P


BASE = point((4 * pow(5, P - 2, P) % P).to_bytes(32, "little"))


def has_signed(key, text, signature):
    s = int.from_bytes(signature[32:], "little")
    if s >= ORDER:
        return False
    k = int.from_bytes(hashlib.sha512(signature[:32] + key + text).digest(), "little") % ORDER
    (x1, y1, z1, _), (x2, y2, z2, _) = multiple(s, BASE), plus(point(signature[:32]), multiple(k, point(key)))
    return (x1 * z2 - x2 * z1) % P == 0 and (y1 * z2 - y2 * z1) % P == 0


def text_of(note, keys):
    """The text of a signed note, if one of the keys signed it."""
    found = re.fullmatch("(.*\n)\n\u2014 chockside ([A-Za-z0-9+/=]+)\n", note, re.S)
    assert found, "no signed note"
    text, letters = found.groups()
    data = base64.b64decode(letters, validate=True)
    assert len(data) == 68 and base64.b64encode(data).decode() == letters, "another spelling of a signature"
    for key in keys:
        if sha(b"chockside\n\x01" + key)[:4] == data[:4] and has_signed(key, text.encode(), data[4:]):
            return text
    raise AssertionError("a note is not signed by a key that counts")


def root(lines):
    """RFC 9162 section 2.1.1."""
    if len(lines) == 1:
        return sha(b"\0" + lines[0])
    left = 1
    while left * 2 < len(lines):
        left *= 2
    return sha(b"\1" + root(lines[:left]) + root(lines[left:]))


def check_end(line, before, keys):
    end = json.loads(line)["end"]
    assert json.dumps({"end": end}, ensure_ascii=False, separators=(",", ":")).encode() == line, "end: not canonical"
    said = text_of(end, keys)
    assert said == "chockside/export\n" + sha(before).hex() + "\n", "the file is not the one that was signed"


def check_checkpoint(note, keys, session, events):
    """The number of events that it is of."""
    found = re.fullmatch("chockside/session/(.+)\n([1-9][0-9]*)\n(.+)\ntime .+\n", text_of(note, keys))
    assert found, "no checkpoint"
    of, size, top = found.groups()
    assert of == session, "a checkpoint of another session"
    assert int(size) <= len(events), "events are missing"
    assert base64.b64encode(root(events[: int(size)])).decode() == top, "another root at %s" % size
    return int(size)


def parts(data):
    """The manifest, the events, the end note, and the bytes that it signs."""
    assert data.endswith(b"\n"), "no line feed at the end"
    if data.startswith(b'{"manifest":'):
        at = data.rindex(b'\n],"end":')
        head, *events = data[:at].split(b"\n")
        assert head.endswith(b',"events":['), "no events"
        assert all(line.endswith(b",") for line in events[:-1]), "no comma between events"
        events = [line[:-1] for line in events[:-1]] + events[-1:]
        return head[len(b'{"manifest":') : -len(b',"events":[')], events, b"{" + data[at + 3 : -1], data[: at + 2]
    first, *events, last = data[:-1].split(b"\n")
    return first, events, last, data[: -len(last) - 1]


def check_table(data, keys):
    assert keys, "a table names no key: give one"
    at = data.rindex(b"\r\n", 0, -2) + 2
    commas = data.split(b"\r\n")[1].count(b",")
    found = re.fullmatch(b'"((?:[^"]|"")*)"' + b"," * commas + b"\r\n", data[at:], re.S)
    assert found, "no row of a signature"
    check_end(found.group(1).replace(b'""', b'"'), data[:at], keys)
    return "OK a table of %d rows" % (data[:at].count(b"\r\n") - 2)


def session_of(note):
    """The record that a checkpoint names, whoever signed it."""
    return note.split("\n")[0][len("chockside/session/") :]


def verify_history(data, given, noted):
    """An aircraft's whole history: the signature of the whole, then each record as a file of its own."""
    assert data.endswith(b"\n"), "no line feed at the end"
    first, *lines = data[:-1].split(b"\n")
    last = lines.pop()
    manifest = json.loads(first)
    key = bytes.fromhex(manifest["key"])
    assert not given or key in given, "it names a key that was not given"
    check_end(last, data[: -len(last) - 1], [key])
    records = [record["session"] for record in manifest["records"]]
    assert all(session_of(note) in records for note in noted), "a checkpoint of no record in the file"
    vouched, events, at = bool(given or records), 0, 0
    for record in manifest["records"]:
        part = lines[at : at + record["events"] + 2]
        own = json.loads(part[0])
        assert [own["session"], own["events"], own["head"]] == [record["session"], record["events"], record["head"]], (
            "another record than the file names"
        )
        assert own["aircraft"] == manifest["aircraft"] and own["keys"][0] == manifest["key"], "a record of elsewhere"
        of_it = [note for note in noted if session_of(note) == own["session"]]
        vouched = verify(b"\n".join(part) + b"\n", given, of_it).startswith("OK") and vouched
        at, events = at + len(part), events + record["events"]
    assert at == len(lines), "a line of no record that the file names"
    verdict = "OK" if vouched else "WHOLE"
    return "%s %d records, %d events of %s" % (verdict, len(records), events, manifest["aircraft"])


def verify(data, given=(), noted=()):
    data.decode()
    if not data.startswith(b"{"):
        return check_table(data, given)
    if not data.startswith(b'{"manifest":') and json.loads(data.split(b"\n")[0])["format"] == "chockside-history-1":
        return verify_history(data, given, noted)
    first, events, last, before = parts(data)
    manifest = json.loads(first)
    assert manifest["format"] == "chockside-evidence-2", "another form"
    keys = [bytes.fromhex(key) for key in manifest["keys"]]
    assert not given or all(key in given for key in keys), "it names a key that was not given"
    check_end(last, before, keys[:1])
    assert len(events) == manifest["events"] >= 1, "not as many events as the manifest says"
    session = manifest["session"]
    due = sha(b"chockside session " + session.encode()).hex()
    rehearsed, back = session.startswith("rehearsal-"), None
    assert manifest["aircraft"].startswith("REHEARSAL-") == rehearsed, "a rehearsal in one place alone"
    for number, line in enumerate(events, 1):
        event = json.loads(line)
        assert event["seq"] == number and event["session"] == session, "line %d: not event %d" % (number + 1, number)
        if number == 1 and event["fact"]["type"] == "planned":
            assert ("rehearsal" in event["fact"]) == rehearsed, "a rehearsal in one place alone"
            back = event["fact"].get("rehearsal", {}).get("back")
            assert not back or back["session"].startswith("rehearsal-"), "a rehearsal taken back from a start"
        assert event["prev"] == due, "line %d: not chained to the line before" % (number + 1)
        due = sha(line).hex()
    assert due == manifest["head"], "the head is another"
    for pseudonym, of in manifest["names"].items():
        digest = sha(("chockside name %s %s" % (of["salt"], of["name"])).encode()).hex()
        assert pseudonym == "person:" + digest, "a name that was not sealed"
    sizes = [check_checkpoint(note, keys, session, events) for note in manifest["checkpoints"]]
    assert sizes and sizes[-1] == len(events), "no checkpoint of the whole record"
    for note in noted:
        check_checkpoint(note, keys, session, events)
    verdict = "OK" if given or noted else "WHOLE"
    said = "REHEARSAL: no aircraft was started. " if rehearsed else ""
    if back:
        said += "Events 1 to %d are retold from %s. " % (back["seq"], back["session"])
    return "%s %s%d events, %d checkpoints, head %s" % (verdict, said, len(events), len(sizes), due)


def kept(arguments):
    """Keys, and the checkpoints in files."""
    keys, notes = [], []
    for argument in arguments:
        if re.fullmatch("[0-9a-f]{64}", argument):
            keys.append(bytes.fromhex(argument))
        else:
            with open(argument, encoding="utf-8", newline="") as file:
                notes.append(file.read())
    return keys, notes


if __name__ == "__main__":
    try:
        with open(sys.argv[1], "rb") as file:
            content = file.read()
        keep = kept(sys.argv[2:])
    except (OSError, IndexError, UnicodeDecodeError) as error:
        print("cannot be read: %s" % error, file=sys.stderr)
        sys.exit(2)
    try:
        said = verify(content, *keep)
    except Exception as error:  # whatever does not fit the page is bad
        print("BAD %s" % error)
        sys.exit(1)
    print(said)
    sys.exit(3 if said.startswith("WHOLE") else 0)
