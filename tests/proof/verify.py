#!/usr/bin/env python3
"""A second verifier of exported records, with nothing of the first: python3 verify.py FILE [KEY]

Holds an export (chockside-evidence-2 as NDJSON or JSON) against: SHA-256 chain, Merkle roots (RFC 9162 section 2.1.1),
checkpoints (C2SP signed-note and tlog-checkpoint) by Ed25519 (RFC 8032 section 5.1.7), and the signature of the file; a
table (CSV) against its signature alone, by the KEY (hexadecimal) that was noted elsewhere. It does not replay the
events. Prints OK or what is bad; ends with 1 when something is.
"""
import base64
import hashlib
import json
import sys

P, L = 2**255 - 19, 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P
sha256 = lambda data: hashlib.sha256(data).digest()


def add(p, q):
    """Points in extended coordinates, RFC 8032 section 5.1.4."""
    a, b = (p[1] - p[0]) * (q[1] - q[0]) % P, (p[1] + p[0]) * (q[1] + q[0]) % P
    c, d = 2 * p[3] * q[3] * D % P, 2 * p[2] * q[2] % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return e * f % P, g * h % P, f * g % P, e * h % P


def times(n, p):
    q = (0, 1, 1, 0)
    while n:
        if n & 1:
            q = add(q, p)
        p, n = add(p, p), n >> 1
    return q


def point(data):
    """RFC 8032 section 5.1.3."""
    y = int.from_bytes(data, "little")
    sign, y = y >> 255, y & (1 << 255) - 1
    xx = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    x = pow(xx, (P + 3) // 8, P)
    if (x * x - xx) % P:
        x = x * pow(2, (P - 1) // 4, P) % P
    assert y < P and (x * x - xx) % P == 0 and (x or not sign), "no point of the curve"
    x = P - x if x & 1 != sign else x
    return x, y, 1, x * y % P


BASE = point((4 * pow(5, P - 2, P) % P).to_bytes(32, "little"))


def signed(key, text, signature):
    s = int.from_bytes(signature[32:], "little")
    k = int.from_bytes(hashlib.sha512(signature[:32] + key + text).digest(), "little") % L
    left, right = times(s, BASE), add(point(signature[:32]), times(k, point(key)))
    return s < L and all((left[i] * right[2] - right[i] * left[2]) % P == 0 for i in (0, 1))


def opened(note, keys):
    text, line = note.rsplit("\n\n", 1)
    dash, name, letters = line[:-1].split(" ")
    data = base64.b64decode(letters, validate=True)
    assert line[-1] == "\n" and dash == "\u2014" and base64.b64encode(data).decode() == letters, "no signed note"
    text = (text + "\n").encode()
    ids = {sha256(name.encode() + b"\n\x01" + key)[:4]: key for key in keys}
    assert data[:4] in ids and signed(ids[data[:4]], text, data[4:]), "a signature is wrong"
    return text.decode().split("\n")


def root(leaves):
    if len(leaves) == 1:
        return leaves[0]
    k = 1 << (len(leaves) - 1).bit_length() - 1
    return sha256(b"\1" + root(leaves[:k]) + root(leaves[k:]))


def sealed(before, end, keys):
    """Whether the last line signs every byte before it."""
    note = json.loads(end)["end"]
    assert json.dumps({"end": note}, ensure_ascii=False, separators=(",", ":")).encode() == end, "not canonical"
    body = ["chockside/export", sha256(before).hex(), ""]
    assert note.split("\n")[:2] == body[:2], "not the file that was signed"
    assert opened(note, keys) == body, "more was signed than a file"


def table(data, keys):
    assert keys, "a table names no key: give the one that was noted elsewhere"
    at = data.rindex(b"\r\n", 0, -2) + 2
    columns = data.split(b"\r\n")[1].count(b",")
    end = data[at:].split(b'",')[0][1:].replace(b'""', b'"')
    assert data[at:] == b'"' + end.replace(b'"', b'""') + b'"' + b"," * columns + b"\r\n", "no row of a signature"
    sealed(data[:at], end, keys)
    return f"OK a table of {data[:at].count(bytes([13, 10])) - 2} rows"


def lines(data):
    """The manifest, the events, the last line, and what it signs."""
    assert data.endswith(b"\n"), "the tail was cut off"
    if not data.startswith(b'{"manifest":'):
        first, *events, last = data[:-1].split(b"\n")
        return first, events, last, data[: -len(last) - 1]
    at = data.rindex(b'\n],"end":')
    head, *events = data[:at].split(b"\n")
    assert head.endswith(b',"events":['), "no list of events"
    assert all(line.endswith(b",") for line in events[:-1]), "no list of events"
    events = [line[:-1] for line in events[:-1]] + events[-1:]
    return head[12:-11], events, b"{" + data[at + 3 : -1], data[: at + 2]


def verify(data, given=()):
    if not data.startswith(b"{"):
        return table(data, given)
    first, events, last, before = lines(data)
    manifest = json.loads(first)
    keys = [bytes.fromhex(key) for key in manifest["keys"]]
    assert not given or set(keys) <= set(given), "a key that was not given"
    sealed(before, last, keys[:1])
    assert len(events) == manifest["events"], "not as many events as named"
    head = sha256(b"chockside session " + manifest["session"].encode()).hex()
    rehearsed = manifest["session"].startswith("rehearsal-")
    assert manifest["aircraft"].startswith("REHEARSAL-") == rehearsed, "a rehearsal in one place alone"
    for n, line in enumerate(events, 1):
        event = json.loads(line)
        if n == 1 and event["fact"]["type"] == "planned":
            assert ("rehearsal" in event["fact"]) == rehearsed, "a rehearsal in one place alone"
        assert event["seq"] == n and event["prev"] == head, f"event {n} is not chained to the one before"
        head = sha256(line).hex()
    assert head == manifest["head"], "the head is another"
    leaves = [sha256(b"\0" + line) for line in events]
    for veil, it in manifest["names"].items():
        digest = sha256(f"chockside name {it['salt']} {it['name']}".encode()).hex()
        assert veil == "person:" + digest, "a name that was not sealed"
    for note in manifest["checkpoints"]:
        origin, size, top, *_ = opened(note, keys)
        assert origin == "chockside/session/" + manifest["session"], "a checkpoint of another session"
        assert base64.b64encode(root(leaves[: int(size)])).decode() == top, f"another root at {size}"
    assert int(size) == len(events), "no checkpoint of the whole record"
    said = "REHEARSAL: no aircraft was started. " if rehearsed else ""
    return f"OK {said}{len(events)} events, {len(manifest['checkpoints'])} checkpoints, head {head}"


if __name__ == "__main__":
    try:
        with open(sys.argv[1], "rb") as file:
            print(verify(file.read(), [bytes.fromhex(key) for key in sys.argv[2:]]))
    except Exception as error:  # whatever cannot be read is bad
        print(f"BAD {error}")
        sys.exit(1)
