"""The model or drawing that a project is drawn from, and where its plan lies in it."""

from typing import Annotated

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.units import Angle, Length


class DesignFile(Record):
    """The design file that the project is drawn from, as an import writes it.

    `file` is its name, looked for beside the project file; `global id` that of the project in it, which a model keeps between
    exports. The plan's [0, 0] lies at `origin` of the file's own coordinates, the project's zero level at `datum`; the plan
    is `turned` against them, counterclockwise. `worked out` names fields that the import worked out from the same lines
    and floors as what else it wrote, so that the one says nothing for the other.
    """

    kind = "design file"
    file: str = ""
    form: str = ""
    global_id: str = ""
    origin: Maybe[tuple[Length, Length]] = NOT_GIVEN
    datum: Maybe[Length] = NOT_GIVEN
    worked_out: tuple[str, ...] = ()
    turned: Maybe[Annotated[Angle, Between("-360 deg", "360 deg")]] = NOT_GIVEN


__all__ = ["DesignFile"]
