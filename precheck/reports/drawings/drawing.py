"""What a finished drawing is, and what a drawing module gets to draw from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field, replace
from functools import cached_property

from precheck.immutable import fixed
from precheck.project import Part
from precheck.reports.drawings.marks import Mark, mark_of, worst
from precheck.reports.drawings.svg import LOW, PAPER, TALLEST, WIDE, WIDEST, Pen, Scale, clean, scales_from, short
from precheck.reports.worklist import Item
from precheck.survey import House

NARROW = 3.45  # inches of paper that each of two drawings side by side may take
LEAST = 0.75  # share of its size on paper below which a drawing scrolls on a screen, so that its lettering can be read


@fixed
class Drawing:
    """One drawing, or, with an empty `body`, the reason why it cannot be made and what to add."""

    key: str
    title: str
    description: str
    scale: str = ""
    body: str = ""
    frame: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
    notes: tuple[str, ...] = ()
    to_add: tuple[str, ...] = ()
    wide: bool = False  # laid on its side when printed
    shows: dict[str, str] = field(default_factory=dict)  # part id -> id of its place on the drawing

    @property
    def narrow(self) -> bool:
        """Whether two of its width stand side by side on a sheet."""
        return not self.wide and self.frame[2] <= NARROW * PAPER

    def svg(self, style: str = "") -> str:
        """Return the drawing as SVG; with `style` it stands alone."""
        left, top, width, height = self.frame
        own = f"<style>{style}</style>" if style else ""
        name, told = f"{self.key}-title", f"{self.key}-desc"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="group" aria-labelledby="{name} {told}" '
            f'style="--least:{width * LEAST:.0f}px" width="{width / PAPER:.3f}in" height="{height / PAPER:.3f}in" '
            f'viewBox="{left:.2f} {top:.2f} {width:.2f} {height:.2f}">'
            f'<title id="{name}">{clean(self.title)}</title><desc id="{told}">{clean(self.description)}</desc>'
            f"{own}{self.body}</svg>"
        )


@fixed
class Source:
    """The house to draw, and the items to mark on it. `prefix` keeps the ids of several projects apart."""

    house: House
    items: tuple[Item, ...]
    prefix: str = ""

    @cached_property
    def _marks(self) -> dict[str, tuple[Mark, ...]]:
        found: dict[str, list[Mark]] = {}
        for item in self.items:
            for part in dict.fromkeys(part.id for part in item.parts):
                found.setdefault(part, []).append(mark_of(item, self.prefix))
        return {part: tuple(marks) for part, marks in found.items()}

    @cached_property
    def _numbers(self) -> dict[str, int]:
        return {part.id: number for number, part in enumerate(self.house.project.parts, 1)}

    def marks(self, part: Part) -> tuple[Mark, ...]:
        """Return the marks of `part`."""
        return self._marks.get(part.id, ())

    def topics(self, part: Part) -> set[str]:
        """Return the topics of what the list says of `part`."""
        mine = [item for item in self.items if any(one.id == part.id for one in item.parts)]
        return {finding.rule.topic for item in mine for finding in item.findings}

    def key(self, what: str, part: Part | None = None) -> str:
        """Return an id for a drawing, or for a part on it, that no name in the project can spoil."""
        number = f"-p{self._numbers[part.id]}" if part is not None else ""
        return f"{self.prefix}{what}{number}"


class Sketch:
    """A drawing in the making: a pen, and the parts that it has shown."""

    def __init__(self, source: Source, key: str, pen: Pen) -> None:
        self.source, self.key, self.pen = source, key, pen
        self.shows: dict[str, str] = {}

    def open(self, part: Part) -> None:
        """Begin the group of `part`, to which the list links."""
        target = self.source.key(f"{self.key}", part)
        self.shows[part.id] = target
        name = clean(short(part.label, 200))
        self.pen.add(f'<g id="{target}" class="part {worst(self.source.marks(part))}"><title>{name}</title>')

    def close(self) -> None:
        """End the group."""
        self.pen.add("</g>")

    def finish(
        self, title: str, description: str, notes: tuple[str, ...] = (), scale: str = "", north: bool = False
    ) -> Drawing:
        """Return the drawing with its scale bar and, on a plan, north; or with what `scale` says of a diagram without."""
        if not scale:
            self.pen.bar()
        if north:
            self.pen.north()
        body = "".join(self.pen.parts)
        key = self.source.key(self.key)
        shown = self.pen.frame()
        return Drawing(
            key,
            title,
            description,
            scale or f"Printed at {self.pen.scale.name}",
            body,
            shown,
            notes,
            (),
            False,
            self.shows,
        )


def fitting(make: Callable[[Scale], Drawing], largest: str, tallest: float = TALLEST) -> Drawing:
    """Return the drawing at the largest usual scale, up to `largest`, at which it fits the paper."""
    upright = _fitting(make, largest, WIDEST, tallest)
    if upright.frame[2] < upright.frame[3] or upright.scale.endswith(scales_from(largest)[0].name):
        return upright
    lying = _fitting(make, largest, WIDE, LOW)
    return replace(lying, wide=True) if lying.frame[2] > WIDEST * PAPER else upright


def _fitting(make: Callable[[Scale], Drawing], largest: str, width: float, height: float) -> Drawing:
    drawing = None
    for scale in scales_from(largest):
        drawing = make(scale)
        if drawing.frame[2] <= width * PAPER and drawing.frame[3] <= height * PAPER:
            break
    assert drawing is not None
    return drawing


def cannot(key: str, title: str, *to_add: str) -> Drawing:
    """Return the place of a drawing that lacks geometry, with what to add to get it."""
    return Drawing(key, title, "", to_add=to_add)
