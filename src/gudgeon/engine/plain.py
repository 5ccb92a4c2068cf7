"""The frozen types as plain JSON data and back. Floats travel as text, so that an entry can be sealed."""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

T = TypeVar("T")


class NotPlain(ValueError):
    """The data does not fit the type; the sentence names the place, what stood there and what would be right."""


def to_plain(value: object) -> Any:
    """JSON data of a frozen dataclass, tuple, mapping or scalar.

    A dataclass becomes an object with ``is`` naming its type; fields that stand at their default are left out, so that a
    later version may add fields without changing what older entries say. A mapping whose keys are not texts becomes a list
    of pairs. Raises NotPlain for a value of any other kind (a function, a set), which could not be read back.
    """
    if value is None or isinstance(value, str | bool):
        return value
    if is_dataclass(value) and not isinstance(value, type):
        return _plain_dataclass(value)
    if isinstance(value, float):
        return repr(float(value))
    if isinstance(value, int):
        return int(value)
    if isinstance(value, tuple | list):
        return [to_plain(inner) for inner in value]
    if isinstance(value, Mapping):
        if all(isinstance(key, str) for key in value):
            return {key: to_plain(inner) for key, inner in value.items()}
        return [[to_plain(key), to_plain(inner)] for key, inner in value.items()]
    if callable(item := getattr(value, "item", None)) and getattr(value, "ndim", None) == 0:
        return to_plain(item())  # one number of numpy's
    raise NotPlain(f"{value!r} of kind {type(value).__name__} cannot be written down.")


def _plain_dataclass(value: Any) -> dict[str, Any]:
    plain: dict[str, Any] = {"is": type(value).__name__}
    for field in fields(value):
        inner = getattr(value, field.name)
        if inner != _default(field):
            plain[field.name] = to_plain(inner)
    return plain


def _default(field: Any) -> object:
    if field.default is not MISSING:
        return field.default
    if field.default_factory is not MISSING:
        return field.default_factory()
    return MISSING


@cache
def _hints(cls: type) -> dict[str, Any]:
    import sys

    from gudgeon.engine import remedy, step

    extra = {**vars(step), **vars(remedy)}
    return get_type_hints(cls, globalns={**extra, **vars(sys.modules[cls.__module__])})


def from_plain(cls: type[T], data: object, at: str = "") -> T:
    """The value of type ``cls`` that ``to_plain`` turned into ``data``. Raises NotPlain naming the place at fault."""
    return cast(T, _read(cls, data, at or cls.__name__))


def _read(kind: Any, data: object, at: str) -> object:
    if is_dataclass(kind):
        return _read_dataclass(cast(type, kind), data, at)
    origin, arguments = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        return _read_union(arguments, data, at)
    if origin is Literal:
        if not any(data == word and type(data) is type(word) for word in arguments):
            raise NotPlain(f"{at}: {data!r} was read; one of {', '.join(map(repr, arguments))} would be right.")
        return data
    if origin is tuple:
        return _read_tuple(arguments, data, at)
    if origin in (dict, Mapping):
        return _read_mapping(arguments, data, at)
    if kind is float:
        return _read_float(data, at)
    if kind in (str, int, bool) and type(data) is not kind:
        raise NotPlain(f"{at}: {data!r} was read; a value of kind {kind.__name__} would be right.")
    return data


def _read_float(data: object, at: str) -> float:
    if isinstance(data, str | int | float) and not isinstance(data, bool):
        try:
            return float(data)
        except ValueError:
            pass
    raise NotPlain(f"{at}: {data!r} was read; a number would be right.")


def _read_union(arguments: tuple[Any, ...], data: object, at: str) -> object:
    if data is None and type(None) in arguments:
        return None
    choices = [kind for kind in arguments if kind is not type(None)]
    if isinstance(data, Mapping) and "is" in data:
        for kind in choices:
            if getattr(kind, "__name__", "") == data["is"]:
                return _read(kind, data, at)
    if len(choices) == 1:
        return _read(choices[0], data, at)
    raise NotPlain(f"{at}: {data!r} was read; one of {', '.join(str(kind) for kind in choices)} would be right.")


def _read_tuple(arguments: tuple[Any, ...], data: object, at: str) -> tuple[object, ...]:
    if not isinstance(data, list | tuple):
        raise NotPlain(f"{at}: {data!r} was read; a list would be right.")
    if len(arguments) == 2 and arguments[1] is Ellipsis:
        return tuple(_read(arguments[0], inner, f"{at}[{place}]") for place, inner in enumerate(data))
    if len(arguments) != len(data):
        raise NotPlain(f"{at}: {len(data)} values were read; {len(arguments)} would be right.")
    return tuple(_read(kind, inner, f"{at}[{place}]") for place, (kind, inner) in enumerate(zip(arguments, data, strict=True)))


def _read_mapping(arguments: tuple[Any, ...], data: object, at: str) -> dict[Any, object]:
    key_kind, kind = arguments
    if key_kind is str:
        if not isinstance(data, Mapping):
            raise NotPlain(f"{at}: {data!r} was read; an object would be right.")
        return {key: _read(kind, inner, f"{at}.{key}") for key, inner in data.items()}
    if data == {}:
        return {}  # an empty one has no keys to tell of what kind they would be
    if not isinstance(data, list | tuple):
        raise NotPlain(f"{at}: {data!r} was read; a list of pairs would be right.")
    pair = (key_kind, kind)
    return dict(cast(tuple[Any, object], _read_tuple(pair, inner, f"{at}[{n}]")) for n, inner in enumerate(data))


def _read_dataclass(cls: type, data: object, at: str) -> object:
    if not isinstance(data, Mapping):
        raise NotPlain(f"{at}: {data!r} was read; an object would be right.")
    if data.get("is", cls.__name__) != cls.__name__:
        raise NotPlain(f"{at}: a {data['is']} was read; a {cls.__name__} would be right.")
    hints = _hints(cls)
    unknown = set(data) - set(hints) - {"is"}
    if unknown:
        raise NotPlain(f"{at}: {', '.join(sorted(unknown))} is no field of it; the fields are {', '.join(hints)}.")
    wanting = [field.name for field in fields(cls) if field.name not in data and _default(field) is MISSING]
    if wanting:
        raise NotPlain(f"{at}: {', '.join(wanting)} is missing.")
    try:
        return cls(**{name: _read(hints[name], inner, f"{at}.{name}") for name, inner in data.items() if name != "is"})
    except NotPlain:
        raise
    except ValueError as fault:
        raise NotPlain(f"{at}: {fault}") from fault
