#!/usr/bin/env python3
"""Writes the decks of this folder: make_decks.py [FOLDER]. SI, temperatures degC. README.md says what each is."""
import sys
from pathlib import Path

SIGMA = 5.670374e-8
# faces of an eight-node brick: S1 bottom, S2 top, S3 front, S4 right, S5 back, S6 left; bottom 1234, top 5678
FRONT = "*PHYSICAL CONSTANTS, ABSOLUTE ZERO=-273.15, STEFAN BOLTZMANN=%s\n" % SIGMA


class Deck:
    def __init__(self, title):
        self.title, self.nodes, self.bricks, self.sets = title, [], [], {}

    def node(self, *xyz):
        self.nodes.append(xyz)
        return len(self.nodes)

    def brick(self, corners, elset):
        self.bricks.append(corners)
        self.sets.setdefault(elset, []).append(len(self.bricks))
        return len(self.bricks)

    def mesh(self):
        out = ["** %s\n*NODE, NSET=NALL\n" % self.title]
        out += ["%d, %.9g, %.9g, %.9g\n" % (i + 1, *p) for i, p in enumerate(self.nodes)]
        out += ["*ELEMENT, TYPE=C3D8, ELSET=EALL\n"]
        out += ["%d, %s\n" % (i + 1, ", ".join(map(str, c))) for i, c in enumerate(self.bricks)]
        for name, members in self.sets.items():
            out += ["*ELSET, ELSET=%s\n" % name] + ["%d,\n" % m for m in members]
        return "".join(out)


def column(deck, layers, side=0.01):
    """Bricks one on another along z; layers of (elset, thickness, count). Gives the four nodes of each level."""
    def level(z):
        return [deck.node(x, y, z) for x, y in ((0, 0), (side, 0), (side, side), (0, side))]
    z, levels = 0.0, [level(0.0)]
    for elset, thick, count in layers:
        for i in range(count):
            z_next = z + thick * (i + 1) / count
            levels.append(level(z_next))
            deck.brick(levels[-2] + levels[-1], elset)
        z += thick
    return levels


def materials(table):
    out = []
    for elset, rows, extra in table:
        out += ["*MATERIAL, NAME=M%s\n*CONDUCTIVITY\n" % elset] + ["%g, %g\n" % row for row in rows] + [extra]
        out += ["*SOLID SECTION, ELSET=%s, MATERIAL=M%s\n" % (elset, elset)]
    return "".join(out)


def step(lines, procedure="*HEAT TRANSFER, STEADY STATE\n1., 1.\n", nset="PROBES", what="NT", head="*STEP, INC=2000\n"):
    return head + procedure + lines + "*NODE PRINT, NSET=%s, FREQUENCY=100000\n%s\n*END STEP\n" % (nset, what)


def nset(name, members):
    return "*NSET, NSET=%s\n" % name + "".join("%d,\n" % m for m in members)


def layered_wall():
    deck = Deck("layered wall: gas, vermiculite 25 mm, air gap as 1 mm of k 0.05, steel 4 mm, room")
    levels = column(deck, [("LINING", 0.025, 4), ("GAP", 0.001, 1), ("STEEL", 0.004, 2)])
    text = deck.mesh() + nset("PROBES", [levels[i][0] for i in (0, 4, 5, 7)])
    text += materials([("LINING", [(0.18, 0)], ""), ("GAP", [(0.05, 0)], ""), ("STEEL", [(45, 0)], "")])
    text += "*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 20.\n"
    return text + step("*FILM\n1, F1, 800., 40.\n%d, F2, 20., 18.\n" % len(deck.bricks))


def rising_lining():
    deck = Deck("lining 30 mm, k = 0.14 + 0.0001 t, between 700 and 200 degC")
    levels = column(deck, [("LINING", 0.030, 40)])
    text = deck.mesh() + nset("HOT", levels[0]) + nset("PROBES", [levels[20][0]]) + nset("COLD", levels[-1])
    text += materials([("LINING", [(0.14, 0), (0.24, 1000)], "")])
    text += "*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 450.\n"
    lines = "*BOUNDARY\nHOT, 11, 11, 700.\nCOLD, 11, 11, 200.\n*NODE PRINT, NSET=HOT, TOTALS=ONLY\nRFL\n"
    return text + step(lines)


def lining_heating():
    deck = Deck("lining 25 mm heated from one side, back insulated, from 20 degC; after 300 and 1800 s")
    levels = column(deck, [("LINING", 0.025, 50)])
    text = deck.mesh() + nset("PROBES", [levels[0][0], levels[-1][0]])
    text += materials([("LINING", [(0.18, 0)], "*DENSITY\n700.\n*SPECIFIC HEAT\n900.\n")])
    text += "*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 20.\n"
    for duration in (300.0, 1500.0):
        text += step("*FILM\n%d, F2, 700., 30.\n" % len(deck.bricks),
                     procedure="*HEAT TRANSFER, DIRECT\n1., %g\n" % duration, head="*STEP, INC=5000\n")
    return text


THICK = 0.003
LOSS = "*FILM\nSHEET, F2, 20., 7.\n*RADIATE\nSHEET, R2, 20., 0.9\n"


def sheet(deck, wide, deep, nx, ny):
    """nx x ny bricks, one through the thickness, heated below (S1), losing above (S2). Gives node[k][i][j]."""
    grid = [[[deck.node(wide * i / nx, deep * j / ny, z) for j in range(ny + 1)] for i in range(nx + 1)]
            for z in (0.0, THICK)]
    for i in range(nx):
        for j in range(ny):
            around = ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
            deck.brick([grid[k][a][b] for k in (0, 1) for a, b in around], "SHEET")
    return grid


def sheet_deck(deck, grid, at, loads, held=()):
    text = deck.mesh() + nset("PROBES", [grid[1][i][j] for i, j in at])
    text += nset("EDGES", held) if held else ""
    text += materials([("SHEET", [(45, 0)], "")]) + FRONT
    text += "*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 200.\n"
    return text + step(("*BOUNDARY\nEDGES, 11, 11, 100.\n" if held else "") + loads)


def quarter(title, loads, n=16):
    """A quarter of a sheet of 0.4 x 0.4 m: middle at the origin, far edges at 100 degC."""
    deck = Deck(title + "; quarter of 0.4 x 0.4 m, 3 mm, k 45, heated with 5000 W/m2 below, edges at 100 degC")
    grid = sheet(deck, 0.2, 0.2, n, n)
    held = sorted({grid[k][i][j] for k in (0, 1) for i in range(n + 1) for j in range(n + 1) if n in (i, j)})
    return sheet_deck(deck, grid, [(0, 0), (n // 2, n // 2), (0, n // 2)], "*DFLUX\nSHEET, S1, 5000.\n" + loads, held)


def heated_sheet():
    return quarter("sheet without loss", "")


def losing_sheet():
    return quarter("sheet losing 15 W/(m2 K) to 100 degC above", "*FILM\nSHEET, F2, 100., 15.\n")


def radiating_sheet():
    return quarter("sheet losing 7 W/(m2 K) and radiation of emissivity 0.9 to 20 degC above", LOSS)


def half_heated_sheet():
    deck = Deck("strip of sheet 0.4 m long, 3 mm, k 45, first half heated with 10000 W/m2 below, edges insulated, "
                "losing 7 W/(m2 K) and radiation of emissivity 0.9 to 20 degC above")
    grid = sheet(deck, 0.4, 0.01, 64, 1)
    hot = "*DFLUX\n" + "".join("%d, S1, 10000.\n" % (i + 1) for i in range(32))
    return sheet_deck(deck, grid, [(8 * i, 0) for i in range(9)], hot + LOSS)


def slabs(deck, walls, thick=0.002):
    """Walls of (name, origin, u, v, nu, nv, outward): blocks of their own nodes behind each facet. The inner face is S1."""
    for name, o, u, v, nu, nv, out in walls:
        for i in range(nu):
            for j in range(nv):
                corners = []
                for depth in (0.0, thick):
                    for a, b in ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)):
                        corners.append(deck.node(*[o[k] + u[k] * a / nu + v[k] * b / nv + out[k] * depth for k in range(3)]))
                deck.brick(corners, name)


def box_walls(w, d, h, n):
    """x width, y depth, z height; u x v points outward so that the brick is not inside out."""
    return [
        ("FLOOR", (0, 0, 0), (0, d, 0), (w, 0, 0), n, n, (0, 0, -1)),
        ("TOP", (0, 0, h), (w, 0, 0), (0, d, 0), n, n, (0, 0, 1)),
        ("FRONT", (0, 0, 0), (w, 0, 0), (0, 0, h), n, n, (0, -1, 0)),
        ("BACK", (0, d, 0), (0, 0, h), (w, 0, 0), n, n, (0, 1, 0)),
        ("LEFT", (0, 0, 0), (0, 0, h), (0, d, 0), n, n, (-1, 0, 0)),
        ("RIGHT", (w, 0, 0), (0, d, 0), (0, 0, h), n, n, (1, 0, 0)),
    ]


def nodes_of(deck, name, first=0):
    return [c for e in deck.sets[name] for c in deck.bricks[e - 1][first:]]


def cavity_deck(title, walls, held, emissivity, sink):
    deck = Deck(title)
    slabs(deck, walls)
    names = [w[0] for w in walls]
    free = [name for name in names if name not in held]
    text = nset("PROBES", [deck.bricks[e - 1][0] for name in free for e in deck.sets[name]])
    text = deck.mesh() + (text if free else "") + "".join(nset("N" + name, nodes_of(deck, name, 4 if name in held else 0)) for name in names)
    text += materials([("EALL", [(4e5, 0)], "")]) + FRONT
    text += "*INITIAL CONDITIONS, TYPE=TEMPERATURE\nNALL, 700.\n"
    lines = "*BOUNDARY\n" + "".join("N%s, 11, 11, %g\n" % (name, t) for name, t in held.items())
    for name in names:
        lines += "*RADIATE, CAVITY=BOX\n%s, R1CR, %g, %g\n" % (name, sink, emissivity[name])
    for name in held:
        lines += "*NODE PRINT, NSET=N%s, TOTALS=ONLY\nRFL\n" % name
    if free:
        lines += "*NODE PRINT, NSET=PROBES\nNT\n"
    return text + "*STEP, INC=2000\n*HEAT TRANSFER, STEADY STATE\n1., 1.\n" + lines + "*END STEP\n"


def box_of_six():
    walls = box_walls(0.40, 0.30, 0.40, 8)
    held = {"FLOOR": 900, "TOP": 600, "FRONT": 450, "BACK": 700, "LEFT": 650, "RIGHT": 750}
    e = {"FLOOR": 0.9, "TOP": 0.8, "FRONT": 0.85, "BACK": 0.7, "LEFT": 0.6, "RIGHT": 0.5}
    return cavity_deck("box 0.40 x 0.30 x 0.40 m, six walls held, 8 x 8 facets each", walls, held, e, 700.0)


def firebox():
    walls = box_walls(0.40, 0.30, 0.40, 4)
    e = dict.fromkeys([w[0] for w in walls], 0.9)
    return cavity_deck("firebox 0.40 x 0.30 x 0.40 m, floor 900, front 450 degC, the rest insulated, 4 x 4 facets each", walls,
                       {"FLOOR": 900, "FRONT": 450}, e, 700.0)


def two_plates():
    walls = [("LOW", (0, 0, 0), (0, 0.4, 0), (0.4, 0, 0), 8, 8, (0, 0, -1)),
             ("HIGH", (0, 0, 0.1), (0.4, 0, 0), (0, 0.4, 0), 8, 8, (0, 0, 1))]
    return cavity_deck("plates 0.4 x 0.4 m, 0.1 m apart, open to 20 degC all round, 8 x 8 facets each", walls, {"LOW": 500, "HIGH": 100},
                       {"LOW": 0.8, "HIGH": 0.6}, 20.0)


DECKS = [layered_wall, rising_lining, lining_heating, heated_sheet, losing_sheet, radiating_sheet, half_heated_sheet,
         box_of_six, firebox, two_plates]

if __name__ == "__main__":
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parent)
    for deck in DECKS:
        (folder / (deck.__name__ + ".inp")).write_text(deck())
