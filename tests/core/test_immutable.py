"""Records that nobody changes do what frozen dataclasses do."""

from __future__ import annotations

import pickle
import subprocess
import sys
from dataclasses import dataclass, field, fields, replace

import pytest

from precheck.immutable import fixed


@fixed
class Board:
    """A board."""

    width: int
    depth: int = 8
    marks: list[str] = field(default_factory=list)
    wet: bool = field(default=False, kw_only=True)


@fixed
class Plank(Board):
    """A board that is longer."""

    length: int = 12


@dataclass(frozen=True)
class Same:
    """What the standard library makes of a plank."""

    width: int
    depth: int = 8
    marks: tuple[str, ...] = ()
    length: int = 12
    wet: bool = field(default=False, kw_only=True)


@fixed
class Nail:
    """A nail."""

    size: str
    note: str = field(default="", compare=False, repr=False)


def test_it_is_made_compared_and_shown_as_a_dataclass_is() -> None:
    assert Board(2) == Board(2, 8, [], wet=False) != Board(2, wet=True)
    assert Board(2) != Plank(2)
    assert Nail("16d") == Nail("16d", "galvanized")
    assert repr(Nail("16d", "galvanized")) == "Nail(size='16d')"
    assert len({Nail("16d"), Nail("16d"), Nail("8d")}) == 2
    assert repr(Plank(2)) == "Plank(width=2, depth=8, marks=[], wet=False, length=12)"
    assert [one.name for one in fields(Plank)] == ["width", "depth", "marks", "wet", "length"]


def test_a_default_that_is_made_is_made_anew() -> None:
    assert Board(2).marks is not Board(2).marks


@pytest.mark.parametrize("arguments", [(), (1, 2, (), 4, 5), (1, 2, (), 4, True)])
def test_what_it_is_not_made_of_is_refused_as_by_a_dataclass(arguments: tuple[int, ...]) -> None:
    for kind in (Plank, Same):
        with pytest.raises(TypeError, match=r"__init__\(\) (takes|missing)"):
            kind(*arguments)


def test_it_cannot_be_changed_but_for_a_copy_with_another_value() -> None:
    board = Board(2)
    with pytest.raises(AttributeError, match="width of Board is frozen"):
        board.width = 3  # type: ignore[misc]
    with pytest.raises(AttributeError):
        del board.width
    assert replace(board, depth=10, wet=True) == Board(2, 10, wet=True)


def test_one_that_comes_from_another_process_before_any_was_made_here_is_the_same() -> None:
    program = (
        "import pickle, sys; one = pickle.load(sys.stdin.buffer)\n"
        "assert one == pickle.loads(pickle.dumps(one)) and hash(one) and repr(one)\n"
        "print(repr(one))"
    )
    from precheck.files.source import Place
    from precheck.rulesets.limit import Event

    event = Event("set", "7 3/4 in", "irc-2021 R311.7.5.1", Place("stairs.yaml", 3, 5))
    done = subprocess.run([sys.executable, "-c", program], input=pickle.dumps(event), capture_output=True, check=True)
    assert done.stdout.decode().strip() == repr(event)
