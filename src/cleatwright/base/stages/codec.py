"""How results are kept on disk: frozen values as JSON, and files as they are."""

from __future__ import annotations

from functools import cached_property
from types import GenericAlias
from typing import Generic, TypeVar, cast

from pydantic import ConfigDict, TypeAdapter

from cleatwright.base.errors import CleatwrightError

Value = TypeVar("Value")


class JsonCodec(Generic[Value]):
    """Keeps values of one type, a frozen dataclass of plain values and others like it, as JSON.

    Args:
        kind: The type.
    """

    def __init__(self, kind: type[Value]) -> None:
        self._kind = kind

    @cached_property
    def _adapter(self) -> TypeAdapter[tuple[Value]]:
        # a row of one, since a dataclass by itself does not say how infinity is written
        row = cast("type[tuple[Value]]", GenericAlias(tuple, (self._kind,)))
        return TypeAdapter(row, config=ConfigDict(ser_json_inf_nan="strings"))

    def write(self, value: Value) -> bytes:
        """Return the value as JSON."""
        return self._adapter.dump_json((value,))

    def read(self, data: bytes) -> Value:
        """Return the value; raise ValueError when the JSON is no value of the type."""
        try:
            return self._adapter.validate_json(data)[0]
        except CleatwrightError as error:
            raise ValueError(str(error)) from error


class BytesCodec:
    """Keeps the bytes of a file as they are."""

    def write(self, value: bytes) -> bytes:
        """Return the bytes."""
        return value

    def read(self, data: bytes) -> bytes:
        """Return the bytes."""
        return data
