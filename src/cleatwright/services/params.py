"""Are the parameters that an owner chose for a family sound?"""

from __future__ import annotations

import difflib
from collections.abc import Mapping

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base.errors import MeasureError
from cleatwright.holders.family import Family
from cleatwright.services.catalogue import model_rows


def check_params(family: Family, params: Mapping[str, float], *, where: str) -> None:
    """Refuse parameters that the family does not have, or outside their bounds.

    Raises:
        MeasureError: The one error names every fault with what is allowed.
    """
    try:
        family.params.model_validate(dict(params))
    except ValidationError as error:
        bounds = {
            name: f"{name} from {low} to {high} ({note})"
            for name, low, high, _, note in model_rows(family.params)
        }
        told = [_told(fault, bounds) for fault in error.errors()]
        allowed = [bounds[name] for name, _ in told if name in bounds]
        if any(name not in bounds for name, _ in told):
            allowed.insert(0, f"the parameters of {family.name}: {', '.join(bounds)}")
        raise MeasureError(
            "; ".join(text for _, text in told),
            where=f"{where}, params",
            allowed="; ".join(dict.fromkeys(allowed)),
        ) from error


def _told(fault: ErrorDetails, bounds: Mapping[str, str]) -> tuple[str, str]:
    """Return the parameter and what is wrong with it."""
    name = str(fault["loc"][0]) if fault["loc"] else ""
    if fault["type"] == "extra_forbidden":
        near = difflib.get_close_matches(name, bounds, n=1, cutoff=0.5)
        hint = f' (did you mean "{near[0]}"?)' if near else ""
        return name, f'there is no parameter "{name}"{hint}'
    if name:
        return name, f"{name} is {fault['input']:g}"
    return name, fault["msg"]
