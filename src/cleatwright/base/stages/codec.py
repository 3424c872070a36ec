"""How results are kept on disk: frozen values as JSON, and files as they are."""

from __future__ import annotations

from functools import cached_property
from typing import Generic, TypeVar

from pydantic import TypeAdapter

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
    def _adapter(self) -> TypeAdapter[Value]:
        return TypeAdapter(self._kind)

    def write(self, value: Value) -> bytes:
        """Return the value as JSON."""
        return self._adapter.dump_json(value)

    def read(self, data: bytes) -> Value:
        """Return the value; raise ValueError when the JSON is no value of the type."""
        try:
            return self._adapter.validate_json(data)
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
