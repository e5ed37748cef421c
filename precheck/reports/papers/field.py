"""The field-verify sheet: what to measure and photograph in the existing house before anybody draws on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from precheck.checks import Outcome
from precheck.checks.evidence import NOT_SHOWN, evidence_of
from precheck.files.missing import Need, is_missing
from precheck.project import Dwelling, Lot, Part, Space
from precheck.questions.question import Question, Questions
from precheck.reports.content import titled
from precheck.reports.papers.marks import foot, head, plain
from precheck.reports.wanted import Wanted
from precheck.review.finding import Finding, Review
from precheck.survey import part_of

HOUSE = "The house as a whole"
YES_OR_NO = "yes or no"
ToMeasure = dict[str, dict[Need, list[Finding]]]
Confirmed = dict[str, list[str]]
USUAL = {
    "garage": (
        "slab: thickness at an edge, fall toward the vehicle opening, cracks, damp",
        "footing and stem wall under the vehicle opening",
        "header over the vehicle opening: size, span, bearing at each end; width of wall left on each side",
        "plate height: slab to the underside of the framing above, at all four corners",
        "framing above: joists or trusses, size, spacing, span, grade stamp; truss tags",
        "step at the door to the house: slab to finished floor",
        "water heater and furnace here: fuel, input rating on the plate, where their air comes from",
    ),
    "carport": (
        "posts: size, spacing, bases, what ties them to the roof",
        "under the slab edge and the posts: whether there is a continuous footing, and how deep",
        "each post and the roof edge to the lot lines",
        "roof framing: size, spacing, span, grade stamp; ceiling and roof deck materials",
        "step at the door to the house: slab to finished floor",
    ),
    "attic": (
        "trusses or joists and rafters; truss tags; size, spacing, span, grade stamp of the joists",
        "what the joists bear on: walls or beams below",
        "clear height under the ridge, and how wide it is where a person can stand",
        "the way up: size of the hatch or opening",
        "insulation: kind and depth; ducts, wiring and vents in the way",
    ),
}
"""What a plan of such work nearly always needs from the house as it stands."""


def render(review: Review, to_find_out: Collection[str] = ()) -> str:
    """Return the field-verify sheet of one project; `to_find_out` are the values that a person has yet to find out."""
    return "\n".join([*_lines(review, to_find_out), *foot()]) + "\n"


def is_there_now(part: Part) -> bool:
    """Return whether the drawings say that some of `part` stands today."""
    turned = isinstance(part, Space) and not is_missing(part.was)
    return part.phase in ("existing", "altered") or turned


def _lines(review: Review, to_find_out: Collection[str]) -> Iterator[str]:
    yield from head("Field verify (V.I.F.)", review)
    questions = Questions(review.project)
    usual = {label: USUAL[what] for what, label in _worked_on_at_once(review.project.spaces).items()}
    wanted, stated = _wanted(review, questions), _to_confirm(review)
    if not wanted and not stated and not usual and not to_find_out:
        yield "Nothing to verify in the field. Mark existing work as `phase: existing`."
    yield "Measure to the finished surface unless the line says otherwise; write the unit with each number."
    for label in dict.fromkeys((*usual, *wanted, *stated)):
        yield ""
        yield f"## {plain(label)}"
        yield ""
        for line in usual.get(label, ()):
            yield f"- [ ] {plain(line)}: ____________"
        for need, findings in wanted.get(label, {}).items():
            yield from _measure(need, questions.question(need), findings)
        for line in stated.get(label, ()):
            yield f"- [ ] Confirm on site: {plain(line)}"
        yield f"- [ ] Photograph {plain(label.replace(HOUSE, HOUSE.lower()))}: whole, then with the tape in it. Photo no. ______"
    yield from _to_find_out(need for need in to_find_out if need in _open(review) and need not in _listed(wanted))


def _open(review: Review) -> frozenset[str]:
    return frozenset(str(need) for finding in review.findings for need in finding.check.needs)


def _listed(wanted: ToMeasure) -> frozenset[str]:
    return frozenset(str(need) for needs in wanted.values() for need in needs)


def _to_find_out(needs: Iterable[str]) -> Iterator[str]:
    lines = [f"- [ ] {plain(need)}: ____________" for need in needs]
    if lines:
        yield from ("", "## To find out", "", *lines)


def _wanted(review: Review, questions: Questions) -> ToMeasure:
    """Return, by what stands today, the values that the checks wait for."""
    found: ToMeasure = {}
    for finding in review.findings:
        if finding.outcome not in (Outcome.NOT_SHOWN, Outcome.WARN, Outcome.FAIL):
            continue
        for need in finding.check.needs:
            if label := _stands(questions, need):
                found.setdefault(label, {}).setdefault(need, []).append(finding)
    return found


def _stands(questions: Questions, need: Need) -> str:
    """Return what the sheet calls the owner of a value, where the value can be taken from what stands today."""
    owner = questions.owner(need)
    part = part_of(owner) if owner is not None else None
    if part is None:
        return HOUSE if isinstance(owner, Dwelling | Lot) else ""
    if part.phase == "existing":
        return titled(part)
    question = questions.question(need)  # of a part that is altered only what can be measured is there already
    return titled(part) if is_there_now(part) and question is not None and "unit" in question.form else ""


def _worked_on_at_once(spaces: Iterable[Space]) -> dict[str, str]:
    """Return what stands today and is worked on, with the spaces that it is or becomes: it is measured once."""
    found: dict[str, list[Space]] = {}
    for space in spaces:
        if what := _worked_on(space):
            found.setdefault(what, []).append(space)
    return {
        what: titled(ones[0]) if len(ones) == 1 else f"{what}: {', '.join(one.label for one in ones)}"
        for what, ones in found.items()
    }


def _worked_on(space: Space) -> str:
    """Return what stands today where `space` is to be: a garage, a carport, an attic, or nothing to tell."""
    if space.is_removed or space.is_existing or not is_there_now(space):
        return ""
    was = space.use if is_missing(space.was) else space.was
    return was if isinstance(was, str) and was in USUAL else ""


def _to_confirm(review: Review) -> Confirmed:
    """Return, by part, what is stated of the existing house and decides a finding: it had better be measured twice."""
    found: Confirmed = {}
    for finding in review.findings:
        part = part_of(finding.subject)
        if part is None or part.phase != "existing" or finding.outcome not in (Outcome.FAIL, Outcome.WARN):
            continue
        for e in evidence_of(finding.check):
            if e.outcome in (Outcome.FAIL, Outcome.WARN) and e.measured != NOT_SHOWN:
                found.setdefault(titled(part), []).append(f"{e.what}: {e.measured} as stated, {e.asked}")
    return found


def _measure(need: Need, question: Question | None, findings: list[Finding]) -> Iterator[str]:
    form = f" ({plain(_form(question))})" if question and question.example else ""
    why = "; ".join(dict.fromkeys(finding.rule.summary.rstrip(".") for finding in findings))
    yield f"- [ ] {plain(Wanted((need,), ()).text_for(need.owner))}: ____________{form}. Why: {plain(why)}."


def _form(question: Question) -> str:
    """Return how a value is written down, with an example where the form does not list what there is to say."""
    return question.form if question.form == YES_OR_NO else f"{question.form}, such as {question.example}"
