"""STEP files (ISO 10303-21)."""

# pyright: basic, reportAttributeAccessIssue=false
# OCP comes without stubs

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_Static
from OCP.Message import Message, Message_Gravity
from OCP.StepBasic import StepBasic_Product
from OCP.STEPControl import STEPControl_StepModelType, STEPControl_Writer
from OCP.TCollection import TCollection_HAsciiString
from OCP.TopoDS import TopoDS_Shape

from cleatwright.base.errors import KernelError, OutputError
from cleatwright.base.place import InFile

# a clock would give other bytes each time
_TIME_STAMP = "2000-01-01T00:00:00"
_LONGEST_NAME = 60


def write(path: Path, name: str, shape: TopoDS_Shape) -> None:
    """Write a shape as STEP AP242 in mm.

    Raises:
        KernelError: The shape cannot be translated.
        OutputError: The name does not suit, or the file cannot be written.
    """
    if not (name.isascii() and name.isprintable() and 0 < len(name) <= _LONGEST_NAME):
        raise OutputError(
            f'"{name}" cannot be the name of a STEP product',
            place=InFile(str(path)),
            allowed=f"1 to {_LONGEST_NAME} letters, digits and signs of ASCII",
        )
    with _silence():
        writer = STEPControl_Writer()
        _set_up(name)
        status = writer.Transfer(shape, STEPControl_StepModelType.STEPControl_AsIs)
        if status != IFSelect_ReturnStatus.IFSelect_RetDone:
            raise KernelError(f"the STEP writer gave {status.name}", where=name)
        _name(writer, name)
        if writer.Write(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
            raise OutputError("the STEP file cannot be written", place=InFile(str(path)))


def _set_up(name: str) -> None:
    # the library keeps its settings for the whole process, so each is set for each file
    done = (
        Interface_Static.SetCVal_s("write.step.schema", "AP242DIS"),
        Interface_Static.SetCVal_s("write.step.unit", "MM"),
        Interface_Static.SetIVal_s("write.step.assembly", 0),
    )
    if not all(done):
        raise KernelError(f"the STEP writer took its settings as {done}", where=name)


def _name(writer: STEPControl_Writer, name: str) -> None:
    """Give the file and its product their names; the library's own count up with each file."""
    text = TCollection_HAsciiString
    model = writer.Model()
    for i in range(1, model.NbEntities() + 1):
        entity = model.Value(i)
        if isinstance(entity, StepBasic_Product):
            entity.SetId(text(name))
            entity.SetName(text(name))
    header = APIHeaderSection_MakeHeader(model)
    header.SetName(text(name))
    header.SetTimeStamp(text(_TIME_STAMP))
    header.SetAuthorValue(1, text(""))
    header.SetOrganizationValue(1, text(""))
    header.SetOriginatingSystem(text("Cleatwright"))


@contextmanager
def _silence() -> Iterator[None]:
    """Keep the library from printing its progress."""
    printers = list(Message.DefaultMessenger_s().Printers())
    levels = [printer.GetTraceLevel() for printer in printers]
    for printer in printers:
        printer.SetTraceLevel(Message_Gravity.Message_Alarm)
    try:
        yield
    finally:
        for printer, level in zip(printers, levels, strict=True):
            printer.SetTraceLevel(level)
