#!/usr/bin/env python3
"""Water surface in a box barrel by adaptive quadrature, independent of the program.

Each argument is one case: "B D L S n nb Q TW" (ft, cfs; nb is the roughness of the floor; TW the depth
or pressure head at the outlet).  One line of answer for each:

    slow HEAD    the curve from the outlet reaches the inlet with this depth or pressure head
    fast DEPTH   no curve from the outlet stays inside: depth at the outlet of the fast branch
    jump X       distance of the jump from the inlet
"""
import sys
import warnings

from scipy.integrate import quad
from scipy.optimize import brentq

G, C = 32.2, 1.486


class Barrel:
    def __init__(self, text):
        self.b, self.d, self.length, self.s, self.n, self.nb, self.q, self.tw = map(float, text.split())
        self.yc = ((self.q / self.b) ** 2 / G) ** (1 / 3)
        self.sf_full = self.friction(self.d, lid=True)
        self.yn = None
        if self.s > 0:
            self.yn = brentq(lambda y: self.friction(y) - self.s, 1e-4, 1e5, xtol=1e-13)
        self.steep = self.yn is not None and self.yn < min(self.yc, self.d)

    def friction(self, y, lid=False):
        area, wet = self.b * y, 2 * y + self.b * (2 if lid else 1)
        rough = 2 * y * self.n**1.5 + self.b * self.nb**1.5 + (self.b * self.n**1.5 if lid else 0)
        n = (rough / wet) ** (2 / 3)
        return (self.q * n / (C * area * (area / wet) ** (2 / 3))) ** 2

    def rate(self, y):
        """dx/dy, x downstream."""
        return (1 - (self.yc / y) ** 3) / (self.s - self.friction(y))

    def run(self, y0, y1):
        return abs(quad(self.rate, y0, y1, epsabs=1e-9, epsrel=1e-9, limit=200)[0])

    def from_to(self, y0, end, pole, length):
        """Depth after a length, going from y0 toward end, and the length used when end comes first."""
        last = end + (y0 - end) * 1e-7 if pole else end
        whole = self.run(y0, last)
        if whole > length:
            return brentq(lambda y: self.run(y0, y) - length, *sorted((y0, last)), xtol=1e-11), length
        return (end, length) if pole else (None, whole)

    def slow(self, length):
        """Head at a distance from the outlet, or None where the branch has ended."""
        head = max(self.tw, min(self.yc, self.d))
        gone = 0.0
        if head >= self.d:
            rise = self.sf_full - self.s
            if rise >= 0 or head + rise * length >= self.d:
                return head + rise * length
            gone, head = (head - self.d) / -rise, self.d
            if self.steep and self.yc >= self.d:
                return None
        if self.friction(head) > self.s:
            pole = self.yn is not None and self.yn <= self.d
            y, used = self.from_to(head, self.yn if pole else self.d, pole, length - gone)
            return y if y is not None else self.d + (self.sf_full - self.s) * (length - gone - used)
        if not self.steep:
            return self.from_to(head, self.yn, True, length - gone)[0]
        if head <= self.yc:
            return None
        return self.from_to(head, self.yc, False, length - gone)[0]

    def fast(self, x):
        start = min(self.yc, self.d)
        return self.from_to(start, self.yn, True, x)[0] if x > 0 else start

    def momentum(self, head):
        y = min(head, self.d)
        return (self.q / self.b) ** 2 / (G * y) + y * y / 2 + y * (head - y)

    def answer(self):
        head = self.slow(self.length)
        if head is not None:
            return "slow %.9f" % head
        start = max(self.tw, min(self.yc, self.d))
        out = self.fast(self.length)
        if start <= self.yc or self.momentum(start) <= self.momentum(out):
            return "fast %.9f" % out

        def miss(x):
            here = self.slow(self.length - x)
            low = self.momentum(min(self.yc, self.d) if here is None else here)
            return low - self.momentum(self.fast(x))

        return "jump %.9f" % brentq(miss, 1e-9, self.length, xtol=1e-7)


warnings.simplefilter("ignore")
for case in sys.argv[1:]:
    print(Barrel(case).answer())
