#!/usr/bin/env python3
"""The distribution of the cash profit of a job file, written a third time, with NumPy and pseudo-random numbers.

    reference_model.py JOB.toml [POINTS [SEED]]

Prints JSON: the seconds that the drawing took, on the wall and of the processor (reading and choosing left out), the chance of a loss, quantiles and means.
It is what the program's drawing is timed against and agrees with (tests/bench/appraisal.cpp, tests/appraisal/reference.cpp).
Only what the sample jobs need is in it: three points for the sound value, no offers, no outcomes seen.
"""
import json
import sys
import time
import tomllib

import numpy as np

SOURCES = ("new", "salvage", "reman")


def points(amount):
    return tuple(amount) if isinstance(amount, list) else (amount, amount, amount)


def mean(amount):
    low, likely, high = points(amount)
    return (low + 4 * likely + high) / 6


class Model:
    def __init__(self, job):
        self.job = job
        self.shop, self.sale = job["shop"], job["sale"]
        self.pace = mean(self.shop["pace"])
        self.holding = self.shop.get("holding_per_day", 0)
        self.kept = 1 - self.sale.get("rate", 0)
        self.corrections = {c["name"]: c for c in job.get("correction", [])}
        self.troubles = job.get("trouble", [])
        odds = np.array([c["odds"] for c in job["cause"]], dtype=float)
        self.chances = odds / odds.sum()
        paper = job["vehicle"].get("paper", "clean")
        self.keeps = job["value"].get("branded", 1) if paper in ("salvage", "rebuilt") else 1
        self.made = [self.best_fix(f) for f in job.get("fault", [])]

    # What is chosen, by means.
    def hour(self):
        return self.shop["hour"] + 7 * self.holding / self.shop["hours_per_week"]

    def best_fix(self, fault):
        best, most = None, None if fault.get("must") else 0
        for fix in fault.get("fix", []):
            gain = fix["restores"] * mean(fault["takes_off"]) * self.kept - mean(fix.get("cash", 0)) - mean(fix.get("hours", 0)) * self.pace * self.hour()
            if most is None or gain > most:
                best, most = fix, gain
        return best

    def source(self, part):
        if "use" in part:
            return part["use"]
        def cost(source):
            price = part["qty"] * mean(part[source])
            if source == "salvage":
                price += part["qty"] * part.get("bad", 0) * mean(part.get("new", part["salvage"])) + mean(part.get("pull_hours", 0)) * self.pace * self.shop["hour"]
            return price
        return min((s for s in SOURCES if s in part), key=cost)

    def operations(self, correction):
        if "operations" in correction:
            return [o["hours"] for o in correction["operations"]]
        hours = correction.get("hours", [])
        return hours if isinstance(hours, list) else [hours]

    def chain(self, cause):
        name = cause.get("correction")
        while name:
            yield self.corrections[name]
            name = self.corrections[name].get("otherwise")

    def expected(self, cause, present, course):
        opening = mean(self.job.get("opening_up", {}).get("hours", 0)) * self.pace
        hours, days, cash = 0.0, 0.0, 0.0
        found = mean(cause["found"]) - sum(mean(t.get("found_less", 0)) for t in present)
        if course == "put right":
            if "correction" not in cause or any(t.get("bars_road") for t in present):
                return None
            reached, off = 1.0, sum(mean(t.get("takes_off", 0)) for t in present)
            for fault, fix in zip(self.job.get("fault", []), self.made):
                off += mean(fault["takes_off"]) * (1 - fix["restores"] if fix else 1)
            for correction in self.chain(cause):
                off += mean(correction.get("takes_off", 0))
                for part in correction.get("parts", []):
                    source = self.source(part)
                    price = part["qty"] * mean(part[source])
                    if source == "salvage":
                        price += part["qty"] * part.get("bad", 0) * mean(part.get("new", part["salvage"]))
                        hours += reached * mean(part.get("pull_hours", 0)) * self.pace
                    cash -= reached * price
                cash -= reached * sum(c["qty"] * mean(c["price"]) for c in correction.get("consumables", []))
                cash -= reached * sum(mean(s["price"]) for s in correction.get("sublet", []))
                hours += reached * sum(mean(h) for h in self.operations(correction)) * self.pace
                works = correction.get("works", 1)
                cash += reached * works * self.kept * (mean(self.job["value"]["sound"]) * self.keeps - off)
                reached *= 1 - works
            cash += reached * self.kept * found
            cured = 1 - reached
            cash -= cured * (sum(mean(f.get("cash", 0)) for f in self.made if f) + sum(mean(t.get("cash", 0)) for t in present))
            hours += cured * (sum(mean(f.get("hours", 0)) for f in self.made if f) + sum(mean(t.get("hours", 0)) for t in present)) * self.pace
            days += cured * mean(self.shop.get("wait_days", 0))
        if course in ("put right", "sell as found"):
            cash -= mean(self.sale.get("costs", 0))
            days += mean(self.sale["days"])
        if course == "sell as found":
            cash += self.kept * found
        if course in ("part out", "scrap"):
            key = "part_out" if course == "part out" else "scrap"
            out = cause.get(key, self.job.get(key))
            if out is None:
                return None
            cash += mean(out.get("proceeds", out.get("value"))) - mean(out.get("costs", 0))
            hours += mean(out.get("hours", 0)) * self.pace
        days += (hours + opening) / self.shop["hours_per_week"] * 7
        return cash - days * self.holding - hours * self.shop["hour"]

    def best(self, cause, present):
        worth = {c: self.expected(cause, present, c) for c in ("put right", "sell as found", "part out", "scrap")}
        return max((c for c in worth if worth[c] is not None), key=lambda c: worth[c])

    # The drawing.
    def draw(self, amount, size):
        low, likely, high = points(amount)
        if low == high:
            return low
        return low + (high - low) * self.rng.beta(1 + 4 * (likely - low) / (high - low), 1 + 4 * (high - likely) / (high - low), size)

    def put_right(self, cause, present, n):
        cash, hours, off = np.zeros(n), np.zeros(n), np.zeros(n)
        going_on, cured = np.ones(n, dtype=bool), np.zeros(n, dtype=bool)
        for correction in self.chain(cause):
            at = np.flatnonzero(going_on)
            m = at.size
            if m == 0:
                break
            for h in self.operations(correction):
                hours[at] += self.draw(h, m)
            for part in correction.get("parts", []):
                source = self.source(part)
                cash[at] -= part["qty"] * self.draw(part[source], m)
                if source == "salvage":
                    hours[at] += self.draw(part.get("pull_hours", 0), m)
                    if part.get("bad", 0) > 0:
                        bad = self.rng.random(m) < part["bad"]
                        cash[at] -= bad * part["qty"] * self.draw(part.get("new", part["salvage"]), m)
            for consumable in correction.get("consumables", []):
                cash[at] -= consumable["qty"] * self.draw(consumable["price"], m)
            for sublet in correction.get("sublet", []):
                cash[at] -= self.draw(sublet["price"], m)
            off[at] += self.draw(correction.get("takes_off", 0), m)
            works = correction.get("works", 1)
            cures = at if works == 1 else at[self.rng.random(m) < works]
            cured[cures], going_on[cures] = True, False
        at, m = np.flatnonzero(cured), int(cured.sum())
        days = self.draw(self.sale["days"], n) + np.zeros(n)
        cash -= self.draw(self.sale.get("costs", 0), n)
        for trouble in present:
            cash[at] -= self.draw(trouble.get("cash", 0), m)
            hours[at] += self.draw(trouble.get("hours", 0), m)
            off[at] += self.draw(trouble.get("takes_off", 0), m)
        for fault, fix in zip(self.job.get("fault", []), self.made):
            left = 1 - fix["restores"] if fix else 1
            if left > 0:
                off[at] += left * self.draw(fault["takes_off"], m)
            if fix:
                cash[at] -= self.draw(fix.get("cash", 0), m)
                hours[at] += self.draw(fix.get("hours", 0), m)
        days[at] += self.draw(self.shop.get("wait_days", 0), m)
        cash[at] += self.kept * (self.keeps * self.draw(self.job["value"]["sound"], m) - off[at])
        if m < n:
            failed = np.flatnonzero(~cured)
            cash[failed] += self.kept * self.found(cause, present, failed.size)
        return cash, hours, days

    def found(self, cause, present, n):
        price = self.draw(cause["found"], n)
        for trouble in present:
            price = price - self.draw(trouble.get("found_less", 0), n)
        return price

    def in_state(self, cause, present, n):
        course = self.best(cause, present)
        if course == "put right":
            return self.put_right(cause, present, n)
        if course == "sell as found":
            return self.kept * self.found(cause, present, n) - self.draw(self.sale.get("costs", 0), n), np.zeros(n), self.draw(self.sale["days"], n)
        key = "part_out" if course == "part out" else "scrap"
        out = cause.get(key, self.job.get(key))
        return self.draw(out.get("proceeds", out.get("value")), n) - self.draw(out.get("costs", 0), n), self.draw(out.get("hours", 0), n), 0.0

    def run(self, n, seed):
        self.rng = np.random.default_rng(seed)
        causes = self.rng.choice(len(self.chances), size=n, p=self.chances)
        sets = np.zeros(n, dtype=int)
        for j, trouble in enumerate(self.troubles):
            sets |= (self.rng.random(n) < trouble["chance"]).astype(int) << j
        pace = self.draw(self.shop["pace"], n) + np.zeros(n)
        opening = self.job.get("opening_up", {})
        hours = self.draw(opening.get("hours", 0), n) + np.zeros(n)
        cash = -self.draw(opening.get("cash", 0), n) + np.zeros(n)
        days = np.zeros(n)
        for c, cause in enumerate(self.job["cause"]):
            for s in range(1 << len(self.troubles)):
                at = np.flatnonzero((causes == c) & (sets == s))
                if at.size == 0:
                    continue
                present = [t for j, t in enumerate(self.troubles) if s >> j & 1]
                more_cash, more_hours, more_days = self.in_state(cause, present, at.size)
                cash[at] += more_cash
                hours[at] += more_hours
                days[at] += more_days
        hours *= pace
        days += hours / self.shop["hours_per_week"] * 7
        cash -= days * self.holding
        deal = self.job["deal"]
        paid = deal["asking"] * (1 + deal.get("rate", 0)) + self.draw(deal.get("fees", 0), n)
        cash -= paid * (1 + self.shop.get("money_rate", 0) * days / 365)
        return cash, cash - hours * self.shop["hour"]


def main():
    with open(sys.argv[1], "rb") as file:
        model = Model(tomllib.load(file))
    n = int(sys.argv[2]) if len(sys.argv) > 2 else 65536
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    begun, begun_processor = time.perf_counter(), time.process_time()
    cash, profit = model.run(n, seed)
    seconds, processor = time.perf_counter() - begun, time.process_time() - begun_processor
    shares = [0.05, 0.25, 0.5, 0.75, 0.95]
    print(json.dumps({"seconds": seconds, "processor_seconds": processor, "loss_chance": float((cash < 0).mean()),
                      "cash_profit": [float(q) for q in np.quantile(cash, shares)],
                      "mean_cash_profit": float(cash.mean()), "mean_profit": float(profit.mean())}))


if __name__ == "__main__":
    main()
