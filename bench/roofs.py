"""Both demo roofs and one with a second ring once more with numpy and scipy: the ring closed by a solver of its own, every pole cut into
short even pieces with lumped loads, bays measured by sampling, sections by counting squares; the beam under straight rafters as a grillage.
Reads `roofs.json` (measures and loads, no force of ours), writes `roofs.csv`: path of a row and what it is here. `engine/tests/holds.rs` holds our rows to it.

    cargo run -q -p engine --example roofs > bench/roofs.json && python3 bench/roofs.py
"""

import csv
import json
import os

import numpy as np
from scipy.optimize import fsolve

HERE = os.path.dirname(os.path.abspath(__file__))
GRAVITY = 9.80665
# C24, EN 338:2009: bending, tension, shear, E, G; EN 1995-1-1: kmod in service class 2, gamma M, kcr.
FM, FT, FV, E, G = 24e6, 14e6, 4e6, 11e9, 690e6
KMOD = {"permanent": 0.6, "medium": 0.8, "short": 0.9}
GAMMA, KCR = 1.3, 0.67
# DF-L No.2, NDS Supplement: bending and shear in psi; duration factors.
PSI = 6894.757293168
FB, FVA = 875 * PSI, 180 * PSI
CD = {"permanent": 0.9, "snow": 1.15, "live": 1.25, "wind": 1.6}
PATTERNS = {"all": [1, 1, 1, 1], "inside": [1, 1, 0, 0], "eaves": [0, 0, 1, 1], "first": [1, 0, 1, 0], "second": [0, 1, 0, 1]}


def combinations(loads, factors):
    """Every combination: weight factor, load on four zones, duration."""
    fixed, least, soil, imposed, placing, snow, down, up, up_eaves = loads
    # Where nothing is written dry, nothing surely holds the roof down.
    least = least or 0.0
    found = []
    for g, q, s, wd, wu, lasts in factors:
        if wu:
            for p in PATTERNS.values():
                lift = np.array([up, up, up_eaves, up_eaves]) * wu
                found.append((g, g * least + lift * p, lasts))
            continue
        passing = q * imposed + s * snow + wd * down
        for p in PATTERNS.values() if passing else [PATTERNS["all"]]:
            found.append((g, g * (fixed + soil) + passing * np.array(p), lasts))
        if q >= 1 and not s and not wd:
            for p in PATTERNS.values():
                p = np.array(p)
                found.append((g, g * (fixed + soil * p) + q * placing * p, lasts))
    return found


EN = [(1.35, 0, 0, 0, 0, "permanent"), (1.35, 1.5, 0, 0, 0, "short"), (1.35, 0, 1.5, 0.9, 0, "short"),
      (1.35, 0, 1.5, 0, 0, "medium"), (1.35, 0, 0.75, 1.5, 0, "short"), (1.0, 0, 0, 0, 1.5, "short")]
ASD = [(1, 0, 0, 0, 0, "permanent"), (1, 1, 0, 0, 0, "live"), (1, 0, 1, 0, 0, "snow"), (1, 0, 0, 0.6, 0, "wind"),
       (1, 0.75, 0, 0.45, 0, "wind"), (1, 0, 0.75, 0.45, 0, "wind"), (0.6, 0, 0, 0, 0.6, "wind")]


def counted(d, seat, hole, n=1500):
    """Area, least modulus upright, modulus sideways of a circle less a seat above and a hole upright through the middle."""
    step = d / n
    at = (np.arange(n) + 0.5) * step - d / 2
    x, y = np.meshgrid(at, at)
    inside = (x**2 + y**2 <= d**2 / 4) & (y <= d / 2 - seat) & (abs(x) >= hole / 2)
    area = inside.sum() * step**2
    middle = y[inside].mean()
    upright = ((y[inside] - middle) ** 2).sum() * step**2
    edge = max(d / 2 - seat - middle, d / 2 + middle)
    sideways = (x[inside] ** 2).sum() * step**2
    return area, upright / edge, sideways / (d / 2), upright, sideways


class Pole:
    def __init__(self, own, pitch):
        self.own = own
        way = np.array(own["toward"]) - np.array(own["support"][:2])
        self.flat = way / np.hypot(*way)
        self.pitch, self.reach = pitch, own["second"] / np.cos(pitch)
        self.way = np.array([*(self.flat * np.cos(pitch)), np.sin(pitch)])
        self.aside = np.array([*(-self.flat * np.sin(pitch)), np.cos(pitch)])
        self.bend = 4 * own["bow"] / own["length"] ** 2
        thick = self.thick(0.0)
        self.foot = np.array(own["support"]) + [0, 0, (thick / 2 - own["seat"]) / np.cos(pitch)]

    def thick(self, s):
        own = self.own
        return own["butt"] + (own["tip"] - own["butt"]) / own["length"] * (s + own["overhang"])

    def at(self, s):
        return self.foot + self.way * s + self.aside * self.bend * s * (self.reach - s)


def plan_crossing(one, other):
    """How far along the line of each the two lines meet in plan."""
    a, b = np.array(one["support"][:2]), np.array(other["support"][:2])
    u, v = np.array(one["toward"]) - a, np.array(other["toward"]) - b
    u, v = u / np.hypot(*u), v / np.hypot(*v)
    return np.linalg.solve(np.array([u, -v]).T, b - a)


def nearest(upper, lower):
    gap = lambda s: upper.at(s[0]) - lower.at(s[1])
    slope = lambda pole, s: (pole.at(s + 1e-5) - pole.at(s - 1e-5)) / 2e-5
    right = lambda s: [gap(s) @ slope(upper, s[0]), gap(s) @ slope(lower, s[1])]
    s = fsolve(right, [upper.reach, lower.own["first"] / np.cos(lower.pitch)], xtol=1e-12)
    return s, gap(s)


def close(places):
    n = len(places)
    for i, own in enumerate(places):
        own["second"], places[(i + 1) % n]["first"] = plan_crossing(own, places[(i + 1) % n])
    def slack(pitches):
        poles = [Pole(own, pitch) for own, pitch in zip(places, pitches)]
        out = []
        for i, pole in enumerate(poles):
            below = poles[(i + 1) % n]
            s, gap = nearest(pole, below)
            touching = (pole.thick(s[0]) + below.thick(s[1])) / 2 - pole.own["notch"]
            out.append(np.copysign(np.linalg.norm(gap), gap[2]) - touching)
        return out
    pitches = fsolve(slack, np.full(n, 0.3), xtol=1e-12)
    poles = [Pole(own, pitch) for own, pitch in zip(places, pitches)]
    for i, pole in enumerate(poles):
        s, _ = nearest(pole, poles[(i + 1) % n])
        pole.rest, poles[(i + 1) % n].carry = s
    return poles


def lean_on(poles, second):
    """The rafters of a second ring: each pitched until it touches the pole that its bay's other pole rests on."""
    found, n = [], len(poles)
    for i in range(n):
        lower = poles[(i + 1) % n]
        under = lower.at(second["at"] * lower.own["first"] / np.cos(lower.pitch))
        own = {**second, "support": second["supports"][i], "toward": under[:2], "bow": 0.0, "second": 1.0,
               "butt": second["diameter"], "tip": second["diameter"], "length": 1.0,
               "overhang": (1 - second["across"]) * poles[i].own["overhang"] + second["across"] * lower.own["overhang"]}
        def met(pitch):
            rafter = Pole(own, pitch)
            slope = lambda s: (lower.at(s + 1e-5) - lower.at(s - 1e-5)) / 2e-5
            gap = lambda s: rafter.at(s[0]) - lower.at(s[1])
            start = [np.linalg.norm(under - rafter.foot), second["at"] * lower.own["first"] / np.cos(lower.pitch)]
            s = fsolve(lambda s: [gap(s) @ rafter.way, gap(s) @ slope(s[1])], start, xtol=1e-13)
            return rafter, s, gap(s)
        def slack(pitch):
            _, s, gap = met(pitch[0])
            return np.copysign(np.linalg.norm(gap), gap[2]) - (second["diameter"] + lower.thick(s[1])) / 2 + second["let_in"]
        pitch = fsolve(slack, [lower.pitch + 0.1], xtol=1e-13)[0]
        rafter, s, gap = met(pitch)
        rafter.span, rafter.along, rafter.on, rafter.normal = s[0], s[1], lower, gap / np.linalg.norm(gap)
        # Where the two cross in plan, top over top.
        a, b = rafter.at(0.0), lower.at(s[1])
        t = np.linalg.solve(np.array([rafter.way[:2], -lower.way[:2]]).T, b[:2] - a[:2])
        high = rafter.at(t[0])[2] + second["diameter"] / 2 / np.cos(pitch)
        low = (b + lower.way * t[1])[2] + lower.thick(s[1]) / 2 / np.cos(lower.pitch)
        rafter.above = high - low
        found.append(rafter)
    return found


def bays(poles, rafters=None, samples=400):
    """For each pole and zone: places along it from its seat and the area lumped there; what the rafters of a second ring take of it
    lies where they rest, as much as the plate leaves them."""
    n = len(poles)
    corner = np.array([pole.at(pole.reach)[:2] for pole in poles])
    centre = corner.mean(axis=0)
    t = (np.arange(samples) + 0.5) / samples
    loads = [[[] for _ in range(4)] for _ in poles]
    for i, pole in enumerate(poles):
        below = poles[(i + 1) % n]
        sides = {0: ((pole, 0, pole.reach), (below, 0, below.own["first"] / np.cos(below.pitch))),
                 2: ((pole, -pole.own["overhang"], 0), (below, -below.own["overhang"], 0))}
        for zone, (one, other) in sides.items():
            for mine, theirs in ((one, other), (other, one)):
                line = lambda side: np.array([side[0].at(side[1])[:2], side[0].at(side[2])[:2]])
                a, b = line(mine), line(theirs)
                v = (np.arange(200) + 0.5) / 400
                pa, pb = a[0] + np.outer(t, a[1] - a[0]), b[0] + np.outer(t, b[1] - b[0])
                along = (1 - v)[:, None] * (a[1] - a[0]) + v[:, None] * (b[1] - b[0])
                across = pb - pa
                turned = along[None, :, 0] * across[:, None, 1] - along[None, :, 1] * across[:, None, 0]
                cells = abs(turned) * 0.5 / samples / len(v)
                area = cells.sum(axis=1)
                middle = ((pa + 0.25 * across) * area[:, None]).sum(axis=0) / area.sum() - centre
                z = zone + (0 if middle[0] > -1e-9 else 1)
                where = mine[1] + t * (mine[2] - mine[1])
                index = poles.index(mine[0])
                if rafters:
                    rafter, head = rafters[i], rafters[i].along / other[2] if zone == 0 else np.inf
                    at = rafter.own["across"] + (1 - rafter.own["across"]) * (t / head if zone == 0 else 0 * t)
                    near = at / 2 if mine is one else (1 - at) / 2
                    # Cells nearer to the rafter than to the pole.
                    taken = np.where((v[None, :] > near[:, None]) & (t < head)[:, None], cells, 0.0)
                    area = area - taken.sum(axis=1)
                    # What of each cell the head carries: its way in plan along the rafter, from where that lies on the plate.
                    cells_at = pa[:, None, :] + v[None, :, None] * across[:, None, :]
                    foot, top = rafter.at(0.0)[:2], rafter.at(rafter.span)[:2]
                    share = (cells_at - foot) @ (top - foot) / ((top - foot) @ (top - foot))
                    on = poles.index(rafter.on)
                    loads[on][z].append((np.array([rafter.along]), np.array([(taken * share).sum()])))
                    rafter.takes[z] += (taken * share).sum()
                loads[index][z].append((where, area))
    return loads


def stiffness(p, q, area, upright, sideways, twist):
    long = np.linalg.norm(q - p)
    x = (q - p) / long
    y = np.array([0, 0, 1.0]) - x[2] * x
    y /= np.linalg.norm(y)
    turn = np.array([x, y, np.cross(x, y)])
    k = np.zeros((12, 12))
    def put(rows, block):
        k[np.ix_(rows, rows)] += block
    bar = np.array([[1, -1], [-1, 1]])
    put([0, 6], E * area / long * bar)
    put([3, 9], G * twist / long * bar)
    for i, rows, sign in ((upright, [1, 5, 7, 11], 1), (sideways, [2, 4, 8, 10], -1)):
        l = long * sign
        put(rows, E * i / long**3 * np.array([[12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l],
                                             [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]]))
    r = np.kron(np.eye(4), turn)
    return k, r


def ring(data):
    poles = close(data["places"])
    n, hole = len(poles), data["bolt"]
    second = data.get("second")
    rafters = lean_on(poles, second) if second else []
    for rafter in rafters:
        rafter.takes = np.zeros(4)
    push, tie = data["stiff"]
    nodes, index, parts = [], [], []
    for i, pole in enumerate(poles):
        own, above = pole.own, poles[(i - 1) % n]
        below = poles[(i + 1) % n]
        butt, tip = -own["overhang"], own["length"] - own["overhang"]
        pole.cuts = []
        for at, other, s, depth in ((pole.carry, above, above.rest, above.own["notch"] / 2), (pole.rest, below, below.carry, own["notch"] / 2)):
            turn = np.linalg.norm(np.cross(pole.way, other.way))
            half = np.sqrt(depth * (other.thick(s) - depth)) / turn if depth > 0 else 0.0
            pole.cuts.append((at, half, depth, hole))
        for rafter in (rafter for rafter in rafters if rafter.on is pole):
            depth, turn = second["housing"], np.linalg.norm(np.cross(pole.way, rafter.way))
            half = np.sqrt(depth * (second["diameter"] - depth)) / turn
            pole.cuts.append((rafter.along, half, depth, second["hole"]))
        stops = {butt, 0.0, pole.carry, pole.rest, tip} | {rafter.along for rafter in rafters if rafter.on is pole}
        for at, half, *_ in pole.cuts:
            stops |= {at - half, at + half} if half else set()
        stops = sorted(s for s in stops if butt <= s <= tip)
        fine = [stops[0]]
        for a, b in zip(stops, stops[1:]):
            count = max(1, int(np.ceil((b - a) / 0.05)))
            fine += [a + (b - a) * (k + 1) / count for k in range(count)]
        pole.stops, pole.node = np.array(fine), len(nodes)
        nodes += [pole.at(s) for s in fine]
        for j, (a, b) in enumerate(zip(fine, fine[1:])):
            s = (a + b) / 2
            d = pole.thick(s)
            cut = next((depth for at, half, depth, _ in pole.cuts if abs(s - at) < half), 0.0)
            if cut:
                area, _, _, upright, sideways = counted(d, cut, 0.0, 400)
            else:
                area, upright = np.pi * d**2 / 4, np.pi * d**4 / 64
                sideways = upright
            parts.append((i, pole.node + j, area, upright, sideways, upright + sideways, np.pi * d**2 / 4 * (b - a)))
    nodes = np.array(nodes)
    size = 6 * len(nodes)
    whole, members = np.zeros((size, size)), []
    for i, node, area, upright, sideways, twist, _ in parts:
        k, r = stiffness(nodes[node], nodes[node + 1], area, upright, sideways, twist)
        dof = np.arange(6 * node, 6 * node + 12)
        whole[np.ix_(dof, dof)] += r.T @ k @ r
        members.append((dof, k @ r))
    links = []
    for i, pole in enumerate(poles):
        below = poles[(i + 1) % n]
        up = pole.node + int(np.argmin(abs(pole.stops - pole.rest)))
        low = below.node + int(np.argmin(abs(below.stops - below.carry)))
        normal = nodes[up] - nodes[low]
        apart = np.linalg.norm(normal)
        normal /= apart
        contact = nodes[low] + normal * (below.thick(below.carry) / 2 - pole.own["notch"] / 2)
        beside = np.cross(normal, pole.way)
        beside /= np.linalg.norm(beside)
        axes = np.array([normal, beside, np.cross(normal, beside)])
        rows = np.zeros((3, size))
        for node, sign in ((low, -1), (up, 1)):
            arm = contact - nodes[node]
            skew = np.array([[0, arm[2], -arm[1]], [-arm[2], 0, arm[0]], [arm[1], -arm[0], 0]])
            rows[:, 6 * node:6 * node + 3] += sign * axes
            rows[:, 6 * node + 3:6 * node + 6] += sign * axes @ skew
        spring = np.diag([push, tie, tie])
        whole += rows.T @ spring @ rows
        links.append(spring @ rows)
    cases = np.zeros((5, size))
    for i, node, *_, volume in parts:
        for end in (node, node + 1):
            cases[0, 6 * end + 2] -= data["density"] * GRAVITY * volume / 2
    for pole, zones in zip(poles, bays(poles, rafters)):
        for zone, pieces in enumerate(zones):
            for where, area in pieces:
                j = np.clip(np.searchsorted(pole.stops, where) - 1, 0, len(pole.stops) - 2)
                share = (where - pole.stops[j]) / (pole.stops[j + 1] - pole.stops[j])
                np.add.at(cases[zone + 1], 6 * (pole.node + j) + 2, -area * (1 - share))
                np.add.at(cases[zone + 1], 6 * (pole.node + j + 1) + 2, -area * share)
    for rafter in rafters:
        tail, span = rafter.own["overhang"], rafter.span
        reach = span + second["beyond"]
        rafter.weight = second["mass"] * GRAVITY * (reach**2 - tail**2) / 2 / span
        at = rafter.on.node + int(np.argmin(abs(rafter.on.stops - rafter.along)))
        cases[0, 6 * at + 2] -= rafter.weight
    factors = combinations(data["loads"], EN)
    weights = np.array([[g, *zones] for g, zones, _ in factors])
    lasts = np.array([KMOD[word] for *_, word in factors]) / GAMMA
    worst = {}
    for i, rafter in enumerate(rafters):
        press = weights @ np.array([rafter.weight, *rafter.takes])
        worst[f"roof.crossings.second-{i + 1}.push"] = float(press[(press / lasts).argmax()] * abs(rafter.normal[2]))
        worst[f"roof.secondary.{i + 1}.along"] = float(rafter.along + rafter.on.own["overhang"])
        worst[f"roof.secondary.{i + 1}.above"] = float(rafter.above)
    def keep(path, value):
        worst[path] = max(worst.get(path, 0.0), float(value))
    for held in (False, True):
        k, fixed = whole.copy(), []
        for pole in poles:
            foot = pole.node + int(np.argmin(abs(pole.stops)))
            fixed += [6 * foot + 2] + ([6 * foot, 6 * foot + 1] if held else [])
            across = np.array([-pole.flat[1], pole.flat[0], 0])
            k[np.ix_(range(6 * foot, 6 * foot + 3), range(6 * foot, 6 * foot + 3))] += 0 if held else 1e10 * np.outer(across, across)
            roll = 1e9 * np.outer(pole.way, pole.way)
            k[np.ix_(range(6 * foot + 3, 6 * foot + 6), range(6 * foot + 3, 6 * foot + 6))] += roll
        free = np.setdiff1d(np.arange(size), fixed)
        u = np.zeros((5, size))
        u[:, free] = np.linalg.solve(k[np.ix_(free, free)], cases[:, free].T).T
        reactions = (k @ u.T).T - cases
        for i, pole in enumerate(poles):
            foot = pole.node + int(np.argmin(abs(pole.stops)))
            keep(f"roof.feet.{i + 1}.up", (weights @ reactions[:, 6 * foot + 2]).max())
            force = -(links[i] @ u.T)
            keep(f"crossing.{i + 1}", ((weights @ force[0]) / lasts).max())
            best = ((weights @ force[0]) / lasts).argmax()
            if (weights @ force[0])[best] / lasts[best] >= worst[f"crossing.{i + 1}"] - 1e-9:
                worst[f"roof.crossings.{i + 1}.push"] = float((weights @ force[0])[best])
        nets = [[counted(pole.thick(at), depth, bored) for at, _, depth, bored in pole.cuts] for pole in poles]
        for (i, node, *_), (dof, kr) in zip(parts, members):
            pole = poles[i]
            ends = weights @ (kr @ u[:, dof].T).T
            for end in (0, 1):
                s = pole.stops[node - pole.node + end]
                cut = next((c for c, (at, half, *_) in enumerate(pole.cuts) if abs(s - at) <= half + 1e-9), None)
                own = ends[:, 6 * end:6 * end + 6]
                d = pole.thick(s)
                if cut is None:
                    moment, area = np.hypot(own[:, 4], own[:, 5]) / (np.pi * d**3 / 32), np.pi * d**2 / 4
                else:
                    area, up, side, *_ = nets[i][cut]
                    moment = abs(own[:, 5]) / up + abs(own[:, 4]) / side
                bent = moment / (FM * lasts)
                keep(f"roof.members.{i + 1}.bending", bent.max())
                keep(f"roof.members.{i + 1}.shear", (4 / 3 * np.hypot(own[:, 1], own[:, 2]) / area / (FV * KCR * lasts)).max())
                pull = own[:, 0] * (1 if end else -1)
                if (pull > 0).any():
                    keep(f"roof.members.{i + 1}.tension", (pull / area / (FT * lasts) + bent)[pull > 0].max())
    return {path: value for path, value in worst.items() if path.startswith("roof.")}


def straight(data):
    """The envelope of the rafters, and how much of it the most used of them uses as it lies."""
    own = data["straight"]
    worst = rafter(data, own["whole"])
    most = max(rafter(data, one)["roof.members.rafter.asd-bending"] for one in own["each"])
    worst["no less: roof.members.rafter.asd-bending"] = most
    return worst | plate(data)


def plate(data):
    """What each anchor of the beam under straight rafters holds down at most: the beam as a grillage between anchors alone."""
    own, whole = data["plate"], data["straight"]["whole"]
    c = np.cos(data["straight"]["pitch"])
    line = np.array(own["line"])
    sides = np.linalg.norm(np.roll(line, -1, axis=0) - line, axis=1)
    starts = np.concatenate([[0], np.cumsum(sides)])

    def along(at):
        """How far round the line the nearest place to a point is."""
        step = np.roll(line, -1, axis=0) - line
        share = np.clip(((at - line) * step).sum(axis=1) / (step**2).sum(axis=1), 0, 1)
        off = np.linalg.norm(line + share[:, None] * step - at, axis=1)
        side = off.argmin()
        return starts[side] + share[side] * sides[side]

    seats = [along(np.array(at)) for one in own["rafters"] for at in one["seats"]]
    anchors = [along(np.array(at)) for _, at in own["anchors"]]
    # Points of the line closer than this to another make members too short to be solved.
    own_marks = np.unique(np.round(seats + anchors, 6))
    marks = np.sort(np.concatenate([own_marks, [at for at in starts[:-1] if abs(own_marks - at).min() > 5e-3]]))
    node = lambda at: int(abs(marks - round(at, 6)).argmin())
    points = np.array([[np.interp(mark, starts, np.append(line[:, axis], line[0, axis])) for axis in (0, 1)]
                       for mark in marks])
    b, plank = own["width"], own["height"] / own["layers"]
    bend = own["young"] * own["layers"] * b * plank**3 / 12
    long, short = max(b, plank), min(b, plank)
    odd = np.arange(1, 40, 2)
    turn = own["shear"] * own["layers"] * long * short**3 / 3 * (
        1 - 192 / np.pi**5 * short / long * (np.tanh(odd * np.pi * long / (2 * short)) / odd**5).sum())
    count = len(marks)
    k = np.zeros((3 * count, 3 * count))
    lengths = np.zeros(count)
    for i in range(count):
        j = (i + 1) % count
        step = points[j] - points[i]
        l = np.linalg.norm(step)
        lengths[[i, j]] += l / 2
        x, y = step / l
        # Sinks, turns about x and y of the plan: turned into the member's twist and bend.
        r = np.array([[1, 0, 0], [0, x, y], [0, -y, x]])
        e = bend / l**3
        one = np.zeros((6, 6))
        ends = [0, 2, 3, 5]
        one[np.ix_(ends, ends)] = e * np.array([[12, -6 * l, -12, -6 * l], [-6 * l, 4 * l * l, 6 * l, 2 * l * l],
                                               [-12, 6 * l, 12, 6 * l], [-6 * l, 2 * l * l, 6 * l, 4 * l * l]])
        one[np.ix_([1, 4], [1, 4])] = turn / l * np.array([[1, -1], [-1, 1]])
        r = np.kron(np.eye(2), r)
        at = [3 * i, 3 * i + 1, 3 * i + 2, 3 * j, 3 * j + 1, 3 * j + 2]
        k[np.ix_(at, at)] += r.T @ one @ r
    fast = [3 * node(at) for at in anchors]
    free = np.setdiff1d(np.arange(3 * count), fast)
    hung = own["density"] * GRAVITY * b * own["height"]
    worst = {}
    for g, loads, _ in combinations(data["loads"], ASD):
        up = []
        for one in own["rafters"]:
            x = np.linspace(0, one["length"], 4001)
            x = (x[1:] + x[:-1]) / 2
            d = whole["butt"] + (whole["tip"] - whole["butt"]) * x / one["length"]
            low, high = one["low"], one["low"] + one["span"]
            zone = np.where(x < low, 2, np.where(x > high, 3, np.where(x < (low + high) / 2, 0, 1)))
            w = g * np.pi * d**2 / 4 * data["density"] * GRAVITY + np.array(loads)[zone] * one["strip"] * c
            w *= one["length"] / 4000
            right = (w * (x - low)).sum() / one["span"]
            up += [right - w.sum(), -right]
        if max(up) <= 0:
            continue
        force = np.zeros(3 * count)
        force[::3] -= g * hung * lengths
        for at, lift in zip(seats, up):
            force[3 * node(at)] += max(lift, 0)
        moved = np.zeros(3 * count)
        moved[free] = np.linalg.solve(k[np.ix_(free, free)], force[free])
        holds = force - k @ moved
        for (name, _), at in zip(own["anchors"], anchors):
            path = f"roof.beam.anchors.{name}.pull"
            pull = holds[3 * node(at)]
            if pull > 0:
                worst[path] = max(worst.get(path, 0), pull)
    return {path: float(value) for path, value in worst.items()}


def rafter(data, one):
    own = data["straight"]
    span, pitch, length = one["span"], own["pitch"], one["length"]
    end = one.get("low", (length - span) / 2)
    c = np.cos(pitch)
    x = np.linspace(0, length, 40001)
    low, high = end, end + span
    middle = (low + high) / 2
    wide = own["spacing"] * c
    d = one["butt"] + (one["tip"] - one["butt"]) * x / length
    weight = d**2 / np.trapezoid(d**2, x) * one["mass"] * GRAVITY
    zone = np.where(x < low, 2, np.where(x > high, 3, np.where(x < middle, 0, 1)))
    worst = {}
    for g, loads, word in combinations(data["loads"], ASD):
        w = g * weight + np.array(loads)[zone] * wide
        step = x[1] - x[0]
        w = (w[1:] + w[:-1]) / 2 * step
        at = (x[1:] + x[:-1]) / 2
        total = w.sum()
        right = (w * (at - low)).sum() / span
        left = total - right
        shear = np.concatenate([[0], np.cumsum(w)])
        first = np.concatenate([[0], np.cumsum(w * at)])
        moment = (left * np.clip(x - low, 0, None) + right * np.clip(x - high, 0, None) - (shear * x - first)) * c
        whole = abs(moment) / (np.pi * d**3 / 32)
        for seat in (low, high):
            near = np.argmin(abs(x - seat))
            whole[near] = abs(moment[near]) / counted(d[near], own["seat"], 0.0)[1]
        share = whole.max() / (FB * CD[word])
        worst["roof.members.rafter.asd-bending"] = max(worst.get("roof.members.rafter.asd-bending", 0), share)
        for name, up in (("low", left), ("high", right)):
            key = f"roof.crossings.{name}-seat.up"
            if up / CD[word] > worst.get("used" + key, 0):
                worst["used" + key], worst[key] = up / CD[word], up
    return {path: float(value) for path, value in worst.items() if path.startswith("roof.")}


def main():
    with open(os.path.join(HERE, "roofs.json")) as file:
        data = json.load(file)
    with open(os.path.join(HERE, "roofs.csv"), "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["build", "path", "value"])
        rings = [(build, ring(data[build])) for build in ("tansy-bank", "second-ring")]
        for build, found in (*rings, ("burdock-rise", straight(data["burdock-rise"]))):
            for path in sorted(found):
                out.writerow([build, path, f"{found[path]:.6g}"])


main()
