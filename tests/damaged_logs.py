"""Small logs of every layout, and what a bad card or a cut transfer makes of them."""

import random

STAMPED = "Serial: 77\ntime,top_C,bottom_C,output\n" + "".join(
    f"2026-04-{11 + i // 24} {i % 24:02d}:00:00,{20 + 30 * i},{18 + 29.5 * i},{i}\n"
    for i in range(40)
)
ELAPSED = "Time;chamber;set\nmin;°C;°C\n" + "".join(
    f"{10 * i},5;{20 + 30 * i},25;{22 + 30 * i}\n" for i in range(40)
)
LONG = "time,sensor,value\n" + "".join(
    f"2026-04-11 {i // 6:02d}:{i % 6}0:00,{name},{20 + 9 * i + shift}\n"
    for i in range(40)
    for shift, name in enumerate(("top", "bottom"))
)
FIXED = "   t      T1      T2\n [s]    [C]     [C]\n" + "".join(
    f"{60 * i:4d} {20 + 30.5 * i:8.2f} {19 + 30.1 * i:8.2f}\n" for i in range(40)
)
QUOTED = ELAPSED.replace(";", '";"').replace("\n", '"\n"')
SAMPLES = [
    STAMPED.encode(),
    ELAPSED.encode("latin-1"),
    LONG.encode(),
    FIXED.encode(),
    QUOTED.encode("utf-16"),
]


def damaged(raw: bytes, seed: int) -> bytes:
    chance = random.Random(seed)  # noqa: S311 - nothing secret
    data = bytearray(raw)
    for _ in range(chance.randint(1, 6)):
        at, length = chance.randrange(len(data) + 1), chance.randint(1, 60)
        kind = chance.randrange(6)
        if kind == 0 and data:
            data[at % len(data)] ^= 1 << chance.randrange(8)
        elif kind == 1:
            del data[at : at + length]
        elif kind == 2:
            data[at:at] = data[at : at + length] * chance.randint(1, 5)
        elif kind == 3:
            lines = bytes(data).split(b"\n")
            chance.shuffle(lines)
            data = bytearray(b"\n".join(lines))
        elif kind == 4:
            data[at:at] = chance.randbytes(length)
        else:
            data[at:at] = chance.choice(
                [b'"', b",,,,", b"\r", b"\x00", b"1e999", b"99999999999999999999", b"-", b"\n" * 9]
            )
    return bytes(data)
