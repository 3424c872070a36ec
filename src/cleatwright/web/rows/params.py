"""Parameters as the browser shows them: a scale with bounds, and the reason for the bounds."""

from __future__ import annotations

from collections.abc import Mapping

from annotated_types import Ge, Gt, Le, Lt

from cleatwright.base.lengths import LengthUnit, Wording, measured_length
from cleatwright.parts.params import PartParams
from cleatwright.web.rows.row import Row


class ParamRow(Row):
    """One parameter; numbers are in mm, degrees or as they are."""

    name: str
    title: str
    low: float
    high: float
    usual: float
    value: float
    own: bool
    is_length: bool
    shown: str
    shown_low: str
    shown_high: str
    why: str


def param_rows(
    model: type[PartParams], own: Mapping[str, float], unit: LengthUnit
) -> tuple[ParamRow, ...]:
    """Return the parameters of a family, mount or joint, with what the owner chose."""
    rows: list[ParamRow] = []
    for field, info in model.model_fields.items():
        name = field.removesuffix("_mm")
        lows = [
            m.ge if isinstance(m, Ge) else m.gt for m in info.metadata if isinstance(m, Ge | Gt)
        ]
        highs = [
            m.le if isinstance(m, Le) else m.lt for m in info.metadata if isinstance(m, Le | Lt)
        ]
        usual = float(info.default)
        value = float(own.get(name, usual))
        low, high = float(str(lows[0])), float(str(highs[0]))
        is_length = field.endswith("_mm")

        def words(number: float, *, is_length: bool = is_length) -> str:
            return measured_length(number, unit) if is_length else f"{number:g}"

        rows.append(
            ParamRow(
                name=name,
                title=name.replace("_", " "),
                low=low,
                high=high,
                usual=usual,
                value=value,
                own=name in own,
                is_length=is_length,
                shown=words(value),
                shown_low=words(low),
                shown_high=words(high),
                why=Wording(unit)(info.description or ""),
            )
        )
    return tuple(rows)
