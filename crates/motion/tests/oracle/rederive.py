"""Works out again, with SymPy, what `motion` finds: an outside check (needs `pip install sympy`).

    cargo run -q -p motion --example situations | python3 crates/motion/tests/oracle/rederive.py

Newton's second law for every body along its line and across it, Newton's third law and the kinematics of every
link that holds, and Coulomb's law of friction are written down here from the raw data alone. Of what `motion`
found only the case is taken: which links hold, what slides, and which way. The values that follow are compared
with those found, symbolically. Where all is numeric the case is judged as well: links pull or push only as they
can, loose ones come apart from nothing, reactions press, friction opposes sliding and stays within its limit.
Ends with status 1 if anything differs.
"""

import json
import sys
from collections import Counter

import sympy as sp

LETTERS = {name: sp.Symbol(name, positive=True) for name in ["m", "g", "k", "μ", "F"]}
WANTED = sp.Symbol("wanted", real=True)


def algebra(text):
    """Plain algebra, with the letters of the question as positive symbols."""
    return sp.sympify(text.replace("^", "**"), locals={**LETTERS, "wanted": WANTED}, rational=True)


def sine_cosine(angle):
    return algebra(angle["sin"]), algebra(angle["cos"])


def signed_motions(told, found):
    """Which way each body moves along its line: from the heading, through the links; else as found."""
    if told["heading"] is None:
        return list(found["senses"]), set()
    motions = {told["heading"]["body"]: told["heading"]["sense"]}
    grows = True
    while grows:
        grows = False
        for link in told["links"]:
            if len(link["ends"]) != 2:
                continue
            for one, other in (link["ends"], link["ends"][::-1]):
                if one["body"] in motions and other["body"] not in motions:
                    motions[other["body"]] = -motions[one["body"]] * one["sense"] * other["sense"]
                    grows = True
    return [motions.get(i, s) for i, s in enumerate(found["senses"])], set(motions)


class Rederived:
    """One situation: its unknowns, its equations, and what follows from them."""

    def __init__(self, told, found):
        self.told, self.found = told, found
        count = len(told["bodies"])
        self.motions, self.headed = signed_motions(told, found)
        self.a = [sp.Symbol(f"a{i}", real=True) for i in range(count)]
        self.t = [sp.Symbol(f"t{i}", real=True) for i in range(len(told["links"]))]
        self.r = [sp.Symbol(f"r{i}", real=True) for i in range(count)]
        self.f = [sp.Symbol(f"f{i}", real=True) for i in range(count)]
        self.mu = [None if b["mu"] is None else algebra(b["mu"]) for b in told["bodies"]]
        self.known = self.solve()

    def kinematics(self):
        """Accelerations told, links that hold, and bodies at rest."""
        for i, text in enumerate(self.told["accelerations"]):
            if text is not None:
                yield self.a[i] - algebra(text)
        for link, state in zip(self.told["links"], self.found["links"]):
            if state == "holds":
                yield self.closing(link)
        for i, grip in enumerate(self.found["frictions"]):
            if grip in ("rests", "about to slip") or not self.found["moves"]:
                yield self.a[i]

    def closing(self, link):
        """How fast the ends of a link come nearer, as an acceleration."""
        return sum(e["sense"] * e["times"] * self.a[e["body"]] for e in link["ends"])

    def across(self, i):
        """Across the line nothing moves: what presses on the surface is the reaction."""
        body = self.told["bodies"][i]
        if body["line"] == "vertical":
            return self.r[i]
        weight = algebra(body["mass"]) * algebra(self.told["g"])
        presses = weight if body["line"] == "level" else weight * sine_cosine(body["angle"])[1]
        for action in self.told["actions"]:
            if action["on"] == i and action["way"] in ("lifts", "presses"):
                share = algebra(action["size"]) * sine_cosine(action["angle"])[0]
                presses += share if action["way"] == "presses" else -share
        return self.r[i] - presses

    def friction(self, i):
        """Coulomb's law for what slides or is about to; none on smooth ground; at rest as much as it takes."""
        grip = self.found["frictions"][i]
        if self.mu[i] is None or grip == "none":
            return self.f[i]
        if grip == "rests":
            return None
        return self.f[i] + self.motions[i] * self.mu[i] * self.r[i]

    def along(self, i):
        """The resultant along the line less mass times acceleration."""
        body = self.told["bodies"][i]
        mass = algebra(body["mass"])
        weight = mass * algebra(self.told["g"])
        total = self.f[i] - mass * self.a[i]
        if body["line"] == "vertical":
            total -= weight
        elif body["line"] == "slope":
            total -= weight * sine_cosine(body["angle"])[0]
        for action in self.told["actions"]:
            if action["on"] != i:
                continue
            size = algebra(action["size"])
            if action["way"] == "opposing":
                total -= self.motions[i] * size
            elif action["way"] == "along":
                total += action["sense"] * size
            else:
                total += action["sense"] * size * sine_cosine(action["angle"])[1]
        for link, tension in zip(self.told["links"], self.t):
            total += sum(e["sense"] * e["times"] * tension for e in link["ends"] if e["body"] == i)
        return total

    def solve(self):
        """Step by step, so that each step is linear: accelerations that are told or tied, reactions, the rest."""
        known = linear(list(self.kinematics()), self.a, {})
        bodies = range(len(self.a))
        known = linear([self.across(i) for i in bodies], self.r, known)
        laws = [self.friction(i) for i in bodies]
        known = linear([law for law in laws if law is not None], self.f, known)
        rest = [self.along(i) for i in bodies]
        rest += [t for t, state in zip(self.t, self.found["links"]) if state == "loose"]
        unknowns = self.t + self.f + self.r + self.a + ([WANTED] if self.wants() else [])
        return linear(rest, unknowns, known)

    def wants(self):
        return "wanted" in json.dumps(self.told)

    def value(self, symbol):
        """Its value in numbers and letters; None where the equations leave it open."""
        value = sp.sympify(self.known.get(symbol, symbol))
        open_ones = value.free_symbols - set(LETTERS.values())
        if open_ones:
            value = sp.simplify(value)
            open_ones = value.free_symbols - set(LETTERS.values())
        return None if open_ones else value

    def values(self):
        """All that can be compared, by the names that the found values have."""
        wanted = WANTED if self.wants() else None
        return {"acceleration": self.a, "tension": self.t, "reaction": self.r, "friction": self.f, "wanted": [wanted]}

    def judge(self):
        """What is wrong with the case, where all is numeric; and how many conditions were asked."""
        wrong, asked = [], 0

        def holds(what, expression, strict=False):
            nonlocal asked
            value = expression.subs(self.known) if hasattr(expression, "subs") else sp.sympify(expression)
            if value.free_symbols:
                return
            asked += 1
            value = sp.simplify(value)
            if not (value > 0 if strict else value >= 0):
                wrong.append(f"{what}: {value}")

        for i, (link, state) in enumerate(zip(self.told["links"], self.found["links"])):
            if link["holds"] != "either":
                if state == "holds":
                    holds(f"link {i} would have to push, or to pull", self.t[i])
                else:
                    holds(f"link {i} is said to be loose", self.closing(link))
            elif state != "holds":
                wrong.append(f"rod {i} is said to be loose")
        for i, grip in enumerate(self.found["frictions"]):
            if self.told["bodies"][i]["line"] != "vertical":
                holds(f"body {i} leaves its surface", self.r[i])
            if grip == "slides":
                if i in self.headed:
                    holds(f"body {i} is headed the other way", self.motions[i] * self.found["senses"][i])
                else:
                    holds(f"body {i} starts the other way", self.motions[i] * self.a[i])
                holds(f"friction on body {i} drives it", -self.motions[i] * self.f[i])
            elif grip == "rests":
                limit = self.mu[i] * self.r[i]
                holds(f"friction on body {i} is beyond its limit", limit - self.f[i])
                holds(f"friction on body {i} is beyond its limit", limit + self.f[i])
        if self.wants():
            holds("what is wanted is negative", WANTED)
        return wrong, asked


def linear(equations, unknowns, known):
    """Adds to what is known what these equations, linear in these unknowns, fix of them."""
    equations = [sp.expand(e.subs(known)) for e in map(sp.sympify, equations)]
    equations = [e for e in equations if sp.simplify(e) != 0]
    unknowns = [u for u in unknowns if u not in known]
    if not equations:
        return known
    solutions = sp.solve(equations, unknowns, dict=True, simplify=True)
    if len(solutions) != 1:
        raise ValueError(f"{len(solutions)} solutions of {equations}")
    fresh = solutions[0]
    merged = {s: sp.sympify(v).subs(fresh) for s, v in known.items()}
    merged.update(fresh)
    return merged


def compare(line, counts):
    """Everything that differs in one situation, in words."""
    told, found = line["told"], line["found"]
    try:
        own = Rederived(told, found)
    except ValueError as why:
        return [str(why)]
    wrong = []
    for kind, symbols in own.values().items():
        for i, symbol in enumerate(symbols):
            said = found["values"][kind][i]
            if symbol is None or (said is None and kind in ("reaction", "friction") and own.value(symbol) == 0):
                continue  # there is no such force
            value = own.value(symbol)
            if value is None and said is None:
                counts["left open by both"] += 1
            elif value is None or said is None:
                wrong.append(f"{kind} {i}: found {said}, rederived {value}")
            elif sp.simplify(value - algebra(said)) != 0:
                wrong.append(f"{kind} {i}: found {said}, rederived {value}")
            else:
                counts[kind] += 1
    if not told["letters"]:
        case, asked = own.judge()
        counts["condition"] += asked
        wrong += case
    return wrong


def main():
    counts, sorts, differ = Counter(), Counter(), 0
    for text in sys.stdin:
        line = json.loads(text)
        sorts[line["name"].rsplit(" ", 1)[0]] += 1
        wrong = compare(line, counts)
        differ += bool(wrong)
        for what in wrong:
            print(f"{line['name']}: {what}")
    print(f"{sum(sorts.values())} situations: " + ", ".join(f"{n} {sort}" for sort, n in sorts.items()))
    print("equal: " + ", ".join(f"{n} {kind}" for kind, n in sorted(counts.items())))
    print(f"{differ} situations differ")
    return 1 if differ or not sorts else 0


if __name__ == "__main__":
    sys.exit(main())
