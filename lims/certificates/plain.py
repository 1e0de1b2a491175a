"""Frozen data as plain objects and back: nothing is guessed, nothing unknown is let in. A part that came later is `added`: papers issued before it stay readable, and read back as they were written."""

import dataclasses
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

ADDED = {"added": True}  # metadata of a part that older papers do not have


class UnfitDataError(ValueError):
    """The data contradict themselves or are not of this schema."""


def told(value: Any) -> Any:
    """A value as it is written down; an added part that says nothing is left out."""
    if isinstance(value, tuple):
        return [told(each) for each in value]
    if not dataclasses.is_dataclass(value):
        return value
    return {
        each.name: told(getattr(value, each.name))
        for each in dataclasses.fields(value)
        if not (each.metadata == ADDED and getattr(value, each.name) == each.default)
    }


def made(kind: Any, value: Any) -> Any:
    """A value of JSON as the kind a field declares."""
    if dataclasses.is_dataclass(kind):
        return _made_dataclass(kind, value)
    if get_origin(kind) in (Union, UnionType):
        return None if value is None else made(get_args(kind)[0], value)
    if get_origin(kind) is tuple:
        if not isinstance(value, list):
            raise UnfitDataError("A list is missing.")
        return tuple(made(get_args(kind)[0], each) for each in value)
    wanted = str if get_origin(kind) is Literal else kind
    if type(value) is not wanted:
        raise UnfitDataError(f"{value!r} is not of the expected kind.")
    if get_origin(kind) is Literal and value not in get_args(kind):
        raise UnfitDataError(f"{value!r} is not one of {get_args(kind)}.")
    return value


def _made_dataclass(kind: Any, value: Any) -> Any:
    hints = get_type_hints(kind)
    parts = [each for each in dataclasses.fields(kind) if each.init]
    names = {each.name for each in parts}
    needed = {each.name for each in parts if each.metadata != ADDED}
    if not isinstance(value, dict) or not needed <= value.keys() <= names:
        raise UnfitDataError(f"The parts of {kind.__name__} are not those expected.")
    return kind(**{name: made(hints[name], value[name]) for name in value})
