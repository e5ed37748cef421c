"""What an editor completes in ruleset files: names of limits, rules, editions, criteria; what a check looks at; a limit's keys."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, get_args

from precheck.checks import Outcome
from precheck.cli.schema_texts import editor_schema
from precheck.project import DesignCriteria
from precheck.rulesets import CRITERIA
from precheck.rulesets.entry import BASES
from precheck.rulesets.limit import Asked, Kind, Sense
from precheck.rulesets.quantity import names_of_house
from precheck.rulesets.takes import KINDS as WORKS
from precheck.rulesets.vocabulary import Vocabulary

A_NAME = {"type": "string", "pattern": r"^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)+$"}
A_PART_OF_CODE = {"type": "string", "pattern": r"^(section|chapter|chapters|topic) +\S.*$"}


def complete_adoption(
    schema: dict[str, Any], words: Vocabulary, limits: Iterable[str], rules: Iterable[str], editions: Iterable[str]
) -> None:
    """Let an editor complete an adoption: names there are, which may be others where a parent or a plugin adds them."""
    names = sorted(limits)
    definitions = schema["$defs"]
    definitions["LimitName"] = {"anyOf": [{"enum": names}, A_NAME]}
    name, amendment = {"$ref": "#/$defs/LimitName"}, definitions["Amendment"]["properties"]
    _put(amendment, "amend", name)
    _put(amendment, "add", A_NAME)
    _put(amendment, "delete", {"anyOf": [name, A_PART_OF_CODE]})
    _put(amendment, "lock", {"anyOf": [name, A_PART_OF_CODE, {"const": "whole code"}]})
    case = definitions["RulesetCase"]["properties"]
    _put(case, "rule", {"anyOf": [{"enum": sorted(rules)}, A_NAME]})
    _put(case, "expect", {"enum": [*(outcome.word for outcome in Outcome), "nothing"]})
    _put(schema["properties"], "adopts", {"anyOf": [{"enum": sorted(editions)}, {"type": "string"}]})
    keys = [one.removeprefix(f"{CRITERIA}.").replace("-", " ") for one in names if one.startswith(f"{CRITERIA}.")]
    schema["properties"]["design criteria"] |= {
        "properties": _criteria(keys, definitions),
        "additionalProperties": False,
    }
    _complete_checks(definitions, words)


def _put(properties: dict[str, Any], key: str, schema: dict[str, Any]) -> None:
    """Put `schema` in the place of that of a key, whose text stays."""
    text = properties[key].get("description")
    properties[key] = {**schema, "description": text} if text else dict(schema)


def _criteria(keys: list[str], definitions: dict[str, Any]) -> dict[str, Any]:
    """Return the design criteria of an edition, each as the title sheet of a project states it, where that has it."""
    stated = editor_schema(DesignCriteria)["properties"]
    fallback = {"type": ["string", "number"]}
    return {
        key: {"anyOf": [*_choices(stated.get(key, {})), fallback], "description": f"{key.capitalize()}."}
        for key in keys
    }


def _choices(schema: dict[str, Any]) -> list[dict[str, Any]]:
    return [{"enum": way["enum"]} for way in (schema, *schema.get("anyOf", ())) if "enum" in way]


def _complete_checks(definitions: dict[str, Any], words: Vocabulary) -> None:
    """Let an editor complete what an added requirement looks at: the kinds of part, and for each what it can measure."""
    kinds = words.parts
    of_house = frozenset(names_of_house())
    definitions["OfTheHouse"] = {"enum": sorted(of_house)}
    check, amendment = definitions["CheckBlock"], definitions["Amendment"]
    check["properties"]["part"]["enum"] = list(kinds)
    _put(amendment["properties"], "part", {"enum": list(kinds)})
    check["allOf"], amendment["allOf"] = [], []
    for kind, model in kinds.items():
        own = f"LookedAtOf-{kind.replace(' ', '-')}"
        definitions[own] = _looked_at(sorted({*words.names(model)} - of_house), words.patterns(model))
        known = {"$ref": f"#/$defs/{own}"}
        when = {"propertyNames": {"anyOf": [known, {"const": "any of"}]}}
        check["allOf"].append(_of_kind(kind, {"measure": known, "share of": known, "when": when}))
        amendment["allOf"].append(_of_kind(kind, {"where": when}))


def _looked_at(own: list[str], patterns: list[str]) -> dict[str, Any]:
    """Return what can be looked at in a kind of part: what is its `own`, or of the house, or leads through two parts."""
    through = [{"type": "string", "pattern": pattern} for pattern in (" of .+ of ", *patterns)]
    return {"anyOf": [{"enum": own}, {"$ref": "#/$defs/OfTheHouse"}, *through]}


def _of_kind(kind: str, properties: dict[str, Any]) -> dict[str, Any]:
    of_kind = {"properties": {"part": {"const": kind}}, "required": ["part"]}
    return {"if": of_kind, "then": {"properties": properties}}


_A_VALUE = {"description": "A measure with its unit, a whole number, a word, a list, a table, `required`, `not required`, "
                           "`void`, `set locally`."}  # fmt: skip
_LINE: dict[str, Any] = {
    "value": _A_VALUE,
    "rows": {"type": "object", "description": "The rows of a table that this edition changes."},
    "plus": {"type": "array", "description": "The choices of a list that this edition adds."},
    "less": {"type": "array", "description": "The choices of a list that this edition drops."},
    "metric": {"type": "string", "description": "The metric figure that the code prints beside the value."},
    "section": {"type": "string", "description": "The section, as numbered in this edition."},
    "note": {"type": "string", "description": "What a reader of the code should know of the number."},
    **{key: {"type": "string", "description": f"The source, by its short name, of a value that is {basis}."}
       for key, basis in BASES.items()},
}  # fmt: skip
_ONCE: dict[str, Any] = {
    "measures": {"type": "string", "description": "What a plan reviewer calls what is measured."},
    "sense": {
        "enum": [one for one in get_args(Sense) if one],
        "description": "How what is measured stands to the value.",
    },
    "kind": {
        "enum": [one for one in get_args(Kind) if one],
        "description": "What kind of value it is, where none is given.",
    },
    "force": {"enum": ["shall", "advise"], "description": "`advise` is good practice, which warns and never fails."},
    "tolerance": {"type": "string", "description": "What passes by less than this is worth a look."},
}
_OF_WORKS: dict[str, Any] = {
    "line": {"type": "string", "description": "What the work takes, as a reviewer would list it."},
    "works": {"type": "array", "items": {"enum": list(WORKS)}, "description": "The works that take it."},
    "show on": {"type": "string", "description": "The sheet on which one looks for it."},
    "asked": {"enum": list(get_args(Asked)), "description": "How soon an office asks for it."},
    "firm": {"enum": ["yes", "no", True, False], "description": "Whether it cannot be ruled out where it is due."},
    "not checked": {"type": "string", "description": "Why nothing here can tell whether it is shown."},
}


def complete_topic(schema: dict[str, Any], editions: Iterable[str]) -> None:
    """Let an editor complete a topic file: the keys of a limit and of a line, and those of an edition below them."""
    labels = "|".join(sorted(editions))
    definitions = schema.setdefault("$defs", {})
    for name, own in (("Limit", _ONCE), ("Line", _ONCE | _OF_WORKS)):
        below = _LINE | ({"works": _OF_WORKS["works"]} if name == "Line" else {})
        definitions[f"{name}InEdition"] = {"type": "object", "properties": below, "additionalProperties": False}
        definitions[name] = {
            "type": "object", "properties": own | _LINE, "additionalProperties": False,
            "patternProperties": {f"^({labels})$": {"$ref": f"#/$defs/{name}InEdition"}},
        }  # fmt: skip
    limits = {"type": "object", "additionalProperties": {"$ref": "#/$defs/Limit"}}
    schema["properties"]["limits"] |= {"additionalProperties": limits}
    schema["properties"]["takes"] |= {"propertyNames": A_NAME, "additionalProperties": {"$ref": "#/$defs/Line"}}
