"""What was recognized on a drawn plan, as a picture (SVG) that a person lays beside the drawing before confirming it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from precheck.importers.confirming import Recognized, RecognizedSheet
from precheck.importers.plane import P2
from precheck.reports.drawings.svg import clean, short

WIDE = 1400.0  # pixels of the drawing's longer side
MARGIN, ROW = 24.0, 18.0
FILLS = {"A": "#dceedd", "B": "#e3edf7", "C": "#fbeccb"}
_STYLE = (
    "text{font-family:'DejaVu Sans',Verdana,Helvetica,Arial,sans-serif;font-size:12px;fill:#1d2a33;paint-order:stroke;"
    "stroke:#fff;stroke-width:3px}.w{stroke:#1d2a33;stroke-width:1}.d{stroke:#a3161b;stroke-width:2.5;stroke-dasharray:7 5}"
    ".o{stroke:#1c4f80;stroke-width:3.5}.r{stroke:#7c8a92;stroke-width:.6}.n{font-weight:bold}.l{fill:#a3161b}"
)
KEY = (
    ("A", "a size or an area written in the room agrees"), ("B", "one name, and an outline of drawn walls"),
    ("C", "a person has to say"),
)  # fmt: skip


def render(sheet: RecognizedSheet) -> str:
    """Return the picture of `sheet`: rooms with id, size and grade, doubtful closing lines dashed in red."""
    points = [p for line in sheet.walls for p in line] + [p for one in sheet.things for p in one.shape]
    if not points:
        points = [(0.0, 0.0), (10.0, 5.0)]
    pen = _Pen(points)
    body = [*pen.rooms(sheet.things), *pen.lines(sheet.walls, "w"), *pen.lines(sheet.doubtful, "d")]
    body += [*pen.openings(sheet.things), *pen.names(sheet.things), *pen.lost(sheet.lost), *pen.key(sheet)]
    tall = pen.tall + ROW * (len(KEY) + 4)
    head = f'<svg xmlns="http://www.w3.org/2000/svg" width="{pen.wide:.0f}" height="{tall:.0f}" role="img">'
    title = f"<title>{clean(f'Recognized on {sheet.file}, to be compared with the drawing')}</title>"
    return "\n".join((head, title, f"<style>{_STYLE}</style>", *body, "</svg>")) + "\n"


class _Pen:
    def __init__(self, points: list[P2]) -> None:
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        self.low, self.high = (min(xs), min(ys)), (max(xs), max(ys))
        size = max(self.high[0] - self.low[0], self.high[1] - self.low[1], 0.1)
        self.scale = WIDE / size
        self.wide = (self.high[0] - self.low[0]) * self.scale + 2 * MARGIN
        self.tall = (self.high[1] - self.low[1]) * self.scale + 2 * MARGIN

    def at(self, point: P2) -> str:
        x, y = self.place(point)
        return f"{x:.1f},{y:.1f}"

    def place(self, point: P2) -> P2:
        return (point[0] - self.low[0]) * self.scale + MARGIN, (self.high[1] - point[1]) * self.scale + MARGIN

    def rooms(self, things: Iterable[Recognized]) -> Iterator[str]:
        for one in things:
            if one.kind == "room":
                corners = " ".join(map(self.at, one.shape))
                yield f'<polygon class="r" points="{corners}" fill="{FILLS.get(one.grade, "#fff")}"/>'

    def lines(self, lines: Iterable[tuple[P2, P2]], kind: str) -> Iterator[str]:
        for start, end in lines:
            (x1, y1), (x2, y2) = self.place(start), self.place(end)
            yield f'<line class="{kind}" x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}"/>'

    def openings(self, things: Iterable[Recognized]) -> Iterator[str]:
        for one in things:
            if one.kind != "room":
                yield from self.lines([(one.shape[0], one.shape[1])], "o")
                x, y = self.place(one.shape[0])
                yield f'<text x="{x:.1f}" y="{y - 4:.1f}">{clean(one.id)}</text>'

    def names(self, things: Iterable[Recognized]) -> Iterator[str]:
        for one in things:
            if one.kind == "room":
                xs, ys = [p[0] for p in one.shape], [p[1] for p in one.shape]
                x, y = self.place(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))
                rows = (
                    f"{short(one.id, 40)} ({one.grade}{', confirmed' if one.state == 'confirmed' else ''})",
                    one.told,
                )
                for row, text in enumerate(rows):
                    kind = "" if row else ' class="n"'
                    yield f'<text{kind} x="{x:.1f}" y="{y + row * 15:.1f}" text-anchor="middle">{clean(text)}</text>'

    def lost(self, names: Iterable[tuple[P2, str]]) -> Iterator[str]:
        for at, name in names:
            (x, y), shown = self.place(at), clean(short(name, 30))
            if 0 <= x <= self.wide and 0 <= y <= self.tall:
                yield f'<text class="l" x="{x:.1f}" y="{y:.1f}" text-anchor="middle">{shown}?</text>'

    def key(self, sheet: RecognizedSheet) -> Iterator[str]:
        rows = [f"{grade}: {means}" for grade, means in KEY]
        rows.append("red, dashed: closes a gap in which no door or window is drawn; blue: a door or window")
        rows.append(f"read in {sheet.unit or 'the scale given'} ({sheet.unit_told})")
        for n, text in enumerate(rows):
            yield f'<text x="{MARGIN}" y="{self.tall + ROW * (n + 1):.1f}">{clean(text)}</text>'


__all__ = ["render"]
