"""The numbered marks that tie a part on a drawing to the list: told apart by shape, number and name before color."""

from __future__ import annotations

from html import escape
from typing import NamedTuple

from precheck.checks import Outcome
from precheck.reports.groups import LABELS
from precheck.reports.worklist import Item


class Mark(NamedTuple):
    """One item of the list, as marked on a drawing. `href` is where the item stands on the page."""

    number: int
    outcome: Outcome
    name: str
    href: str


SHAPES = {
    Outcome.ERROR: "M-11 -11 L11 -11 L11 11 L-11 11 Z",
    Outcome.FAIL: "M-11 -11 L11 -11 L11 11 L-11 11 Z",
    Outcome.NOT_SHOWN: "M-11.5 0 A11.5 11.5 0 1 0 11.5 0 A11.5 11.5 0 1 0 -11.5 0 Z",
    Outcome.WARN: "M0 -14 L14 0 L0 14 L-14 0 Z",
}
"""A filled square to fix, a broken circle for what is not shown, a diamond to ask or review."""


def mark_of(item: Item, prefix: str) -> Mark:
    """Return the mark of `item` on the page whose ids begin with `prefix`."""
    return Mark(
        item.number, item.outcome, f"{LABELS[item.outcome]} {item.number}: {item.label}", f"#{prefix}item-{item.number}"
    )


def kind_of(outcome: Outcome) -> str:
    """Return the style of an outcome."""
    return outcome.word.replace(" ", "-")


def shape(outcome: Outcome, number: int | str) -> str:
    """Return the mark alone, centered on 0,0."""
    return (
        f'<path class="sign" d="{SHAPES[outcome]}"/>'
        f'<text class="number" x="0" y="4.5" text-anchor="middle">{number}</text>'
    )


def badge(mark: Mark, x: float, y: float) -> str:
    """Return the mark as a link to its item."""
    name = escape(mark.name[:200])
    return (
        f'<a class="badge {kind_of(mark.outcome)}" href="{escape(mark.href)}" aria-label="{name}">'
        f'<g transform="translate({x:.2f} {y:.2f})"><title>{name}</title>{shape(mark.outcome, mark.number)}</g></a>'
    )


def worst(marks: tuple[Mark, ...]) -> str:
    """Return the style of the part that carries `marks`."""
    return kind_of(min(mark.outcome for mark in marks)) if marks else "plain"
