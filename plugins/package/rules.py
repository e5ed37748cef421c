"""The package: sheets, cover, site plan, scale and paper, forms, phases, room uses, notes, and resubmittals."""

from __future__ import annotations

import re
from typing import Any

from precheck_plugins.package.sheets import (
    DrawnPart,
    NoteText,
    SheetsOfParts,
    lacking,
    lacking_on,
    live,
    sheets_with,
    wanted_for,
)

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Part,
    Project,
    Sheet,
    Slope,
    Space,
    Works,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

DECIDES = r"\s*[:(]?\s*(?:section|sec\.|table|sheet|detail|[a-z]?\d)"  # what follows a reference that does decide


def judged(what: str, missing: list[str], limit: Limit[Any], absences: list[Missing]) -> Check:
    """Return the check that nothing of a list is lacking: of the office's own one, or else of what is commonly asked."""
    if limit.advised:
        told = f"{what}: offices commonly want {', '.join(missing)}"
        done = met(f"{what} complete by the common list; the office may want more")
        return look_at(Look.PRACTICE, told).or_fix(f"add {', '.join(missing)}") if missing else done
    return not_shown(*absences) if missing else met(f"{what} complete")


class SheetLimits(Limits):
    common: Limit[Any]
    wanted: Limit[Any]
    framing_plan: Limit[tuple[str, ...]] = reads("package.framing-plan.works")
    window_schedule: Limit[tuple[str, ...]] = reads("package.window-schedule.works")


@rule("package.sheets", stage="intake")
def sheets(project: Project, limit: SheetLimits, house: House) -> Check:
    """The set holds the sheets that the office lists: some always, more for stairs, structure and conversions.

    Plans, elevations and sections that the work itself takes are lines of that work.
    """
    own = _list_of(limit.common, limit.wanted)
    missing = lacking(wanted_for(own.value or (), house), project)
    if own.advised:
        missing = [item for item in missing if item not in _taken(limit, house)]
    if own.advised and not missing and not live(project):
        return does_not_apply("no sheets are listed, and the works say which they take")
    return judged("sheets", missing, own, [project.absent(item) for item in missing]).citing(own)


def _taken(limit: SheetLimits, house: House) -> list[str]:
    """Return the sheets that the works themselves take and ask for."""
    lines = {"framing plan": limit.framing_plan, "door and window schedule": limit.window_schedule}
    return [item for item, due in lines.items() if Works.of(house).of_kinds(*(due.value or ()))]


def _list_of(common: Limit[Any], wanted: Limit[Any]) -> Limit[Any]:
    """Return the limit with the office's own list, or with the common one where the office has none."""
    return common if is_missing(wanted.value) or wanted.value is None else wanted


class CoverLimits(Limits):
    common: Limit[Any]
    wanted: Limit[Any]


@rule("package.cover", stage="intake")
def cover(project: Project, limit: CoverLimits, house: House) -> Check:
    """The cover, or the first sheet, says where the work is, what it is, under which code, how large, and lists the sheets."""
    own = _list_of(limit.common, limit.wanted)
    first = sheets_with("cover sheet", project) or live(project)[:1]
    if own.advised and not first:
        return does_not_apply("no sheets are listed")
    missing = lacking_on(first, wanted_for(own.value or (), house), project)
    return judged("cover sheet", missing, own, [project.absent(f"{item} (cover sheet)") for item in missing])


class SitePlanLimits(Limits):
    common: Limit[Any]
    wanted: Limit[Any]


@rule("package.site-plan", stage="intake")
def site_plan(project: Project, limit: SitePlanLimits, house: House) -> Check:
    """The site plan, where the set has one, shows what the office wants on it; other sheets do not show it there."""
    plans = sheets_with("site plan", project)
    if not plans:
        return does_not_apply("the set has no site plan; the works and the list of sheets say whether it takes one")
    own = _list_of(limit.common, limit.wanted)
    missing = lacking_on(plans, wanted_for(own.value or (), house), project)
    return judged("site plan", missing, own, [project.absent(f"{item} (site plan)") for item in missing])


class FormLimits(Limits):
    common: Limit[Any]
    wanted: Limit[Any]


@rule("package.forms", stage="intake")
def forms(project: Project, limit: FormLimits, house: House) -> Check:
    """The forms that the office wants go in with the drawings."""
    own = _list_of(limit.common, limit.wanted)
    given = () if is_missing(project.submittal) else [form.lower() for form in project.submittal.forms]
    missing = [f for f in wanted_for(own.value or (), house) if not any(f.lower() in text for text in given)]
    return judged("forms", missing, own, [project.absent(f"{form} (forms of the submittal)") for form in missing])


class ScaleLimits(Limits):
    accepted: Limit[tuple[Slope, ...]]
    minimum_plan: Limit[Slope]
    minimum_site_plan: Limit[Slope]
    given: Limit[bool]


@rule("package.scale", stage="intake")
def scale(sheet: Sheet, limit: ScaleLimits) -> Check:
    """Plans, sections and elevations note their scale, and it is large enough to read."""
    title = sheet.title.lower()
    site = any(word in title for word in ("site", "plot"))
    if not site and not any(word in title for word in ("plan", "section", "elevation", "detail")):
        return does_not_apply("no drawing to scale")
    if is_missing(sheet.scale):
        return required(sheet.scale, limit.given)
    smallest = limit.minimum_site_plan if site else limit.minimum_plan
    taken = does_not_apply("a site plan") if site else one_of(sheet.scale, limit.accepted)
    return all_of(_asked(smallest, at_least(sheet.scale, smallest)), taken)


class PaperLimits(Limits):
    minimum_side: Limit[Length]
    maximum_side: Limit[Length]


@rule("package.paper", stage="intake")
def paper(sheet: Sheet, limit: PaperLimits) -> Check:
    """The sheet size is one that the office takes."""
    if is_missing(sheet.paper):
        return does_not_apply("the size of the paper is not given")
    short, long_ = sorted(sheet.paper)
    return all_of(
        _asked(limit.minimum_side, at_least(short, limit.minimum_side)),
        _asked(limit.maximum_side, at_most(long_, limit.maximum_side)),
    )


class TextLimits(Limits):
    minimum: Limit[Length]


@rule("package.text-height", stage="intake")
def text_height(sheet: Sheet, limit: TextLimits) -> Check:
    """The smallest lettering of a sheet can be read on a copy."""
    if is_missing(sheet.text_height):
        return does_not_apply("the height of the letters is not given")
    return _asked(limit.minimum, at_least(sheet.text_height, limit.minimum))


class MirrorLimits(Limits):
    mirrored: Limit[int]


@rule("package.mirrored", stage="intake")
def mirrored(sheet: Sheet, limit: MirrorLimits) -> Check:
    """No sheet is printed in reverse of what is to be built."""
    if is_missing(sheet.mirrored):
        return does_not_apply("nothing says that the sheet is mirrored")
    told = "mirrored" if sheet.mirrored else "drawn as it is built"
    return at_most(int(sheet.mirrored), limit.mirrored, told).or_fix("draw the sheet as it is to be built")


def _asked(limit: Limit[Any], check: Check) -> Check:
    return met("given; the office sets no limit") if is_missing(limit.value) else check


class OnSheetLimits(Limits):
    shown: Limit[bool]


@rule("package.on-sheet", stage="intake", existing="must comply")
def on_sheet(drawn: SheetsOfParts, limit: OnSheetLimits, house: House) -> Check:
    """Each part of the work says which sheet shows it, and that sheet is in the list.

    Parts of the work that name no sheet are told of once, together.
    """
    known = house.once(_sheet_ids)
    if not known:
        return does_not_apply("the set has no list of sheets")
    lost = [sheet for sheet in drawn.named if sheet not in known]
    if lost:
        return broken(f"it is said to be on {', '.join(lost)}, which the list of sheets lacks").or_fix(
            "add the sheet to the list, or name the one that shows it"
        )
    return required(bool(drawn.named), limit.shown, lambda: f"no sheet is named for {_some(drawn.parts)}").or_fix(
        lambda: f"say which sheet shows {_some(drawn.parts)}", decide="what is there"
    )


def _sheet_ids(house: House) -> frozenset[str]:
    return frozenset(sheet.id for sheet in live(house.project))


def _some(parts: tuple[Part, ...]) -> str:
    """Return the first parts by name, and how many there are besides."""
    told, more = ", ".join(part.label for part in parts[:3]), len(parts) - 3
    return f"{told} and {more} more" if more > 0 else told


class PhaseLimits(Limits):
    marked: Limit[bool]


@rule("package.phase", stage="intake", existing="must comply")
def phase(drawing: DrawnPart, limit: PhaseLimits) -> Check:
    """Each part is marked existing, new, altered or removed, so that a reviewer sees what the work is."""
    return required(when_given(lambda _: True, drawing.part.phase), limit.marked)


class UseLimits(Limits):
    labeled: Limit[bool]


@rule("package.room-use", stage="intake", existing="must comply")
def room_use(space: Space, limit: UseLimits) -> Check:
    """Each room is labeled with its use, which decides what it needs."""
    return required(when_given(lambda _: True, space.use), limit.labeled)


class NoteLimits(Limits):
    undecided: Limit[tuple[str, ...]]


@rule("package.notes", stage="intake", existing="must comply")
def notes(text: NoteText, limit: NoteLimits) -> Check:
    """Notes give a size, a product, a section or a firm, and not "per code" alone."""
    found = [words for words in limit.undecided.value or () if undecided(words, text.words)]
    if not found:
        return met("it leaves nothing open")
    told = f"`{'`, `'.join(found)}` is no callout: {text.words}"
    look = look_at(Look.PRACTICE, told) if limit.undecided.advised else broken(told)
    return look.or_fix("give the size, the product, the section or the firm")


def undecided(words: str, text: str) -> bool:
    """Return whether `text` holds `words` with nothing after them that settles what is meant."""
    return re.search(rf"\b{re.escape(words)}\b(?!{DECIDES})", text, re.IGNORECASE) is not None


class ResubmittalLimits(Limits):
    response_letter: Limit[bool]
    clouded: Limit[bool]
    complete_set: Limit[bool]
    unanswered: Limit[int]


@rule("package.resubmittal", stage="intake")
def resubmittal(project: Project, limit: ResubmittalLimits) -> Check:
    """After a correction letter: a written response to each comment, clouded changes, and the whole set again."""
    back = project.submittal
    if is_missing(back) or is_missing(back.comments) or back.comments == 0:
        return does_not_apply("there are no review comments to answer")
    left: int | Missing = when_given(lambda asked, answered: asked - answered, back.comments, back.comments_answered)
    return all_of(
        at_most(left, limit.unanswered, lambda: f"{back.comments} comments, {back.comments_answered} answered"),
        required(back.response_letter, limit.response_letter),
        required(back.changes_clouded, limit.clouded),
        required(back.complete_set, limit.complete_set),
    )
