"""The design of a member as drawn: section, lumber and use, checked under every combination of its loads.

`design_of` gives the checks, what is missing for them, or raises OutsideMethodError for what an engineer decides.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import Any

from precheck_plugins.framing.drawn.load_cases import LoadCase, all_hold, cases_of
from precheck_plugins.framing.drawn.load_path import loading_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.setting import Setting
from precheck_plugins.framing.drawn.wood import bent_member, sisters_of
from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.lumber import DesignValues
from precheck_plugins.framing.timber.sections import CrossSection
from precheck_plugins.framing.timber.steps import Step

from precheck import Member, Missing, fixed, given, is_missing, missing_of

STRENGTH = ("bending", "shear")


@fixed
class Design:
    """A member with its loads and the checks under every combination."""

    drawn: Member
    bent: SizedMember
    sisters: tuple[SizedMember, ...]
    sound: tuple[bool, ...]
    loading: Loading

    @cached_property
    def cases(self) -> tuple[LoadCase, ...]:
        """The member under every combination and pattern of its loads."""
        return cases_of(self.bent, self.sisters, self.sound, self.loading)

    def worst(self, *what: str) -> tuple[LoadCase, DemandCapacity] | None:
        """The case and comparison with the greatest demand over capacity among those whose name starts so."""
        found = [(case, c) for case in self.cases for c in case.comparisons if c.what.startswith(what)]
        return max(found, key=lambda pair: pair[1].ratio, default=None)

    def bearing_in(self, support: int) -> float:
        """The bearing length that the greatest reaction of a support needs, in; supports count from 0."""
        return max(case.bearings_needed_in[min(support, len(case.bearings_needed_in) - 1)] for case in self.cases)

    def passes(self) -> bool:
        """Whether strength and deflection pass under every combination; the first that does not answers."""
        return all_hold(self.bent, self.sisters, self.sound, self.loading)

    def steps(self, case: LoadCase) -> tuple[Step, ...]:
        """The calculation of one case in order: loads, section, values, comparisons."""
        return (*self.loading.steps(), *case.written())

    def tried(self, section: CrossSection, values: DesignValues) -> Design:
        """The same loads on another section."""
        bent, loading = replace(self.bent, section=section, values=values), self.loading
        if loading.own is not None:
            times = section.area_in2 / self.bent.section.area_in2
            loading = replace(loading, own=replace(loading.own, value=loading.own.value * times))
        return replace(self, bent=bent, loading=loading)

    def used_otherwise(self, use: Conditions) -> Design:
        """The same member used in another way."""
        return replace(self, bent=replace(self.bent, use=use))

    def loaded_on_top(self) -> Design:
        """The same member with its loads on top, where the drawings do not say whether they hang on its side."""
        return replace(self, loading=replace(self.loading, hung=False))

    @property
    def is_of_a_table(self) -> bool:
        """Whether it is what span tables are made of: a repeated member on a simple span under even load."""
        return self.drawn.is_repeated and not self.sisters and self.loading.is_even

    def shorter(self, by_in: float) -> Design:
        """The same member on a span that is a little shorter."""
        return replace(self, loading=self.loading.shorter(by_in))

    def weightless(self) -> Design:
        """The same member without its own weight."""
        return replace(self, loading=replace(self.loading, own=None))

    def loaded(self, share: float) -> Design:
        """The same member under a share of its loads."""
        return replace(self, loading=self.loading.scaled(share))


def design_of(member: Member, setting: Setting) -> Design | Missing:
    """Return the design of a member as drawn, or what is missing for it. Raises OutsideMethodError."""
    loading, bent = loading_of(member, setting), bent_member(member, setting)
    beside, sound = sisters_of(member, setting), _sound(member)
    absent = missing_of(*beside, *sound)
    found = given(loading, bent, () if absent is None else absent)
    if is_missing(found):
        return found
    loading, bent, _ = found
    if loading.span_in <= 0 or not any(piece.amount for piece in loading.pieces):
        return member.absent("carries")
    design = Design(member, bent, tuple(beside), tuple(sound), loading)
    assert design.cases  # worked out here, where what the method does not cover is told
    return design


def _sound(member: Member) -> list[Any]:
    if not member.sisters:
        return []
    return [True if member.phase == "new" else member.sound, *(True for _ in member.sisters)]
