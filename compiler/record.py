"""Frozen values with named fields, cheap to define.

`@record` gives a class what `dataclasses.dataclass(frozen=True)` gives it, but generates no code: the standard one
compiles six functions for each class, about a millisecond, and a check that starts cold defines a hundred classes.
A field left at its plain default is not stored in the instance at all; the class itself holds it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, dataclass_transform, overload

T = TypeVar("T")
C = TypeVar("C", bound=type[Any])


class _Fresh:
    """The default of a field that needs a new value for every instance."""

    __slots__ = ("make",)

    def __init__(self, make: Callable[[], Any]) -> None:
        self.make = make


def field(*, default_factory: Callable[[], T]) -> T:
    """A default made anew for every instance, such as an empty map."""
    fresh: Any = _Fresh(default_factory)
    return fresh  # type: ignore[no-any-return]


@overload
def record(cls: C) -> C: ...
@overload
def record(*, order: bool = False) -> Callable[[C], C]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: C | None = None, *, order: bool = False) -> C | Callable[[C], C]:
    """Make a class a frozen value: built from its annotated fields, equal and hashed by them; with `order`, sorted
    by them."""
    if cls is None:
        return lambda each: _made(each, order)
    return _made(cls, order)


def replace(value: T, **changes: Any) -> T:
    """The same value with some fields changed."""
    kept = vars(value)
    return type(value)(**{name: kept[name] for name in fields_of(type(value)) if name in kept} | changes)


def fields_of(cls: type[Any]) -> tuple[str, ...]:
    """The names of a record's fields, in order."""
    names: tuple[str, ...] = cls.__match_args__
    return names


def _made(cls: C, order: bool) -> C:
    made: Any = cls
    own = made.__annotations__
    names = dict.fromkeys(getattr(made, "__match_args__", ()))
    names.update((name, None) for name, kind in own.items() if not str(kind).startswith("ClassVar"))
    fresh = dict(getattr(made, "_fresh", ()))
    for name in own:
        default = made.__dict__.get(name)
        if isinstance(default, _Fresh):
            fresh[name] = default.make
            delattr(made, name)
        elif name in made.__dict__:
            fresh.pop(name, None)
    made.__match_args__ = tuple(names)  # type: ignore[misc]
    made._fresh = fresh
    made._needed = tuple(name for name in names if name not in fresh and not hasattr(made, name))
    made.__init__ = _initialise
    made.__setattr__ = made.__delattr__ = _frozen
    made.__repr__, made.__eq__, made.__hash__ = _repr, _equal, _hash
    if order:
        made.__lt__, made.__le__, made.__gt__, made.__ge__ = _less, _at_most, _more, _at_least
    return cls


def _initialise(self: Any, *values: Any, **named: Any) -> None:
    cls = type(self)
    if values:
        if len(values) > len(cls.__match_args__):
            raise TypeError(f"{cls.__name__} has {len(cls.__match_args__)} fields, {len(values)} values are given")
        for name, value in zip(cls.__match_args__, values, strict=False):
            if name in named:
                raise TypeError(f"{cls.__name__} is given '{name}' twice")
            named[name] = value
    for name in cls._needed:
        if name not in named:
            raise TypeError(f"{cls.__name__} needs '{name}'")
    if not named.keys() <= set(cls.__match_args__):
        raise TypeError(f"{cls.__name__} has no {sorted(named.keys() - set(cls.__match_args__))}")
    for name, make in cls._fresh.items():
        if name not in named:
            named[name] = make()
    self.__dict__.update(named)


def _frozen(self: Any, name: str, *_value: Any) -> None:
    raise AttributeError(f"cannot change '{name}' of a {type(self).__name__}: it is frozen")


def _values(self: Any) -> tuple[Any, ...]:
    return tuple([getattr(self, name) for name in type(self).__match_args__])


def _repr(self: Any) -> str:
    said = ", ".join(f"{name}={getattr(self, name)!r}" for name in type(self).__match_args__)
    return f"{type(self).__qualname__}({said})"


def _equal(self: Any, other: object) -> Any:
    return _values(self) == _values(other) if type(other) is type(self) else NotImplemented


def _hash(self: Any) -> int:
    return hash(_values(self))


def _less(self: Any, other: object) -> Any:
    return _values(self) < _values(other) if type(other) is type(self) else NotImplemented


def _at_most(self: Any, other: object) -> Any:
    return _values(self) <= _values(other) if type(other) is type(self) else NotImplemented


def _more(self: Any, other: object) -> Any:
    return _values(self) > _values(other) if type(other) is type(self) else NotImplemented


def _at_least(self: Any, other: object) -> Any:
    return _values(self) >= _values(other) if type(other) is type(self) else NotImplemented
