"""Whatever is sent to a route, it answers by its own schema, and the document stays whole.

Oracle: schemathesis, which draws requests from the schema of the interface and holds the answers
against it.
"""

from __future__ import annotations

import shutil
import tempfile
import tomllib
from pathlib import Path
from typing import Any

import schemathesis
from hypothesis import HealthCheck, settings
from starlette.testclient import TestClient

from cleatwright.base.stages.store import Store
from cleatwright.web.app import make_api
from cleatwright.web.session import Session

SHED = Path(__file__).parent / "shed.toml"
kept = tempfile.TemporaryDirectory(prefix="cleatwright-routes-")
folder = Path(kept.name)
shutil.copy(SHED, folder / "workshop.toml")
session = Session(folder, store=Store())
api = make_api(session)
schema = schemathesis.openapi.from_dict(api.openapi())
schema.app = api
client = TestClient(api, raise_server_exceptions=True)


@schema.parametrize()
@settings(
    max_examples=5,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    derandomize=True,
)
def test_no_request_breaks_a_route(case: Any) -> None:
    answer = case.call(session=client)
    assert answer.status_code < 500, answer.text
    tomllib.loads((folder / "workshop.toml").read_text(encoding="utf-8"))
