"""Base of the parameters by which an owner shapes a part."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class PartParams(BaseModel):
    """Parameters of a family, a mount or a joint: frozen, in mm, with bounds and their reason.

    Each field is a float with ``ge`` and ``le`` and a ``description`` that gives the reason
    for the bounds. A person writes the names without ``_mm``.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        alias_generator=lambda field: field.removesuffix("_mm"),
        populate_by_name=True,
    )
