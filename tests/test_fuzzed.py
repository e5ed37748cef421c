"""Files with odd things in any place are refused with a line or reviewed: never a traceback, and no check breaks off."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from precheck.checks import Outcome
from precheck.files.source import Block, Items, Unusable, read_text
from precheck.importers import read_mapping
from precheck.project import project_from
from precheck.reports import renderer
from precheck.review.accepted import read_accepted
from precheck.runs.desk import Desk, Run

ROOT = Path(__file__).parents[1]
FILES = ("examples/alder-court/proposed.yaml", "examples/alder-court/corrected.yaml", *(
    f"tests/jobs/{name}.complete.yaml" for name in ("deck-with-stair", "bearing-wall-out", "basement-with-egress-window")
))  # fmt: skip
TEXTS = (
    "", "0", "-1", "0 in", "0 sq ft", "-3 ft", "1e99", "nan", "inf", "9" * 40, "1/0", "no", "yes", "none", "outside", "D1",
    "suite", "2x4", "3'-0\" x 6'-8\"", "1000 ft", "1/1000 in", "~", "A\u202eB", "\u2028", "x" * 5000,
)  # fmt: skip


def places(node: Any) -> Iterator[tuple[Any, Any]]:
    """Yield each place of a tree: the mapping or list, and the key or number in it."""
    for key, below in list(node.items() if isinstance(node, dict) else enumerate(node)):
        yield node, key
        if isinstance(below, dict | list):
            yield from places(below)


def odd(by: random.Random, node: Any, key: Any, tree: Block) -> Any:
    """Return something that nobody means there, or that means another part or place of the same file."""
    kind = by.randrange(8)
    if kind == 0:
        return Items(tree.at, tree.file)
    if kind == 1:
        return Block(tree.at, tree.file)
    if kind in (2, 3):
        return None
    if kind == 4:
        other, at = by.choice(list(places(tree)))
        return other[at]
    if kind > 5:  # what another part says under the same key, which mostly can be read
        return by.choice([other[at] for other, at in places(tree) if at == key and isinstance(key, str)] or [None])
    return by.choice(TEXTS)


def put(node: Any, key: Any, value: Any) -> None:
    """Put a value in its place, or take the place away where it is a key and the value None."""
    if value is None and isinstance(node, dict):
        del node[key]
    else:
        node[key] = value


def is_told_or_reviewed(desk: Desk, tree: Block, file: str) -> bool:
    """Return whether a tree could be used, and hold that no check of it breaks off and that reports come of it."""
    try:
        review = desk.review_of(project_from(tree, desk.plugins.added), file)
    except Unusable as refused:
        if all(problem.place.line > 0 and problem.what for problem in refused.problems):
            return False
        raise
    broken = [f"{f.rule.name} {f.error}" for f in review.findings if f.outcome is Outcome.ERROR]
    assert not broken, broken[0]
    assert renderer("text")(review)
    assert renderer("html")([review])
    return True


def hold(number: int, seed: int) -> int:
    """Hold it of so many files, each with one to three odd things; return how many could be used."""
    by, desk, used = random.Random(seed), Desk(Run("irc-2021")), 0
    for _ in range(number):
        file = by.choice(FILES)
        tree = read_text((ROOT / file).read_text(encoding="utf-8"), file)
        changed = []
        for _ in range(by.choice((1, 1, 1, 2, 3))):
            node, key = by.choice(list(places(tree)))
            value = deepcopy(odd(by, node, key, tree))  # or a part may come to hold itself
            put(node, key, value)
            changed.append((key, value))
        try:
            used += is_told_or_reviewed(desk, tree, file)
        except Exception as error:
            raise AssertionError(f"{file} with {changed!r}"[:800]) from error
    return used


def test_odd_things_in_a_file_break_nothing() -> None:
    assert hold(25, seed=3) >= 3


ACCEPTED = """\
accepted:
  - {rule: light-and-air.glazing, part: bedroom, value: 5 %, document: letter, by: the official, until: 2027-01-01}
  - {rule: escape.sill, part: W1, document: "variance 26-3", by: Board of Appeals}
"""
MAPPING = """\
uses: {Zimmer 1: bedroom, Garage: garage}
layers: {spaces: [A-AREA], names: [A-AREA-IDEN]}
unit: in
"""


def mangled(text: str, by: random.Random) -> str:
    """Return a text with lines lost, doubled or swapped, words put in place of others, or its end missing."""
    lines = text.splitlines(keepends=True)
    for _ in range(by.choice((1, 1, 2, 4))):
        at, to = by.randrange(len(lines)), by.randrange(len(lines))
        match by.randrange(6):
            case 0 if len(lines) > 1:
                del lines[at]
            case 1:
                lines.insert(at, lines[to])
            case 2:
                lines[at], lines[to] = lines[to], lines[at]
            case 3:
                return "".join(lines)[: by.randrange(len(text))]
            case _:
                words = lines[at].split(" ")
                words[by.randrange(len(words))] = by.choice((*TEXTS, *"{}[]:#*&!|>'\"%@,-\t"))
                lines[at] = " ".join(words)
    return "".join(lines) or "\n"


def readers(folder: Path) -> Iterator[tuple[str, str, Callable[[Path], object]]]:
    """Yield the name and the text of a file of each other kind, with what reads it."""
    rulesets = Desk(Run()).rulesets
    for file in (*ROOT.glob("rulesets/jurisdictions/*/*.yaml"), ROOT / "tests/data/juniper-flat.yaml"):
        yield f"town-{file.parent.name}.yaml", file.read_text(encoding="utf-8"), lambda path: rulesets.adopt(str(path))
    yield "accepted.yaml", ACCEPTED, read_accepted
    yield "mapping.yaml", MAPPING, read_mapping
    desk = Desk(Run("irc-2021"))
    for name, drawn in design_files(folder):
        yield name, drawn, lambda path: desk.review(str(path))


def design_files(folder: Path) -> Iterator[tuple[str, str]]:
    """Yield the text of a drawing and of a model, where the readers of these are installed."""
    ezdxf, ifcopenshell = pytest.importorskip("ezdxf"), pytest.importorskip("ifcopenshell")
    document = ezdxf.new()
    document.header["$INSUNITS"] = 1
    space = document.modelspace()
    space.add_lwpolyline([(0, 0), (144, 0), (144, 84), (0, 84)], close=True, dxfattribs={"layer": "A-AREA"})
    space.add_text("BEDROOM 1", dxfattribs={"layer": "A-AREA-IDEN", "insert": (60, 60)})
    document.saveas(folder / "drawn.dxf")
    yield "mangled.dxf", (folder / "drawn.dxf").read_text(encoding="utf-8")
    model = ifcopenshell.file(schema="IFC4")
    owner = model.create_entity("IfcProject", GlobalId="0" * 22, Name="P")
    room = model.create_entity("IfcSpace", GlobalId="1" * 22, Name="Bedroom", LongName="Bedroom")
    model.create_entity("IfcRelAggregates", GlobalId="2" * 22, RelatingObject=owner, RelatedObjects=[room])
    yield "mangled.ifc", model.to_string()


@pytest.mark.long
@pytest.mark.parametrize("seed", range(2))
def test_mangled_files_of_every_other_kind_are_read_or_refused_with_their_place(tmp_path: Path, seed: int) -> None:
    by, refused = random.Random(seed), 0
    for name, text, read in readers(tmp_path):
        for _ in range(15 if name.startswith("mangled") else 5):
            path = tmp_path / name
            path.write_text(told := mangled(text, by), encoding="utf-8")
            try:
                read(path)
            except Unusable as error:
                refused += 1
                if not all(problem.what and problem.place.line > 0 for problem in error.problems):
                    raise
            except Exception as error:
                raise AssertionError(f"{name}\n{told[:3000]}") from error
    assert refused > 40


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4))
def test_many_odd_things_in_files_break_nothing(seed: int) -> None:
    assert hold(400, seed) >= 50
