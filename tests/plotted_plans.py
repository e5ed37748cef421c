"""Small plans plotted to PDF, byte by byte, so that what is on a page and how it got there is known without any library."""

# ruff: noqa: D102  # what these helpers draw is in their names

from __future__ import annotations

from math import cos, hypot, radians, sin, tan

from precheck.importers.drawn.dxf_sheet import dxf_sheet

PER_INCH = 1.5  # points for an inch of the house: 1/4 in = 1 ft
INKS = {"A-WALL": ("0 0 0", 1.4), "A-DOOR": ("0 0 0", 0.5), "A-GLAZ": ("0 0 1", 0.5), "A-ANNO": ("0 0 0", 0.35)}
EMPTY_PICTURE = (
    b"<< /Type /XObject /Subtype /Image /Width 1 /Height 1 /ColorSpace /DeviceGray /BitsPerComponent 8 /Length 1 >>\n"
    b"stream\n\x7f\nendstream"
)


class PlottedPage:
    """A page on which things of a house are drawn, in inches of the house."""

    def __init__(self, per_inch=PER_INCH, origin=(120.0, 120.0), size=(792.0, 792.0), turned=0):
        self.per_inch, self.origin, self.size, self.turned = per_inch, origin, size, turned
        self.drawn, self.layers, self.depth, self.unit = [], [], 0, 1.0

    def on_layer(self, name):
        """Begin what is on a layer that the plot keeps; `off_layer` ends it."""
        self.layers.append(name)
        self.drawn.append(f"/OC /L{len(self.layers) - 1} BDC")

    def off_layer(self):
        self.drawn.append("EMC")

    def cut_to(self, *points):
        """Begin what is cut to a shape; `uncut` ends it."""
        (x, y), *rest = map(self.at, points)
        self.drawn.append(f"q {x} {y} m {' '.join(f'{a} {b} l' for a, b in rest)} h W n")

    def uncut(self):
        self.drawn.append("Q")

    def at(self, point):
        return tuple(round(start + part * self.per_inch, 3) for start, part in zip(self.origin, point, strict=True))

    def ink(self, color, width):
        self.drawn.append(f"{color} RG {color} rg {width} w")

    def line(self, *points, fill=False):
        (x, y), *rest = map(self.at, points)
        self.drawn.append(" ".join([f"{x} {y} m", *(f"{a} {b} l" for a, b in rest), "f" if fill else "S"]))

    def arc(self, center, radius, begins, ends):
        """Draw an arc as one curve, as a plotter does up to a right angle."""
        sweep = (ends - begins) % 360
        reach = 4 / 3 * tan(radians(sweep) / 4) * radius
        points = [on(center, radius, begins), on(on(center, radius, begins), reach, begins + 90),
                  on(on(center, radius, ends), reach, ends - 90), on(center, radius, ends)]  # fmt: skip
        (x, y), *bends = map(self.at, points)
        self.drawn.append(f"{x} {y} m {' '.join(f'{a} {b}' for a, b in bends)} c S")

    def text(self, words, at, height=6.0, angle=0.0):
        size = height * self.per_inch / 0.7
        x, y = self.at(at)
        c, s, half = cos(radians(angle)), sin(radians(angle)), 0.26 * size * len(words)
        x, y = x - half * c + 0.35 * size * s, y - half * s - 0.35 * size * c
        said = words.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
        self.drawn.append(f"BT /F {size:.3f} Tf {c:.5f} {s:.5f} {-s:.5f} {c:.5f} {x:.3f} {y:.3f} Tm ({said}) Tj ET")

    def dimension(self, start, end, words, off=4.0):
        """Draw a line from end to end, ticks on both, and what it measures over its middle."""
        self.line(start, end)
        angle = 90.0 if start[0] == end[0] else 0.0
        for x, y in (start, end):
            self.line((x - 3, y - 3), (x + 3, y + 3))
        x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        self.text(words, (x - off, y) if angle else (x, y + off), 4.0, angle)

    def picture(self):
        width, height = self.size
        self.drawn.append(f"q {width} 0 0 {height} 0 0 cm /P Do Q")

    def stream(self):
        return "\n".join(self.drawn).encode("latin-1")


def on(center, radius, angle):
    return center[0] + radius * cos(radians(angle)), center[1] + radius * sin(radians(angle))


def plotted(plan, page=None, texts=True, inks=INKS, layers=False):
    """Return a page with what a plan in DXF shows, on the inks of its layers, and on its layers where the plot keeps them."""
    sheet, page = dxf_sheet(plan.document), page or PlottedPage()
    for layer, (color, width) in inks.items():
        page.ink(color, width)
        if layers:
            page.on_layer(layer)
        for line in sheet.lines:
            if line.layer == layer:
                page.line(*((x / plan.scale, y / plan.scale) for x, y in (line.start, line.end)))
        for arc in sheet.swings:
            if arc.layer == layer:
                page.arc(tuple(c / plan.scale for c in arc.center), arc.radius / plan.scale, arc.begins, arc.ends)
        if layers:
            page.off_layer()
    for text in sheet.texts if texts else ():
        page.text(text.text, tuple(c / plan.scale for c in text.at), text.height / plan.scale, text.angle)
    return page


def filled_by_strokes(page, start, end, thick):
    """Fill a wall from corner to corner by strokes side by side, as a plotter without fills does."""
    step = 0.35 / page.per_inch
    long = hypot(end[0] - start[0], end[1] - start[1])
    way = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    for n in range(int(long / step) + 1):
        x, y = start[0] + way[0] * n * step, start[1] + way[1] * n * step
        page.line((x, y), (x - way[1] * thick, y + way[0] * thick))


def written(path, *pages, off=()):
    """Write the pages as a PDF, what is drawn in as many forms within forms as each says, with layers that are `off`."""
    bodies = [
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>", EMPTY_PICTURE,
    ]  # fmt: skip
    groups = {
        name: 3 + len(bodies) + n for n, name in enumerate(dict.fromkeys(n for page in pages for n in page.layers))
    }
    bodies += [f"<< /Type /OCG /Name ({name}) >>".encode("latin-1") for name in groups]
    kids = []
    for page in pages:
        kids.append(3 + len(bodies))
        bodies += _page(page, 3 + len(bodies), groups)
    listed, hidden = (" ".join(f"{groups[name]} 0 R" for name in names) for names in (groups, off))
    layers = f"/OCProperties << /OCGs [{listed}] /D << /OFF [{hidden}] /Order [{listed}] >> >>" if groups else ""
    bodies = [
        f"<< /Type /Catalog /Pages 2 0 R {layers} >>".encode(),
        f"<< /Type /Pages /Kids [{' '.join(f'{kid} 0 R' for kid in kids)}] /Count {len(pages)} >>".encode(),
        *bodies,
    ]
    return _file(path, bodies)


def _page(page, number, groups):
    """Return the objects of a page from `number` on: itself, what is drawn on it, and each form that lies in the one before."""
    width, height = page.size
    marks = " ".join(f"/L{n} {groups[name]} 0 R" for n, name in enumerate(page.layers))
    uses = f"/Font << /F 3 0 R >> /Properties << {marks} >>"
    bodies = [
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width} {height}] /Rotate {page.turned} /UserUnit {page.unit} "
        f"/Resources << {uses} /XObject << /P 4 0 R /X {number + 2} 0 R >> >> /Contents {number + 1} 0 R >>".encode()
    ]
    for n in range(page.depth + 1):
        drawn = page.stream() if n == page.depth else b"/X Do"
        form = f"/Type /XObject /Subtype /Form /BBox [0 0 {width} {height}]" if n else ""
        inner = f"/Resources << {uses} /XObject << /P 4 0 R /X {number + 2 + n} 0 R >> >>"
        bodies.append(b"<< %s /Length %d >>\nstream\n%s\nendstream" % (f"{form} {inner}".encode(), len(drawn), drawn))
    return bodies


def _file(path, bodies):
    out, starts = b"%PDF-1.5\n", []
    for number, body in enumerate(bodies, 1):
        starts.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % start for start in starts)
    end = b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(bodies) + 1, len(out))
    path.write_bytes(out + b"xref\n0 %d\n0000000000 65535 f \n%s%s" % (len(bodies) + 1, table, end))
    return path
