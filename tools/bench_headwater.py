#!/usr/bin/python3
"""The work of `calc headwater --batch` done with numpy and scipy, for comparison in one run.

    bench_headwater.py FILE PROGRAM INLET_RATE WHOLE_RATE

FILE has the columns of tools/bench.c, PROGRAM is culvertwright, the rates are its rows per second.  Inlet
control of all rows goes through numpy at once; the whole headwater, with the water surface in the barrel, is
integrated by solve_ivp for the first rows one after the other.  Laws and coefficients are those of the rows in
data/.  The answers are held against those of the program, so that both are known to do the same work.
"""
import csv
import io
import subprocess
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

G, C, SAMPLE, IN_PER_FT, NEAR = 32.2, 1.486, 300, 12.0, 1e-3


def constants():
    rows = {}
    for name in ("data/hydraulics.csv", "data/inlets.csv"):
        with open(name, newline="") as table:
            rows.update((row["id"], row["value"]) for row in csv.DictReader(table))
    return rows


ROWS = constants()
K, M, CC, Y = (float(ROWS["inlet.wings-90-15." + name]) for name in "kmcy")
WITH_CRITICAL = float(ROWS["inlet.wings-90-15.form"]) == 1.0
LOSS = float(ROWS["entrance.headwall-square.loss"])
N = float(ROWS["roughness.box"])


def inlet_head(q, s, b, d):
    """HDS-5, app. A; between r = 3.5 and 4 one rising cubic (Fritsch and Carlson)."""
    r = q / (b * d * np.sqrt(d))

    def critical(at):
        return 1.5 * np.cbrt(at * at / G)

    def low(at):
        return K * at**M + ((critical(at) - 0.5 * s) if WITH_CRITICAL else 0.0)

    def high(at):
        return CC * at * at + Y - 0.5 * s

    y0, y1 = low(3.5), high(4.0)
    most = 3.0 * (y1 - y0) / 0.5
    rate = K * M * 3.5 ** (M - 1.0) + (2.0 / 3.0 * critical(3.5) / 3.5 if WITH_CRITICAL else 0.0)
    m0, m1 = 0.5 * np.minimum(rate, most), 0.5 * np.minimum(8.0 * CC, most)
    t = np.clip((r - 3.5) / 0.5, 0.0, 1.0)
    u = 1.0 - t
    cubic = y0 * u * u * (1 + 2 * t) + y1 * t * t * (3 - 2 * t) + t * u * (m0 * u - m1 * t)
    ratio = np.where(r <= 3.5, low(r), np.where(r < 4.0, cubic, high(r)))
    return d * np.maximum(ratio, critical(r))


def friction(q, b, y, lid=0.0):
    rough = (2 * y + b * (1 + lid)) * N**1.5
    return (q / (C * b * y)) ** 2 * (rough / (b * y)) ** (4 / 3)


def whole_head(q, s, length, tail, b, d):
    """Headwater; both branches are followed as the program does, the place of a jump is not looked for."""
    yc = ((q / b) ** 2 / G) ** (1 / 3)
    yn = brentq(lambda y: friction(q, b, y) - s, 1e-4, 1e5, xtol=1e-12) if s > 0 else np.inf
    steep = yn < min(yc, d)
    start = max(tail, min(yc, d))
    y, gone, full = start, 0.0, friction(q, b, d, 1.0) - s
    if y >= d:
        reach = min((y - d) / -full, length) if full < 0 else length
        y, gone = max(y + full * reach, d), reach

    def rate(_, depth):
        # Upstream, and never nearer than NEAR to critical depth, where the surface stands upright.
        y = max(float(depth[0]), yc * (1 + NEAR))
        return [-(s - friction(q, b, y)) / (1 - (yc / y) ** 3)]

    def march(depth, distance, ends):
        def past(_, at):
            return (at[0] - ends[0]) * (at[0] - ends[1])

        past.terminal = True
        return solve_ivp(rate, (0, distance), [depth], events=past, rtol=1e-6, atol=1e-8)

    least = min(np.cbrt(1 + LOSS) * yc, d)
    reached = True
    if gone < length and not (steep and y <= yc):
        got = march(max(y, yc * (1 + 2 * NEAR)), length - gone, (yc * (1 + NEAR) if steep else 0.0, d * (1 + 1e-9)))
        y, gone = got.y[0, -1], gone + got.t[-1]
        if gone < length and y >= d:
            y, gone = d + full * (length - gone), length
        reached = gone >= length
    elif gone < length:
        reached = False
    inlet = float(inlet_head(q, s, b, d))
    if reached:
        y = max(y, least)
        return max(inlet, y + (1 + LOSS) * (q / (b * min(y, d))) ** 2 / (2 * G))

    def falling(_, at):
        y = min(max(float(at[0]), 0.5 * yn), yc * (1 - NEAR))
        return [(s - friction(q, b, y)) / (1 - (yc / y) ** 3)]

    solve_ivp(falling, (0, length), [min(yc * (1 - NEAR), d)], rtol=1e-6, atol=1e-8)
    return inlet


def main():
    path, program, inlet_rate, whole_rate = sys.argv[1], sys.argv[2], float(sys.argv[3]), float(sys.argv[4])
    begin = time.perf_counter()
    q, s, length, tail, b, d = np.loadtxt(path, delimiter=",", skiprows=1).T
    read = time.perf_counter()
    heads = inlet_head(q, s, b / IN_PER_FT, d / IN_PER_FT)
    done = time.perf_counter()
    np.savetxt("/dev/null", heads, fmt="%.10g")
    written = time.perf_counter()
    count = len(q)
    print("  numpy, inlet control of %d rows: computed in %.3f s (%.0f rows/s); read, computed and one column"
          " written in %.2f s (%.0f rows/s): the program is %.1f times as fast"
          % (count, done - read, count / (done - read), written - begin, count / (written - begin),
             inlet_rate * (written - begin) / count))

    rows = list(zip(q, s, length, tail, b / IN_PER_FT, d / IN_PER_FT))[:SAMPLE]
    rows = [tuple(map(float, row)) for row in rows]
    begin = time.perf_counter()
    mine = [whole_head(*row) for row in rows]
    rate = SAMPLE / (time.perf_counter() - begin)
    with open(path, encoding="ascii") as lines:
        head = "".join(next(lines) for _ in range(SAMPLE + 1))
    out = subprocess.run([program, "calc", "headwater", "--batch", "-"], input=head, capture_output=True, text=True)
    theirs = [float(row["headwater_ft"]) for row in csv.DictReader(io.StringIO(out.stdout))]
    same = sum(abs(a - c) <= 1e-3 * c for a, c in zip(mine, theirs))
    inlets = [float(row["inlet_headwater_ft"]) for row in csv.DictReader(io.StringIO(out.stdout))]
    law = float(np.max(np.abs(heads[:SAMPLE] / inlets - 1)))
    print("  scipy, whole headwater of %d rows: %.0f rows/s: the program is %.0f times as fast" % (SAMPLE, rate, whole_rate / rate))
    print("  answers: inlet law differs by %.1e at most; %d of %d headwaters within 0.1 %% (the others are led over,"
          " see src/hydraulics/head.c)" % (law, same, SAMPLE))


main()
