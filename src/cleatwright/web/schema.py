"""The schema of the interface, from which the types of the front end are generated."""

from __future__ import annotations

import json

from cleatwright.base.stages.store import Store
from cleatwright.web.app import make_api
from cleatwright.web.session import Session


def schema_text() -> str:
    """Return the schema of the interface as JSON, the same for the same program."""
    session = Session(None, store=Store())
    try:
        return json.dumps(make_api(session).openapi(), indent=1, sort_keys=True) + "\n"
    finally:
        session.close()


if __name__ == "__main__":
    print(schema_text(), end="")  # noqa: T201 - for the tool that makes types of it
