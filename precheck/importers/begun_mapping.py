"""A mapping file begun from what an import did not understand: names of rooms and materials, and the phase, once for all.

What a common word of another language most likely means is filled in for a person to look over; the rest stands in comments.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from textwrap import wrap
from typing import get_args

from precheck.importers.confirming import RecognizedSheet
from precheck.importers.draft import Draft, plain
from precheck.importers.mapping import Unit
from precheck.importers.materials import KNOWN
from precheck.importers.writing import scalar
from precheck.project.part import Phase
from precheck.project.space import Use

# German, French, Spanish, Portuguese, Italian and Dutch
USES = (
    ("schlaf|chambre|dormit[oó]rio|habitaci[oó]n|rec[aá]mara|alcoba|[cq]uarto|camera|slaapkamer|kinder|g(?:a|ä|ae)stezimmer", "bedroom"),
    (r"wohn|s[eé]jour|salon|sal[oó]n|sala(?!\w)|soggiorno|woonkamer", "living room"),
    ("ess|salle à manger|comedor|eetkamer", "dining room"),
    ("k(?:u|ü|ue)che|cuisine|cocina|cozinha|cucina|keuken", "kitchen"), ("bad|salle de bain|ba[nñ]o|banheiro|bagno", "bathroom"),
    ("wc|toilette|aseo|gabinetto", "toilet room"), ("b(?:u|ü|ue)ro|arbeits|bureau|despacho|oficina|studio|kantoor", "office"),
    ("flur|diele|gang|couloir|pasillo|pasadizo|corredor|corridoio|vestib|hal$", "hall"),
    ("abstell|lager|d[eé]barras|trastero|ripostiglio|berging|speicher", "storage"),
    ("hauswirtschaft|hwr|waschk|buanderie|lavadero|lavanderia|bijkeuken", "laundry"),
    ("lavabo", "toilet room"), ("heizung|technik|chaufferie|caldera", "utility"), ("garage|garaje|autorimessa", "garage"),
    ("dachboden|grenier|[aá]tico|soffitta|zolder", "attic"), ("windfang", "hall"),
)  # fmt: skip
MATERIALS = (
    ("gips|placo|yeso|cartongesso", "gypsum"), ("beton|b[eé]ton|hormig[oó]n|calcestruzzo", "concrete"),
    ("ziegel|mauerwerk|brique|ladrillo|mattone|baksteen", "brick"), ("kalksand", "concrete block"),
    ("d(?:a|ä|ae)mm|isol|aislamiento|isolatie", "insulation"), ("estrich|chape|solera|dekvloer", "concrete"),
    ("putz|enduit|intonaco|pleister", "plaster"), ("fliese|carrelage|baldosa|piastrell|tegel", "ceramic tile"),
    ("parkett|parquet", "wood flooring"), ("teppich|moquette|tapijt", "carpet"),
)  # fmt: skip


def begun_mapping(draft: Draft) -> str:
    """Return the text of a mapping file with everything that `draft` did not understand, and what it waits for."""
    return "".join(f"{line}\n" for line in _lines(draft))


def _lines(draft: Draft) -> Iterator[str]:
    yield f"# What names in {plain(draft.file)} mean. Look over what is filled in, and fill in the rest or leave it out;"
    yield "# then import or check again with --mapping and this file."
    if draft.recognized is not None:
        yield from _recognized(draft.recognized)
    without = draft.unsaid["phase"]
    if without:
        yield ""
        yield f"# {len(without)} parts give no phase. One line says it of all of them: {', '.join(get_args(Phase))}."
        yield "# phase otherwise: existing"
    yield from _names(draft, "uses", USES, sorted(get_args(Use)))
    yield from _names(draft, "materials", MATERIALS, sorted({word for _, word in KNOWN}))


def _recognized(sheet: RecognizedSheet) -> Iterator[str]:
    """Yield the unit and layers that a drawn plan was read by, and what a person may confirm of it."""
    yield ""
    yield from (f"{key}: {scalar(text)}" for key, text in sheet.said.items())
    read = "scale at which" if sheet.on_paper else "unit in which"
    told = f"The {read} it was read ({plain(sheet.unit_told)}), and the layers taken for walls, doors and windows."
    yield from (f"# {row}" for row in wrap(f"{told} Change what is wrong.", 114))
    if not sheet.on_paper:
        yield f"drawing unit: {sheet.unit}" if sheet.unit else f"# drawing unit:   # one of {', '.join(get_args(Unit))}"
    yield "layers:"
    for key, names in sheet.layers.items():
        yield f"  {key}: [{', '.join(json.dumps(plain(name), ensure_ascii=False) for name in names)}]"
    for row in wrap(", ".join(map(plain, sheet.other_layers)), 108):
        yield f"#   not taken: {row}"
    if sheet.things:
        yield ""
        yield "# Lay the picture (--picture) beside the drawing. Take the # away before what is right in it."
        yield "confirmed:"
        for one in sheet.things:
            mark, why = "" if one.state == "confirmed" else "#", f"{one.grade}: {one.why}" if one.grade else one.why
            yield f"{mark}  {scalar(one.id)}: {one.told}  # {plain(why)}"


def _names(draft: Draft, key: str, guesses: tuple[tuple[str, str], ...], words: list[str]) -> Iterator[str]:
    names = sorted(draft.unsaid[key])
    if not names:
        return
    guessed = {name: meant for name in names if (meant := _guess(name, guesses))}
    yield ""
    yield f"# One of: {', '.join(words)}"
    yield f"{key}:" if guessed else f"# {key}:"
    for name in names:
        known = guessed.get(name)
        yield f"  {scalar(name)}: {known}  # taken from the word; look it over" if known else f"#  {scalar(name)}:"


def _guess(name: str, guesses: tuple[tuple[str, str], ...]) -> str:
    lowered = name.lower()
    found = {meant for like, meant in guesses if re.search(rf"(?:^|[^\w])(?:{like})", lowered)}
    return found.pop() if len(found) == 1 else ""


__all__ = ["begun_mapping"]
