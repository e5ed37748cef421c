"""The town of a job by its name, as a person writes it: ``Linden Ford``, ``Ankeny IA``; its state where it has no ruleset."""

from __future__ import annotations

from collections.abc import Collection

from precheck.board.typed import MeantError
from precheck.rulesets import slug

STATES = {
    "al": "alabama", "ak": "alaska", "az": "arizona", "ar": "arkansas", "ca": "california", "co": "colorado",
    "ct": "connecticut", "de": "delaware", "fl": "florida", "ga": "georgia", "hi": "hawaii", "id": "idaho", "il": "illinois",
    "in": "indiana", "ia": "iowa", "ks": "kansas", "ky": "kentucky", "la": "louisiana", "me": "maine", "md": "maryland",
    "ma": "massachusetts", "mi": "michigan", "mn": "minnesota", "ms": "mississippi", "mo": "missouri", "mt": "montana",
    "ne": "nebraska", "nv": "nevada", "nh": "new-hampshire", "nj": "new-jersey", "nm": "new-mexico", "ny": "new-york",
    "nc": "north-carolina", "nd": "north-dakota", "oh": "ohio", "ok": "oklahoma", "or": "oregon", "pa": "pennsylvania",
    "ri": "rhode-island", "sc": "south-carolina", "sd": "south-dakota", "tn": "tennessee", "tx": "texas", "ut": "utah",
    "vt": "vermont", "va": "virginia", "wa": "washington", "wv": "west-virginia", "wi": "wisconsin", "wy": "wyoming",
}  # fmt: skip


def called(place: str) -> str:
    """Return a place as people write it, from the name that its ruleset is kept under: ``City of Linden Ford``."""
    return " ".join(word if word == "of" else word.capitalize() for word in place.split("-"))


def ruleset_of(text: str, known: Collection[str]) -> str:
    """Return the name of the ruleset of the place that `text` names in full.

    Raises `MeantError` where it is a part of such names, or names a town of a state that has a ruleset, and ValueError
    where nothing is known of it.
    """
    whole = slug(text)
    if whole in known:
        return whole
    words = _words(whole)
    meant = [place for place in known if words and words <= set(place.split("-"))]
    if meant:
        raise MeantError(text, tuple(map(called, meant)))
    state = _state(whole)
    if state in known:
        told = (
            f"Nothing is kept here of what {text.strip()} itself requires. {called(state)} has a ruleset: "
            "press Enter to take it, and ask the town what it amends."
        )
        raise MeantError(text, (called(state),), told)
    raise ValueError(
        f"Nothing is kept here of `{text.strip()}`, nor of its state. Leave the town empty, and choose the code that it uses; "
        "what the town amends is then not in it"
    )


def _words(whole: str) -> set[str]:
    """Return the words of a name, with the state in full where it ends in its two letters."""
    *town, last = whole.split("-")
    return {*town, *(STATES[last].split("-") if town and last in STATES else [last])} - {""}


def _state(whole: str) -> str:
    """Return the state that a name ends in; nothing where it ends in none."""
    last = whole.rpartition("-")[2]
    return next((state for letters, state in STATES.items() if last == letters or whole.endswith(f"-{state}")), "")
