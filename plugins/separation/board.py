"""Gypsum board on the boundary of a garage: how thick it is, and how much of it is Type X."""

from __future__ import annotations

from typing import Any

from precheck import (
    Layer,
    Length,
    Limit,
    Missing,
    NewValue,
    Space,
    Wall,
    is_missing,
    missing_of,
    thickness_of,
    when_given,
)


def board(layers: tuple[Layer, ...], due: Limit[Length]) -> Length | Missing:
    """Return the thickness of gypsum board among `layers`; nothing where they hold none.

    A layer without a thickness leaves it open, unless the others alone make up what is `due`.
    """
    boards = [layer for layer in layers if layer.is_gypsum_board]
    known = thickness_of(tuple(layer for layer in boards if not is_missing(layer.thickness)))
    return known if makes_up(known, due) is True else thickness_of(tuple(boards))


def boarded(record: Any, field: str, layers: tuple[Layer, ...], thick: Length, kind: str = "gypsum") -> list[NewValue]:
    """Return the layers of `record` with board `thick` in place of what board there is; nothing where one has no thickness."""
    kept = [layer for layer in layers if not layer.is_gypsum_board]
    if any(is_missing(layer.thickness) for layer in kept):
        return []
    return [NewValue(record, field, (*(f"{layer.thickness} {layer.material}" for layer in kept), f"{thick} {kind}"))]


def ceiling_boarded(space: Space, thick: Length, kind: str = "gypsum") -> list[NewValue]:
    """Return the layers of the ceiling of `space` with board `thick`; nothing where no ceiling is drawn."""
    return [] if is_missing(space.ceiling) else boarded(space.ceiling, "layers", space.ceiling.layers, thick, kind)


def lined(wall: Wall, side: str, thick: Length) -> list[NewValue]:
    """Return the face of `wall` toward `side` with board `thick`; nothing where the face is not drawn by itself."""
    face = next((face for face in wall.faces if face.side == side and face.layers), None)
    return [] if face is None else boarded(face, "layers", face.layers, thick)


def ceiling_layers(space: Space) -> tuple[Layer, ...] | Missing:
    """Return the layers of the ceiling of `space`; none where it is said to be open (``layers: []``)."""
    ceiling = space.ceiling
    if is_missing(ceiling) or not (ceiling.layers or "layers" in ceiling.model_fields_set):
        return space.absent("ceiling layers")
    return ceiling.layers


def ceiling_board(space: Space, due: Limit[Length]) -> Length | Missing:
    """Return the thickness of gypsum board among the ceiling layers of `space`."""
    return when_given(lambda layers: board(layers, due), ceiling_layers(space))


def type_x_among(layers: tuple[Layer, ...], due: Limit[Length]) -> Length | Missing:
    """Return the thickness of what is said to be Type X among the board of `layers`.

    A layer of which it is not said leaves the answer open, unless the others alone make up what is `due`.
    """
    boards = [layer for layer in layers if layer.is_gypsum_board]
    sure = board(tuple(layer for layer in boards if layer.type_x is True), due)
    unsaid = missing_of(*(layer.type_x for layer in boards))
    return sure if unsaid is None or makes_up(sure, due) is True else unsaid


def is_type_x(space: Space, thickness: Limit[Length]) -> bool | Missing:
    """Return whether Type X board alone makes up the `thickness` that is due under the ceiling of `space`.

    Where no thickness is due, any such board will do.
    """
    layers = ceiling_layers(space)
    return layers if is_missing(layers) else makes_up(type_x_among(layers, thickness), thickness)


def makes_up(board_there: Length | Missing, thickness: Limit[Length]) -> bool | Missing:
    """Return whether there is as much of a board as the `thickness` that is due; any, where none is due."""
    due = Length(1) if thickness.value is None else thickness.value
    return when_given(lambda own, least: bool(own >= least), board_there, due)
