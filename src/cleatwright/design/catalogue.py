"""What the registries hold, for people and programs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from annotated_types import Ge, Gt, Le, Lt
from pydantic import BaseModel

from cleatwright.base.errors import unknown_name
from cleatwright.base.plugins import package_name
from cleatwright.base.said import in_mm
from cleatwright.holders.family import Family
from cleatwright.holders.registry import FAMILIES
from cleatwright.holders.registry import PLUG_INS as FAMILY_PLUG_INS
from cleatwright.mounts.joints.registry import JOINTS, WITHOUT_CARRIER
from cleatwright.mounts.registry import MOUNTS
from cleatwright.mounts.registry import PLUG_INS as MOUNT_PLUG_INS
from cleatwright.tools.kind import measure_name
from cleatwright.tools.registry import KINDS, ordinary_body
from cleatwright.tools.registry import PLUG_INS as KIND_PLUG_INS


@dataclass(frozen=True)
class CatalogueEntry:
    """One registered thing; each row is (measure, from, to, default, note)."""

    name: str
    title: str
    rows: tuple[tuple[str, str, str, str, str], ...]

    def as_dict(self) -> dict[str, object]:
        """Return the entry for programs."""
        names = ("measure", "from", "to", "default", "note")
        return {
            "name": self.name,
            "title": self.title,
            "measures": [dict(zip(names, row, strict=True)) for row in self.rows],
        }


def catalogue(what: str) -> tuple[CatalogueEntry, ...]:
    """Return the entries of "families", "kinds", "mounts" or "joints"; measures are in mm.

    Raises:
        UnknownNameError: There is no such list.
    """
    match what:
        case "families":
            return tuple(
                CatalogueEntry(f.name, f"{f.title} (takes a {f.grip.title})", model_rows(f.params))
                for f in FAMILIES.values()
            )
        case "kinds":
            return tuple(
                CatalogueEntry(k.name, k.title, model_rows(k.measures)) for k in KINDS.values()
            )
        case "mounts":
            return tuple(
                CatalogueEntry(m.name, m.title, model_rows(m.params)) for m in MOUNTS.values()
            )
        case "joints":
            return (
                *(CatalogueEntry(name, title, ()) for name, title in WITHOUT_CARRIER.items()),
                *(CatalogueEntry(j.name, j.title, model_rows(j.params)) for j in JOINTS.values()),
            )
        case _:
            raise unknown_name("list", what, ("families", "kinds", "mounts", "joints"))


def left_out() -> tuple[str, ...]:
    """Return a sentence for each thing of another package that cannot be used."""
    found = (*FAMILY_PLUG_INS.left_out, *KIND_PLUG_INS.left_out, *MOUNT_PLUG_INS.left_out)
    return tuple(one.sentence for one in found)


def kinds_held(family: Family) -> tuple[str, ...]:
    """Return the kinds whose ordinary tool a family can hold."""
    return tuple(kind for kind in KINDS if _holds_ordinary(family, kind))


def _holds_ordinary(family: Family, kind: str) -> bool:
    return family.why_not(ordinary_body(kind)) is None


def package_of(family: str) -> str:
    """Return the package that offers a family, or "" for one of the program."""
    given = next((o.package for o in FAMILY_PLUG_INS.origins if o.name == family), "")
    return package_name(given)


def model_rows(model: type[BaseModel]) -> tuple[tuple[str, str, str, str, str], ...]:
    """Return one row for each field of a measure or parameter model."""
    rows: list[tuple[str, str, str, str, str]] = []
    for name, field in model.model_fields.items():
        low = _bound(field.metadata, Ge, "ge") or _bound(field.metadata, Gt, "gt")
        high = _bound(field.metadata, Le, "le") or _bound(field.metadata, Lt, "lt")
        default = "needed" if field.is_required() else f"{field.default:g}"
        rows.append((measure_name(name), low, high, default, in_mm(field.description or "")))
    return tuple(rows)


def _bound(metadata: list[Any], kind: type, name: str) -> str:
    return next((f"{getattr(m, name):g}" for m in metadata if isinstance(m, kind)), "")
