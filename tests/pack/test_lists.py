"""Lists for people agree with the report and with the drawing's point of view."""

import csv
import io
from typing import Any

from cleatwright.pack.lists import holders_table, printing_table
from cleatwright.pack.reporting import report_of
from cleatwright.papers.kit.tables import ListTable, csv_bytes


def rows(table: ListTable) -> list[dict[str, str]]:
    """Return the rows as a program reads them from the file."""
    data = csv_bytes(table.heading, table.rows)
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))


def test_every_tool_has_a_row_with_the_place_of_its_holder(done: Any) -> None:
    listed = rows(holders_table(done.job))
    tools = [tool.name for holder in done.job.planned for tool in holder.tools]
    assert sorted(row["tool"] for row in listed) == sorted(tools)
    places = {place.key: place for place in done.job.panels[0].arrangement.places}
    for row in listed:
        place = places[done.job.planned[int(row["holder"]) - 1].key]
        assert float(row["left edge x mm"]) == round(place.x_mm, 1)


def test_the_first_from_the_left_is_the_smallest_of_a_sorted_row(done: Any) -> None:
    """Tools of a group are in order of size; the reader's left is the frame's largest x."""
    for planned, made in zip(done.job.planned, done.job.built, strict=True):
        if made.part.family == "edge-comb" or len(planned.tools) < 2:
            continue
        spots = [seat.pose.shift_mm[0] for seat in made.part.seats]
        sizes = [tool.body.order_mm for tool in planned.tools]
        by_eye = [size for _, size in sorted(zip(spots, sizes, strict=True), reverse=True)]
        assert by_eye == sorted(sizes)


def test_each_part_is_on_the_list_of_one_bed_with_its_overhang(done: Any) -> None:
    listed = rows(printing_table(done.job))
    parts = [made.mark for _, made in done.job.parts.values() if made.printed]
    assert len(parts) > len(done.job.built)
    assert sorted(row["mark"] for row in listed) == sorted(parts)
    for row in listed:
        assert (row["support"] == "no") == (float(row["overhang mm2"]) < 0.5)


def test_the_numbers_of_the_report_are_those_of_the_lists(done: Any) -> None:
    """What was made for the first time is counted from 1, and each holder once."""
    report = report_of(done.job, files=())
    by_name = {one.name: one.number for one in report.holders}
    assert sorted(by_name.values()) == list(range(1, len(done.job.planned) + 1))
    listed = rows(holders_table(done.job))
    assert {row["name"]: int(row["holder"]) for row in listed} == by_name
