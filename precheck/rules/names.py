"""Names that are taken: no plugin gets those of ours, nor those of another plugin that was asked before it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from precheck.files.mistakes import nearest, with_article
from precheck.files.record import fields_of, key_of
from precheck.project.project import Project, lists_of_parts
from precheck.rules.offered import DESIGN_FILES, DESIGN_FORMATS, FORMATS, PLOTTED_FILES, Offer

_OURS = "precheck itself"
_RULE_NAME = re.compile(r"[a-z][a-z0-9-]*\.[a-z][a-z0-9-]*")


def not_taken(offer: Offer, others: Iterable[Offer]) -> None:
    """Raise ValueError where a name that `offer` claims is ours, or one of `others`, or stands for nothing."""
    before = tuple(others)
    if offer.plugin in {other.plugin for other in before}:
        raise ValueError(f"the plugin name `{offer.plugin}` is taken; register it under another")
    _rules(offer, before)
    _fields(offer, before)
    if offer.sections:
        sections = {section.key: other.plugin for other in before for section in other.sections}
        sections |= {key_of(Project, field): "the project file itself" for field in fields_of(Project)}
        _free("section", (section.key for section in offer.sections), sections, "key")
    reports = {report.name: other.plugin for other in before for report in other.reports}
    _free(
        "report",
        (one.name for one in offer.reports),
        reports | dict.fromkeys((*FORMATS, *DESIGN_FORMATS), _OURS),
        "name",
    )
    suffixes = {one.suffix.lower(): other.plugin for other in before for one in other.importers}
    suffixes |= dict.fromkeys((".yaml", ".yml", *DESIGN_FILES, *PLOTTED_FILES), _OURS)
    _free("importer of", (one.suffix.lower() for one in offer.importers), suffixes, "ending")


def _free(what: str, names: Iterable[str], taken: dict[str, str], kind: str) -> None:
    for name in names:
        if name in taken:
            raise ValueError(f"the {what} `{name}` is taken by {taken[name]}; choose another {kind}")
        taken[name] = "the plugin itself"


def _rules(offer: Offer, others: tuple[Offer, ...]) -> None:
    taken = {rule.name: other.plugin for other in others for rule in other.rules}
    for name in (rule.name for rule in offer.rules):
        if not _RULE_NAME.fullmatch(name):
            raise ValueError(f"`{name}` is no name of a rule; write `topic.requirement`, in small letters and dashes")
        if name in taken:
            mend = f'choose another, and write `replaces="{name}"` if it takes the place of that rule'
            raise ValueError(f"the rule name `{name}` is taken by {taken[name]}; {mend}")
        taken[name] = "the plugin itself"
    replaced = {rule.replaces: rule.name for other in others for rule in other.rules}
    for rule in offer.rules:
        if rule.replaces and (rule.replaces not in taken or rule.replaces == rule.name):
            raise ValueError(f"`{rule.name}` replaces `{rule.replaces}`, and there is no such rule to replace")
        if rule.replaces and rule.replaces in replaced:
            raise ValueError(
                f"`{rule.replaces}` is replaced by {replaced[rule.replaces]} already; leave one of them out"
            )


def _fields(offer: Offer, others: tuple[Offer, ...]) -> None:
    lists = lists_of_parts() if offer.fields else {}
    for field in offer.fields:
        if field.part not in lists:
            near = nearest(field.part, lists)
            raise ValueError(f"`{field.part}` is no kind of part in a list of the project file{near}")
    for part in dict.fromkeys(field.part for field in offer.fields):
        model = lists[part].model
        taken = {one.key: other.plugin for other in others for one in other.fields if one.part == part}
        taken |= {key_of(model, name): "the project file itself" for name in fields_of(model)}
        _free(f"field of {with_article(part)}", (one.key for one in offer.fields if one.part == part), taken, "key")
