"""The form of a bundle: a ZIP archive with a manifest, by which holders pass from hand to hand.

Nothing in a bundle is ever executed, and no name in it leads out of it.
"""

from __future__ import annotations

import hashlib
import io
import stat
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Annotated

import tomlkit
from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression
from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from cleatwright.base.errors import DocumentError, UnknownNameError
from cleatwright.base.gathering import in_file
from cleatwright.base.keys import read_mark
from cleatwright.base.plugins import package_name
from cleatwright.base.visible import is_plain, visible
from cleatwright.workshop.document.fields import Slug
from cleatwright.workshop.document.reading import read_limited
from cleatwright.workshop.document.toml_text import toml_tables

MANIFEST = "bundle.toml"
RECIPE = "holder.toml"
OUTLINES = "outlines"
FORM = 1
MOST_FILES = 200
MOST_BYTES = 100_000_000
MOST_PACKED_BYTES = 20_000_000
MOST_LETTERS = 200
MOST_TABLE_BYTES = 100_000
# others take memory by what the archive says of itself
PACKINGS = frozenset({zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED})
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)


def is_line(text: str) -> bool:
    """Tell whether a text is one line without signs that act."""
    return all(map(is_plain, text))


def _line(text: str) -> str:
    if not is_line(text):
        raise ValueError("it has signs that cannot be seen")
    return text


def _package(text: str) -> str:
    if text and not package_name(text):
        raise ValueError("it is no name of a package")
    return package_name(text)


def _mark(text: str) -> str:
    if read_mark(text) != text:
        raise ValueError("it is no part mark")
    return text


Line = Annotated[str, Field(max_length=MOST_LETTERS), AfterValidator(_line)]


class BundleManifest(BaseModel):
    """What a bundle says of itself.

    Args:
        form: The edition of this form.
        name: A name for people.
        family: The family of the holder.
        package: The package that offers the family, or "" for one of the program.
        licence: What others may do with it, as an SPDX expression.
        author: Who gives it, in the giver's own words; may be empty.
        mark: The mark of the part.
        made_with: The program and its version.
        files: The SHA-256 of every other file by its name.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    form: int = Field(ge=FORM, le=FORM)
    name: Annotated[Line, Field(min_length=1)]
    family: Slug
    package: Annotated[str, Field(max_length=100), AfterValidator(_package)]
    licence: Annotated[Line, Field(min_length=1)]
    author: Line
    mark: Annotated[str, AfterValidator(_mark)]
    made_with: Line
    files: dict[str, str] = Field(max_length=MOST_FILES)


@dataclass(frozen=True)
class ReceivedBundle:
    """A bundle that was read whole and checked."""

    manifest: BundleManifest
    files: Mapping[str, bytes]


def checked_licence(given: str) -> str:
    """Return a licence in its canonical spelling.

    Raises:
        UnknownNameError: It is no SPDX expression.

    Source: SPDX licence list, as the library ``packaging`` knows it.

    >>> checked_licence("cc-by-4.0")
    'CC-BY-4.0'
    """
    try:
        return canonicalize_license_expression(given)
    except InvalidLicenseExpression:
        raise UnknownNameError(
            f'"{visible(given)}" is no licence',
            allowed="an identifier of the SPDX list, such as CC-BY-4.0, CC0-1.0 or MIT",
            todo="Choose what others may do with it",
        ) from None


def bundle_bytes(manifest: BundleManifest, files: Mapping[str, bytes]) -> bytes:
    """Return the archive; the manifest's own list of files is made here."""
    sums = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())}
    told = manifest.model_copy(update={"files": sums})
    text = tomlkit.dumps(told.model_dump())
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in ((MANIFEST, text.encode()), *sorted(files.items())):
            entry = zipfile.ZipInfo(name, _FIRST_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = (stat.S_IFREG | 0o644) << 16
            archive.writestr(entry, data)
    return buffer.getvalue()


def read_bundle(path: Path) -> ReceivedBundle:
    """Return a bundle from a file, when all of it is what it says.

    Raises:
        DocumentError: It is no bundle, too large, damaged, or a name leads out of it.
    """
    with in_file(str(path)):
        return _bundle(path)


def _bundle(path: Path) -> ReceivedBundle:
    try:
        data = read_limited(path, most_bytes=MOST_PACKED_BYTES)
        if len(data) > MOST_PACKED_BYTES:
            most = f"{MOST_PACKED_BYTES // 10**6} MB"
            raise _no_bundle(f"it is larger than {most}")
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            files = _read(archive)
    except FileNotFoundError:
        raise DocumentError("There is no such file") from None
    except (zipfile.BadZipFile, NotImplementedError, EOFError) as error:
        raise _no_bundle(f"it is no sound archive ({visible(str(error))})") from None
    except (OSError, RuntimeError, ValueError, zlib.error) as error:
        raise _no_bundle(f"it cannot be read ({visible(str(error))})") from None
    manifest = _manifest(files.pop(MANIFEST, None))
    if set(manifest.files) != set(files):
        odd = ", ".join(visible(one) for one in sorted(set(manifest.files) ^ set(files))[:5])
        raise _no_bundle(f"its manifest and its files differ: {odd}")
    for name, data in files.items():
        if hashlib.sha256(data).hexdigest() != manifest.files[name]:
            raise _no_bundle(f'its file "{name}" was changed or damaged')
    return ReceivedBundle(manifest, files)


def _read(archive: zipfile.ZipFile) -> dict[str, bytes]:
    entries = archive.infolist()
    if len(entries) > MOST_FILES:
        raise _no_bundle(f"it has {len(entries)} files, more than {MOST_FILES}")
    files: dict[str, bytes] = {}
    left = MOST_BYTES
    for entry in entries:
        name = entry.filename
        kind = stat.S_IFMT(entry.external_attr >> 16)
        if not _inside(name) or kind not in {0, stat.S_IFREG}:
            raise _no_bundle(f'the name "{visible(name)}" leads out of it')
        if name in files:
            raise _no_bundle(f'it has two files "{name}"')
        if entry.compress_type not in PACKINGS:
            raise _no_bundle(f'its file "{name}" is packed in another way')
        if entry.flag_bits & 0x1:
            raise _no_bundle("it is locked with a password")
        with archive.open(entry) as stream:
            data = stream.read(left + 1)
        left -= len(data)
        if left < 0:
            raise _no_bundle(f"it unpacks to more than {MOST_BYTES // 10**6} MB")
        files[name] = data
    return files


def _inside(name: str) -> bool:
    """Return True when a name stays in its folder on every system."""
    plain = PurePosixPath(name)
    return (
        bool(name)
        and name.isprintable()
        and "\\" not in name
        and ":" not in name
        and not plain.is_absolute()
        and not name.endswith("/")
        and all(part not in {"..", ".", ""} for part in name.split("/"))
    )


def _manifest(data: bytes | None) -> BundleManifest:
    if data is None:
        raise _no_bundle(f"it has no {MANIFEST}")
    if len(data) > MOST_TABLE_BYTES:
        raise _no_bundle(f"its {MANIFEST} is larger than {MOST_TABLE_BYTES} bytes")
    try:
        manifest = BundleManifest.model_validate(toml_tables(data.decode("utf-8"), file=MANIFEST))
    except ValidationError as error:
        first = error.errors()[0]
        key = visible(".".join(str(step) for step in first["loc"]))
        fault = first["msg"].removeprefix("Value error, ")
        raise _no_bundle(f"its {MANIFEST}, {key}: {fault}") from None
    except (UnicodeDecodeError, DocumentError) as error:
        told = visible(str(error))
        raise _no_bundle(f"its {MANIFEST} cannot be read ({told})") from None
    try:
        checked_licence(manifest.licence)
    except UnknownNameError as error:
        raise error.located(MANIFEST) from None
    return manifest


def _no_bundle(fault: str) -> DocumentError:
    return DocumentError(
        f"The file is no bundle that can be used: {fault}",
        todo="Ask whoever gave it for another copy; nothing was changed",
    )
