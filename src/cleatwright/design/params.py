"""Are the parameters that an owner chose for a family, mount, joint or carrier sound?"""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base.errors import MeasureError
from cleatwright.design.catalogue import model_rows
from cleatwright.parts.params import PartParams


def checked_params(
    what: str, name: str, model: type[PartParams], params: Mapping[str, float], *, where: str
) -> tuple[tuple[str, float], ...]:
    """Return the parameters in order, when the model has them and they lie within its bounds.

    Args:
        what: What they belong to, such as "holder family".
        name: Its name.
        model: Its parameter model.
        params: The parameters by the names a person writes.
        where: The place in the document.

    Raises:
        MeasureError: The one error names every fault with what is allowed.
    """
    try:
        model.model_validate(dict(params))
    except ValidationError as error:
        bounds = {
            row: f"{row} from {low} to {high} ({note})"
            for row, low, high, _, note in model_rows(model)
        }
        faults = error.errors()
        told = [_told(fault, bounds) for fault in faults]
        allowed = [bounds[name] for name, _ in told if name in bounds]
        if any(name not in bounds for name, _ in told):
            allowed.insert(0, f"the parameters of the {what} {name}: {', '.join(bounds) or 'none'}")
        raise MeasureError(
            "; ".join(text for _, text in told),
            where=where,
            allowed="; ".join(dict.fromkeys(allowed)),
            todo=_missing(what, name, faults),
        ) from error
    return tuple(sorted(params.items()))


def _told(fault: ErrorDetails, bounds: Mapping[str, str]) -> tuple[str, str]:
    """Return the parameter and what is wrong with it."""
    name = str(fault["loc"][0]) if fault["loc"] else ""
    if fault["type"] == "extra_forbidden":
        near = difflib.get_close_matches(name, bounds, n=1, cutoff=0.5)
        hint = f' (did you mean "{near[0]}"?)' if near else ""
        return name, f'there is no parameter "{name}"{hint}'
    if fault["type"] == "missing":
        return name, f"{name} is missing, and nobody but you can know it"
    if name:
        return name, f"{name} is {fault['input']:g}"
    return name, fault["msg"]


def _missing(what: str, name: str, faults: Sequence[ErrorDetails]) -> str:
    """Return the table to write when values are missing, or ""."""
    keys = [str(fault["loc"][0]) for fault in faults if fault["type"] == "missing"]
    if not keys:
        return ""
    lines = ", ".join(f"{key} = ..." for key in keys)
    return f"Measure {'it' if len(keys) == 1 else 'them'}, and write under [{what}.{name}]: {lines}"
