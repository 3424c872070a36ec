"""Are the parameters that an owner chose for a family, mount, joint or carrier sound?"""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from cleatwright.base.errors import MeasureError
from cleatwright.base.gathering import combined
from cleatwright.base.place import InDocument, at
from cleatwright.design.catalogue import model_rows
from cleatwright.parts.params import PartParams


def checked_params(
    what: str, name: str, model: type[PartParams], params: Mapping[str, float]
) -> tuple[tuple[str, float], ...]:
    """Return the parameters in order, when the model has them and they lie within its bounds.

    Args:
        what: What they belong to, such as "holder family".
        name: Its name.
        model: Its parameter model.
        params: The parameters by the names a person writes.

    Raises:
        MeasureError: The one error names every fault with what is allowed. Its places are those
            of the table in which the parameters stand.
    """
    try:
        model.model_validate(dict(params))
    except ValidationError as error:
        bounds = {
            row: f"{row} from {low} to {high} ({note})"
            for row, low, high, _, note in model_rows(model)
        }
        strange = f"the parameters of the {what} {name}: {', '.join(bounds) or 'none'}"
        faults = [_fault(one, bounds, strange) for one in error.errors()]
        allowed = dict.fromkeys(one.allowed for one in faults if one.allowed)
        told = [strange] if strange in allowed else []
        told += [one for one in allowed if one != strange]
        raise combined(
            faults, allowed="; ".join(told), todo=_missing(what, name, error.errors())
        ) from error
    return tuple(sorted(params.items()))


def _fault(fault: ErrorDetails, bounds: Mapping[str, str], strange: str) -> MeasureError:
    """Return what is wrong with one parameter, in words that stand beside those of others."""
    name = str(fault["loc"][0]) if fault["loc"] else ""
    place = at(name, spoken="named") if name else InDocument()
    allowed = bounds.get(name, strange)
    if fault["type"] == "extra_forbidden":
        near = next(iter(difflib.get_close_matches(name, bounds, n=1, cutoff=0.5)), "")
        hint = f' (did you mean "{near}"?)' if near else ""
        return MeasureError(
            f'there is no parameter "{name}"{hint}',
            place=place,
            allowed=allowed,
            line=f"{near} = {fault['input']:g}" if near else "",
        )
    if fault["type"] == "missing":
        said = f"{name} is missing, and nobody but you can know it"
    else:
        said = f"{name} is {fault['input']:g}" if name else fault["msg"]
    return MeasureError(said, place=place, allowed=allowed)


def _missing(what: str, name: str, faults: Sequence[ErrorDetails]) -> str:
    """Return the table to write when values are missing, or ""."""
    keys = [str(fault["loc"][0]) for fault in faults if fault["type"] == "missing"]
    if not keys:
        return ""
    lines = ", ".join(f"{key} = ..." for key in keys)
    return f"Measure {'it' if len(keys) == 1 else 'them'}, and write under [{what}.{name}]: {lines}"
