"""Which layers of a drawing hold walls, doors and windows: by their names, else walls by lines that run in pairs."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from fnmatch import fnmatchcase
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.plane_lines import Line, along, cross, direction, long
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet
from precheck.importers.mapping import Layers, Mapping

WALLS = re.compile(r"wall|(?<![a-z])mur[oiay]?s?(?![a-z])|muro|mur_|w(?:a|ae|ä)nd|pared|(?<![a-z])planta|pianta|partition|"
                   r"structure|tabique|tramezz|paroi|cloison|muur|alba(?:ñ|n)iler", re.IGNORECASE)  # fmt: skip
NO_WALLS = re.compile(r"foot|found|stem|hatch|patt|text|txt|dim|iden|elev|low|head|titl|demo|remov|note|anno|furn|insul|sect|"
                      r"cota|trama|"
                      r"tile|cabinet|counter|paint|light|outlet|rail|retain|fill|achur|sombre|proyec|\(dashed", re.IGNORECASE)  # fmt: skip
DOORS = re.compile(
    r"door|(?<![a-z])porte?s?(?![a-z])|puerta|t(?:ü|ue?)r(?:en)?(?![a-z])|(?<![a-z])porta|deur", re.IGNORECASE
)
WINDOWS = re.compile(r"wind|(?<![a-z])win(?![a-z])|wndw|glaz|glass|fen[eê]t|ventan|fenst|finest|infiss|serrament|"
                     r"(?<![a-z])raam|opening|vidrio|vitr", re.IGNORECASE)  # fmt: skip
NEVER = re.compile(r"furn|dim|stair|land|text|txt|anno|title|hatch|patt|cota|elec|plumb|mueble|mobil|site|tree|defpoints|"
                   r"door|wind|grid|axis|eje|veget|fixt|appl|equip|symb|scal|escal|north|roof|\(dashed\)", re.IGNORECASE)  # fmt: skip
BY_SIZES = "walls by the lines to which most written sizes reach"
ENOUGH = 8  # lines on layers of walls, below which the names are not believed
PAIR = (0.07, 0.36)  # meters from one face of a wall to the other
SHORTEST = 0.3  # meters of a line that may be a face of a wall
MOST_PAIRS = 6000  # lines of one layer that are looked at for pairs


class Layering(NamedTuple):
    """The layers taken for walls, doors and windows, and how the walls were told."""

    walls: tuple[str, ...]
    doors: tuple[str, ...]
    windows: tuple[str, ...]
    told: str

    def is_opening(self, layer: str) -> bool:
        """Return whether a layer holds doors or windows."""
        return layer in self.doors or layer in self.windows


def named_layers(sheet: DrawnSheet, mapping: Mapping) -> Layering:
    """Return the layers by their names, those of the mapping first."""
    lines: dict[str, int] = defaultdict(int)
    for line in sheet.lines:
        lines[line.layer] += 1
    every = sorted({*lines, *(arc.layer for arc in sheet.swings), *(block.layer for block in sheet.blocks)})
    chosen, usual = mapping.layers, Layers()
    if chosen.wall_faces:
        walls, told = _like(every, chosen.wall_faces), "walls as the mapping file says"
    elif sheet.walls:
        walls, told = sheet.walls, BY_SIZES
    else:
        walls = tuple(name for name in every if WALLS.search(name) and not NO_WALLS.search(name))
        told = "walls by the names of layers"
        if sum(lines[name] for name in walls) < ENOUGH:
            walls = ()
    doors = tuple(n for n in every if DOORS.search(n) and n not in walls)
    windows = tuple(n for n in every if WINDOWS.search(n) and n not in (*walls, *doors))
    if chosen.doors != usual.doors:
        doors = _like(every, chosen.doors)
    if chosen.windows != usual.windows:
        windows = _like(every, chosen.windows)
    return Layering(walls, doors, windows, told)


def paired_layers(sheet: DrawnSheet, meter: float) -> tuple[str, ...]:
    """Return the layers whose lines run in pairs as faces of walls do, where `meter` meters are one unit."""
    by_layer: dict[str, list[Line]] = defaultdict(list)
    for line in sheet.lines:
        scaled = _scaled(line, meter)
        if long(scaled) >= SHORTEST and not NEVER.search(line.layer):
            by_layer[line.layer].append(scaled)
    paired = {layer: _paired(lines) for layer, lines in by_layer.items() if ENOUGH <= len(lines) <= MOST_PAIRS}
    best = max((size for size, _ in paired.values()), default=0.0)
    return tuple(sorted(name for name, (size, share) in paired.items() if size >= 0.35 * best and share > 0.25))


def _like(names: Iterable[str], patterns: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if any(fnmatchcase(name, pattern.upper()) for pattern in patterns))


def _scaled(line: DrawnLine, meter: float) -> Line:
    return (line.start[0] * meter, line.start[1] * meter), (line.end[0] * meter, line.end[1] * meter)


def _paired(lines: list[Line]) -> tuple[float, float]:
    """Return the length of lines beside which another runs at the thickness of a wall, and its share of all."""
    shapes = [shapely.LineString(line) for line in lines]
    tree: Any = shapely.STRtree(shapes)
    found = 0.0
    for line in lines:
        way, middle = direction(*line), along(line[0], direction(*line), long(line) / 2)
        probe = shapely.LineString((along(middle, way, 0, PAIR[0]), along(middle, way, 0, PAIR[1])))
        other = shapely.LineString((along(middle, way, 0, -PAIR[0]), along(middle, way, 0, -PAIR[1])))
        near = {int(i) for one in (probe, other) for i in tree.query(one, predicate="intersects")}
        found += long(line) * any(abs(cross(way, direction(*lines[i]))) < 0.05 for i in near)
    total = sum(map(long, lines))
    return found, found / total if total else 0.0


__all__ = ["Layering", "named_layers", "paired_layers"]
