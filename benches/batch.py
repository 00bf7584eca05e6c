"""The sums of a batch of float frames in plain Python with exact fractions, as a reference for `benchrule batch`.

    python3 benches/batch.py rows COUNT        a table of works, always the same
    python3 benches/batch.py works COUNT       works for the shipped styles
    python3 benches/batch.py make TABLE        its figures, one JSON object a row
    python3 benches/batch.py check TABLE JSON  whether `benchrule batch TABLE --json` said the same

Its formulas are those of the rules for the build float, written out a second time: some 128 of the 143 amounts of a
design. What it lacks are words, checks, and most of what functions of the program find: screws, brads, errors at the saw. A value is drawn exactly, and made on
the tape where that is another; both are compared. Values of woods are those of the shipped tables.
"""

import csv
import json
import math
import random
import sys
from fractions import Fraction as F

TAPE = F(1, 16)
# Pounds in a cubic inch, change across the grain for each percent of moisture, modulus of elasticity.
WOODS = {
    "poplar": (F("29.35") / 1728, F("0.00289"), F(1580000)),
    "cherry": (F("34.94") / 1728, F("0.00248"), F(1490000)),
    "red oak": (F("44.03") / 1728, F("0.00369"), F(1820000)),
}
SPRUCE = F("27.96") / 1728
# A pound is 0.45359237 kg, an inch 0.0254 m.
POUND, INCH = F("0.45359237"), F("0.0254")
CANVAS = F("0.998") / POUND * INCH * INCH
CORRUGATED = F(138) / POUND * INCH**3


def rows(count):
    chance = random.Random(5)
    pick = chance.choice
    yield ["name", "art", "quantity", "reveal", "face", "wood"]
    for number in range(count):
        sides = [mixed(F(chance.randint(4 * 16, 60 * 16), 16)) for _ in range(2)]
        sides.append(pick(["3/4", "7/8", "1 1/2"]))
        if number % 10 == 9:
            sides = [f"{chance.randint(least, most)}mm" for least, most in [(100, 1500), (100, 1500), (19, 40)]]
        art = " x ".join(sides)
        yield [f"work {number}", art, chance.randint(1, 3), pick(["1/4", "5/16", "3/8"]), pick(["3/4", "7/8", "1"]),
               pick(list(WOODS))]


def styled(count):
    """Works in the styles that ship."""
    styles = ["narrow-float", "deep-well", "slim-moulding"]
    yield ["name", "art", "style", "quantity"]
    for number, (name, art, quantity, *_) in enumerate(rows(count), -1):
        if number >= 0:
            yield [name, art, styles[number % len(styles)], quantity]


def mixed(value):
    whole, rest = divmod(value, 1)
    if rest == 0:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def length(text):
    if text.endswith("mm"):
        return F(text[:-2]) * F(5, 127)
    return sum(F(part) for part in text.split())


def up(value):
    return math.ceil(value / TAPE) * TAPE


def down(value):
    return math.floor(value / TAPE) * TAPE


def nearest(value):
    return math.floor(value / TAPE + F(1, 2)) * TAPE


def drawn(value):
    return value


def root(value):
    """The square root, exact where it is one."""
    value = F(value)
    over, under = math.isqrt(value.numerator), math.isqrt(value.denominator)
    if F(over, under) ** 2 == value:
        return F(over, under)
    return math.sqrt(value)


def moisture(temperature, humidity):
    """Wood Handbook FPL-GTR-190 Eq. 4-5."""
    def quadratic(a, b, c):
        return a + b * temperature + c * temperature * temperature
    w = quadratic(330, 0.452, 0.00415)
    k = quadratic(0.791, 0.000463, -0.000000844) * humidity
    k1 = quadratic(6.34, 0.000775, -0.0000935) * k
    k2 = quadratic(1.09, 0.0284, -0.0000904) * k * k1
    return 1800 / w * (k / (1 - k) + (k1 + 2 * k2) / (1 + k1 + k2)) / 100


def places(side):
    """Two and a half inches from each corner, no farther apart than a foot; one on a short side."""
    between = side - 5
    if side <= 8 or between <= 0:
        return [side / 2]
    steps = max(math.ceil(between / 12), 1)
    return [F(5, 2) + step * between / steps for step in range(steps + 1)]


def usual():
    """What nobody gives and every design has."""
    inches = {
        "art.bulk": 0, "art.bulk_back": 0, "setback": F(1, 8), "recess": F(1, 4), "strip.thickness": F(1, 2),
        "strip.bearing": F(1, 2), "screw.sink": 0, "screw.bite": F(3, 8), "screw.clear": F(1, 8),
        "screw.first": F(5, 2), "screw.pitch": 12, "brad.length": F(5, 4), "bar.width": F(3, 2), "hook.rise": F(1, 2),
        "wall.centre": 57, "packing": 2, "bend.limit": F(1, 16), "mill.section": F(1, 8), "mill.length": 2,
        "saw.rails": F(1, 64), "shop.saw": F(1, 64), "shop.planer": F(1, 128), "shop.kerf": F(1, 8),
        "shop.trim": F(1, 2), "shop.offcut": 12, "shop.edge": F(1, 8),
    }
    others = {
        "slope": 0, "brad.skew": 5, "saw.mitre": F(1, 10), "shop.angle": F(1, 10), "mitre": 45, "tilt": 0, "sides": 4,
        "mill.spare": 0, "blank.count": 4, "climate.before.temperature": 70, "climate.after.temperature": 75,
        "climate.before.humidity": F(7, 20), "climate.after.humidity": F(13, 20),
    }
    return {name: F(value) for name, value in (inches | others).items()}


SCREWS = [F(eighths, 8) for eighths in [2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 24]]


def hung(v, face, weight, stiff, near):
    """How it hangs: by a wire, two hooks or a cleat."""
    width, height = v["piece.width"], v["piece.height"]
    way = "cleat" if weight > 50 else "hooks" if height < width / 2 else "wire"
    if way == "cleat":
        v["hanger.drop"] = near(max(height / 4, F(1)))
        v["cleat.length"], v["cleat.load"] = width * 2 / 3, weight
        v["hook.height"] = near(57 + height / 2 - v["hanger.drop"] + F(1, 2))
        v["hook.cover"] = v["hanger.drop"] - F(1, 2)
        return
    v["hanger.span"] = span = near(width - 2 * face)
    v["hook.count"] = count = F(2 if way == "hooks" or width > 24 else 1)
    sag = F(0)
    if way == "wire":
        hooks = F(0)
        if count == 2:
            v["hook.span"] = hooks = near(span / 3)
        v["wire"] = wire = near(span * 21 / 20)
        v["wire.leg"] = leg = (wire - hooks) / 2
        v["wire.reach"] = reach = (span - hooks) / 2
        v["wire.sag"] = sag = root(leg * leg - reach * reach)
        v["wire.angle"] = angle = math.degrees(math.asin(sag / leg))
        v["wire.tension"] = v["hanger.load"] = tension = weight * leg / (2 * sag)
        v["wire.inward"] = inward = tension * math.cos(math.radians(angle))
        v["wire.breaking"] = 4 * tension
    else:
        v["hanger.load"] = weight / 2
    v["hanger.drop"] = drop = near(max(height / 4, sag + 1))
    if way == "wire":
        v["rail.pulled"] = inward * drop * drop * (height - drop) ** 2 / (3 * stiff * v["bend.inertia"] * height)
    v["hook.load"] = weight / count
    v["hook.height"] = near(57 + height / 2 - drop + sag + F(1, 2))
    v["hook.cover"] = drop - sag - F(1, 2)


def figures(work, made):
    """Every figure, drawn or made: `made` puts on the tape what is made."""
    saw, floor, near = (up, down, nearest) if made else (drawn, drawn, drawn)
    width, height, depth, reveal, face, wood = work
    density, moves, stiff = WOODS[wood]
    v = usual()
    v["shop.screws"] = SCREWS
    v["face"] = face
    v["reveal.top"] = v["reveal.right"] = v["reveal.bottom"] = v["reveal.left"] = reveal
    v["art.width"], v["art.height"], v["art.depth"] = width, height, depth
    v["art.bar"] = bar = min(F(3, 4), depth)
    v["reveal.widest"] = v["reveal.least"] = reveal
    v["opening.width"] = inner = saw(width + 2 * reveal)
    v["opening.height"] = tall = saw(height + 2 * reveal)
    v["opening.diagonal"] = root(inner * inner + tall * tall)
    v["gauge"] = gauge = near(F(1, 8) + depth)
    v["depth"] = deep = saw(gauge + F(1, 2) + F(1, 4))
    v["face.plan"] = v["mitre.run"] = face
    v["rail.top.short"] = v["rail.bottom.short"] = inner
    v["rail.left.short"] = v["rail.right.short"] = tall
    v["rail.top.long"] = v["rail.bottom.long"] = v["outside.width"] = v["piece.width"] = across = inner + 2 * face
    v["rail.left.long"] = v["rail.right.long"] = v["outside.height"] = v["piece.height"] = along = tall + 2 * face
    v["strip.width"] = strip = saw(reveal + F(1, 2))
    v["strip.reach"] = strip - reveal
    v["strip.top.long"] = top = floor(inner)
    v["strip.top.short"] = top_short = floor(top - 2 * strip)
    v["strip.side.long"] = side = floor(tall)
    v["strip.side.short"] = side_short = floor(side - 2 * strip)
    v["outside.diagonal"] = root(across * across + along * along)
    v["perimeter"] = 2 * (across + along)
    v["united"] = width + height
    v["screw.through"] = F(1, 2)
    v["screw.line"] = reveal + v["strip.reach"] / 2
    v["screw.top.at"] = [near(place) for place in places(width)]
    v["screw.side.at"] = [near(place) for place in places(height)]
    v["screw.count"] = F(2 * len(v["screw.top.at"]) + 2 * len(v["screw.side.at"]))
    v["glue.area"] = 4 * float(face * deep) / math.cos(math.radians(45))
    v["work.area"] = area = width * height
    v["bar.area"] = stretcher = area - max(width - 3, 0) * max(height - 3, 0)
    v["art.weight"] = art = CANVAS * area + SPRUCE * bar * stretcher
    v["rail.volume"] = volume = face * deep * (inner + across + tall + along)
    v["weight.rails"] = rails = density * volume
    v["weight.strip"] = strips = density * F(1, 2) * strip * (top + top_short + side + side_short)
    v["weight"] = v["pull"] = weight = rails + strips + art
    v["packed.width"], v["packed.height"], v["packed.depth"] = across + 4, along + 4, deep + 4
    sheet = 2 * ((across + 4) * (along + 4) + (across + along + 8) * (deep + 4))
    v["weight.packing"] = sheet * CORRUGATED * F(5, 16)
    v["packed.weight"] = weight + v["weight.packing"]
    v["moisture.before"] = before = moisture(70, 0.35)
    v["moisture.after"] = after = moisture(75, 0.65)
    v["moisture.change"] = change = after - before
    v["rail.moves"] = float(face * moves * 100) * change
    v["strip.moves"] = float(strip * moves * 100) * change
    v["clearance.left"] = reveal
    v["bend.inertia"] = inertia = deep * face**3 / 12
    v["rail.bends"] = 5 * weight * across**3 / (384 * stiff * inertia)
    v["brace.span"] = root(root(384 * stiff * inertia * F(1, 16) * across / (5 * weight)))
    v["rail.span"] = across
    v["brad.at"] = near(min(face / 2, F(1, 2)))
    v["brad.cover"] = deep / 4
    hung(v, face, weight, stiff, near)
    v["blank.width"] = max(face, deep) + F(1, 8)
    v["blank.thickness"] = min(face, deep) + F(1, 8)
    v["blank.length"] = max(across, along) + 2
    return v


def written(kind, value):
    one = {"kind": kind, "exact": str(value), "shown": shown(value)}
    if kind == "length":
        one["mm"] = float(value * F(127, 5))
    return one


def shown(value):
    if isinstance(value, float):
        return f"~{value:.4f}"
    mark = nearest(value)
    rest = value - mark
    return f"{mixed(mark)}\"" if rest == 0 else f"{mixed(mark)}\" {'+' if rest > 0 else '-'} {float(abs(rest)):.4f}\""


def works(table):
    with open(table, newline="", encoding="utf-8") as lines:
        for row in csv.DictReader(lines):
            width, height, depth = (length(part.strip()) for part in row["art"].split(" x "))
            yield row["name"], (width, height, depth, length(row["reveal"]), length(row["face"]), row["wood"])


def make(table):
    for number, (name, work) in enumerate(works(table), 1):
        exact, cut = figures(work, False), figures(work, True)
        values = {}
        for key, value in exact.items():
            several = value if isinstance(value, list) else [value]
            kind = "mass" if "weight" in key else "length"
            values[key] = [written(kind, one) for one in several]
            if cut[key] != value:
                values[key].append({"cut": str(cut[key])})
        sys.stdout.write(json.dumps({"row": number, "design": {"name": name, "figures": values}}) + "\n")


def alike(theirs, ours):
    """Exact where both are, within what machines' roots differ otherwise."""
    if isinstance(ours, float) or "." in theirs or "e" in theirs:
        return math.isclose(float(F(theirs)), float(ours), rel_tol=1e-9)
    return F(theirs) == ours


def check(table, answers):
    count = 0
    with open(answers, encoding="utf-8") as lines:
        for line, (name, work) in zip(lines, works(table), strict=True):
            said = json.loads(line)["design"]
            assert said["name"] == name
            known = said["fields"] | said["figures"]
            cuts = figures(work, True)
            for key, value in figures(work, False).items():
                theirs = known[key]
                if isinstance(value, list):
                    assert all(alike(one["exact"], two) for one, two in zip(theirs["value"], value, strict=True)), key
                else:
                    assert alike(theirs["exact"], value), (name, key, theirs, value)
                    assert alike(theirs.get("cut", theirs["exact"]), cuts[key]), (name, key, theirs, cuts[key])
                count += 1
    print(f"{count} values alike")


if __name__ == "__main__":
    what, *files = sys.argv[1:]
    if what == "rows":
        csv.writer(sys.stdout, lineterminator="\n").writerows(rows(int(files[0])))
    elif what == "works":
        csv.writer(sys.stdout, lineterminator="\n").writerows(styled(int(files[0])))
    elif what == "make":
        make(*files)
    else:
        check(*files)
