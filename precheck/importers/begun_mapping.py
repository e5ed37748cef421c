"""A mapping file begun from what an import did not understand: names of rooms and materials, and the phase, once for all.

What a common word of another language most likely means is filled in for a person to look over; the rest stands in comments.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import get_args

from precheck.importers.draft import Draft, plain
from precheck.importers.materials import KNOWN
from precheck.importers.writing import scalar
from precheck.project.part import Phase
from precheck.project.space import Use

# German, French, Spanish, Italian and Dutch
USES = (
    ("schlaf|chambre|dormitorio|habitaci[oó]n|camera|slaapkamer|kinder|g(?:a|ä|ae)stezimmer", "bedroom"),
    ("wohn|s[eé]jour|salon|sal[oó]n|soggiorno|woonkamer", "living room"), ("ess|salle à manger|comedor|eetkamer", "dining room"),
    ("k(?:u|ü|ue)che|cuisine|cocina|cucina|keuken", "kitchen"), ("bad|salle de bain|baño|bagno", "bathroom"),
    ("wc|toilette|aseo|gabinetto", "toilet room"), ("b(?:u|ü|ue)ro|arbeits|bureau|despacho|studio|kantoor", "office"),
    ("flur|diele|gang|couloir|pasillo|corridoio|vestib|hal$", "hall"),
    ("abstell|lager|d[eé]barras|trastero|ripostiglio|berging|speicher", "storage"),
    ("hauswirtschaft|hwr|waschk|buanderie|lavadero|lavanderia|bijkeuken", "laundry"),
    ("heizung|technik|chaufferie|caldera", "utility"), ("garage|garaje|autorimessa", "garage"),
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
    """Return the text of a mapping file with everything that `draft` did not understand."""
    return "".join(f"{line}\n" for line in _lines(draft))


def _lines(draft: Draft) -> Iterator[str]:
    yield f"# What names in {plain(draft.file)} mean. Look over what is filled in, and fill in the rest or leave it out;"
    yield "# then import or check again with --mapping and this file."
    without = draft.unsaid["phase"]
    if without:
        yield ""
        yield f"# {len(without)} parts give no phase. One line says it of all of them: {', '.join(get_args(Phase))}."
        yield "# phase otherwise: existing"
    yield from _names(draft, "uses", USES, sorted(get_args(Use)))
    yield from _names(draft, "materials", MATERIALS, sorted({word for _, word in KNOWN}))


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
