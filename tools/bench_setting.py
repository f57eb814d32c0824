#!/usr/bin/python3
"""The setting simulation of tools/bench_setting.c done with simpy, for comparison in one run.

    bench_setting.py MODEL MICROSECONDS MEAN_DAYS

MODEL is what the bench wrote: laws, crews, trucks, days, steps and who follows whom.  MICROSECONDS and MEAN_DAYS are the
program's time for a run and its mean finish.  Each step is a process that waits for what comes before it and for its
truck, takes its crews in a fixed order by its rank, and works through the open days.  The means must agree, so that both are
known to do the same work.
"""
import math
import random
import sys
import time

from SimPy.Simulation import PriorityQ, Process, Resource, SimEvent, Simulation, hold, release, request, waitevent

RUNS = 12
DAY = 1440
FIXED, TRIANGULAR, BETA = 0, 1, 2
RAIN, DRYING, WIND, COLD = 1, 2, 4, 8


class Model:
    def __init__(self, path):
        with open(path, encoding="ascii") as file:
            rows = [line.split() for line in file]
        (self.steps, laws, crews, self.loads, self.trucks, self.days) = map(int, rows[0])
        self.load_law, self.out_law, self.back_law = map(int, rows[1][:3])
        (self.rain, self.wind, self.cold, self.persistence, self.day_var, self.job_var, self.ratio) = map(float, rows[1][3:])
        self.least = float(rows[2][0])
        at = 3
        self.crew_size = [int(row[0]) for row in rows[at:at + crews]]
        at += crews
        self.laws = [(int(row[0]), *map(float, row[1:])) for row in rows[at:at + laws]]
        at += laws
        self.gate = [int(row[0]) for row in rows[at:at + self.loads]]
        at += self.loads
        self.window = [tuple(map(int, row)) for row in rows[at:at + self.days]]
        at += self.days
        self.step = [list(map(int, row)) for row in rows[at:at + self.steps]]
        self.needs = [[] for _ in range(self.steps)]
        for i, step in enumerate(self.step):
            for follower in step[8:]:
                self.needs[follower].append(i)
        self.off = [[] for _ in range(self.loads)]
        for i, step in enumerate(self.step):
            if step[6] >= 0:
                self.off[step[6]].append(i)


class Flag:
    """Something that happens once and then stays so."""

    def __init__(self, sim):
        self.up, self.event = False, SimEvent(sim=sim)

    def set(self):
        self.up = True
        self.event.signal()


class Run(Simulation):
    def __init__(self, model, seed):
        Simulation.__init__(self)
        self.initialize()
        self.m, self.rng = model, random.Random(seed)
        self.crews = [Resource(capacity=size, qType=PriorityQ, sim=self) for size in model.crew_size]
        self.truck = Resource(capacity=model.trucks, sim=self)
        self.done = [Flag(self) for _ in range(model.steps)]
        self.arrived = [Flag(self) for _ in range(model.loads)]
        self.weather, self.day_factor, self.learned, self.last = [], {}, 0, 0.0
        self.job_factor = self.factor(model.job_var)
        for i in sorted(range(model.steps), key=lambda k: model.step[k][7]):
            step = Step(sim=self)
            self.activate(step, step.go(i))
        dispatch = Dispatch(sim=self)
        self.activate(dispatch, dispatch.go())

    def factor(self, variation):
        sd = math.sqrt(math.log(1 + variation * variation))
        return math.exp(self.rng.gauss(0, sd) - sd * sd / 2)

    def draw(self, law):
        if law < 0:
            return 0.0
        kind, low, likely, high = self.m.laws[law]
        if kind == FIXED:
            return likely
        if kind == TRIANGULAR:
            return self.rng.triangular(low, high, likely)
        a = 1 + 4 * (likely - low) / (high - low)
        return low + (high - low) * self.rng.betavariate(a, 6 - a)

    def bad(self, day):
        m = self.m
        while len(self.weather) <= day:
            last, bits = (self.weather[-1] if self.weather else None), 0
            for bit, share in ((RAIN, m.rain), (WIND, m.wind), (COLD, m.cold)):
                chance = share
                if last is not None:
                    chance = share + m.persistence * (1 - share) if last & bit else share * (1 - m.persistence)
                if self.rng.random() < chance:
                    bits |= bit
            if last is not None and last & RAIN:
                bits |= DRYING
            self.weather.append(bits)
        return self.weather[day]

    def day_of(self, at, exposed):
        for day in range(max(0, int(at // DAY) - 1), self.m.days):
            start, work = self.m.window[day]
            if day * DAY + start + work > at and work > 0 and not (exposed and self.bad(day) & exposed):
                return day
        raise RuntimeError("too long")

    def finish(self, at, work, exposed, whole):
        begun, day = False, max(0, int(at // DAY) - 1)
        while True:
            start, length = self.m.window[day]
            begin = max(at, day * DAY + start)
            room = day * DAY + start + length - begin
            if room > 0 and not (exposed and self.bad(day) & exposed):
                if not (whole and not begun and room < work <= length):
                    begun = True
                    if work <= room:
                        return begin + work
                    work -= room
            day += 1

    def work_time(self, work, exposed):
        day = self.day_of(self.now(), exposed)
        if day not in self.day_factor:
            self.day_factor[day] = self.factor(self.m.day_var)
        return work * self.job_factor * self.day_factor[day]


class Step(Process):
    def go(self, i):
        run = self.sim
        law, crews, exposed, whole, learning, from_load, off_load, rank = run.m.step[i][:8]
        waits = [run.done[k] for k in run.m.needs[i]]
        if from_load >= 0:
            waits.append(run.arrived[from_load])
        for flag in waits:
            if not flag.up:
                yield waitevent, self, flag.event
        taken = [crew for c, crew in enumerate(run.crews) if crews >> c & 1]
        for crew in taken:
            yield request, self, crew, -rank
        work = run.draw(law)
        if learning >= 0:
            run.learned += 1
            work *= max(run.m.least, run.learned ** math.log2(run.m.ratio))
        if crews and work > 0:
            end = run.finish(run.now(), run.work_time(work, exposed), exposed, whole)
            yield hold, self, end - run.now()
        elif work > 0:
            yield hold, self, work
        for crew in taken:
            yield release, self, crew
        run.last = run.now()
        run.done[i].set()


class Dispatch(Process):
    def go(self):
        run = self.sim
        for load in range(run.m.loads):
            gate = run.done[run.m.gate[load]] if run.m.gate[load] >= 0 else None
            if gate and not gate.up:
                yield waitevent, self, gate.event
            # The truck takes its place in the queue of trucks and this waits until it is under way.
            under_way = Flag(run)
            haul = Haul(sim=run)
            run.activate(haul, haul.go(load, under_way))
            if not under_way.up:
                yield waitevent, self, under_way.event


class Haul(Process):
    def go(self, load, under_way):
        run = self.sim
        yield request, self, run.truck
        under_way.set()
        out = run.draw(run.m.load_law) + run.draw(run.m.out_law)
        yield hold, self, run.finish(run.now(), out, 0, False) - run.now()
        run.arrived[load].set()
        for k in run.m.off[load]:
            if not run.done[k].up:
                yield waitevent, self, run.done[k].event
        back = run.draw(run.m.back_law)
        yield hold, self, run.finish(run.now(), back, 0, False) - run.now()
        yield release, self, run.truck


def days_of(model, seed):
    run = Run(model, seed)
    run.simulate(until=model.days * DAY)
    if not all(flag.up for flag in run.done):
        raise RuntimeError("steps are left over")
    return run.last / DAY


def main():
    model, us, mean = Model(sys.argv[1]), float(sys.argv[2]), float(sys.argv[3])
    start = time.process_time()
    days = [days_of(model, seed) for seed in range(RUNS)]
    taken_us = (time.process_time() - start) / RUNS * 1e6
    got = sum(days) / RUNS
    sd = math.sqrt(sum((d - got) ** 2 for d in days) / (RUNS - 1))
    print(f"  simpy: {taken_us:.0f} us a run, {taken_us / us:.0f} times as long; mean of {RUNS} runs {got:.2f} days, here "
          f"{mean:.2f}")
    if abs(got - mean) > 4 * sd / math.sqrt(RUNS) + 0.03 * mean:
        print("  the two do not agree: they do not do the same work")
        return 1
    return 0


sys.exit(main())
