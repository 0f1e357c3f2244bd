"""Spoils an export in every small way and lets the second verifier look: python3 spoil.py FILE KEY STRIDE

Changes every STRIDE-th byte. Prints how many spoilt ones there were, then each that passed all the same.
"""
import sys

from verify import verify


def spoilt(data, feed, stride):
    for i in range(0, len(data), stride):
        # One bit, another for each byte in turn, so that all eight are tried all over the file.
        yield f"byte {i}", data[:i] + bytes([data[i] ^ 1 << i % 8]) + data[i + 1 :]
    for i in range(1, len(data), 7):
        yield f"{i} cut off", data[:-i]
    for more in (b"\n", b"\r\n", b" ", b",", b"x"):
        yield f"{more} added", data + more
    rows = data.split(feed)
    for i, row in enumerate(rows[:-1]):
        rest = rows[:i] + rows[i + 1 :]
        yield f"line {i} dropped", feed.join(rest)
        yield f"line {i} doubled", feed.join(rows[:i] + [row] + rows[i:])
        for to in range(len(rest)):
            if to != i:
                yield f"line {i} put at {to}", feed.join(rest[:to] + [row] + rest[to:])


with open(sys.argv[1], "rb") as file:
    whole = file.read()
keys = [bytes.fromhex(sys.argv[2])]
verify(whole, keys)
passed, count = [], 0
for what, content in spoilt(whole, b"\n" if whole.startswith(b"{") else b"\r\n", int(sys.argv[3])):
    count += 1
    try:
        verify(content, keys)
        passed.append(what)
    except Exception:  # as it must be
        continue
print(count, *passed, sep="\n")
