"""Calendars: written, then read back by ical.js, by icalendar with every complaint of it empty, and line by line."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Mapping
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

import icalendar
import pytest

from generator.model.page import CalendarJob, Event, Page, Site
from generator.write.calendar import NAMESPACE, calendar_bytes

ROOT = Path(__file__).parents[2]
BERLIN, DENVER = ZoneInfo("Europe/Berlin"), ZoneInfo("America/Denver")
STAMP = datetime(2026, 12, 5, 17, 30)


def event(
    name: str = "supper/shank/cure/2/1", start: datetime = datetime(2026, 11, 28, 7), **more: Any
) -> Event:
    told = {"end": start + timedelta(hours=5), "summary": "Shank: cure"} | more
    return Event(name=name, start=start, **told)


def job(*events: Event, stamp: datetime = STAMP) -> CalendarJob:
    return CalendarJob(path="gatherings/supper/plan.ics", name="Supper for 35", stamp=stamp, events=events)


def by_ical_js(content: bytes) -> Any:
    """What ical.js finds; it knows no zone but those of the file."""
    script = Path(__file__).with_name("read_calendar.mjs")
    done = subprocess.run(["node", str(script)], input=content, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    return json.loads(done.stdout)


def checked(content: bytes) -> icalendar.Calendar:
    """Read by icalendar, which notes what is wrong instead of raising it."""
    calendar = icalendar.Calendar.from_ical(content)
    assert isinstance(calendar, icalendar.Calendar)
    for component in calendar.walk():
        assert component.errors == [], component.errors
    calendar.validate()  # raises
    return calendar


def unfolded(content: bytes) -> list[str]:
    """The lines of RFC 5545, section 3.1: CRLF, at most 75 octets each, a folded line goes on behind a space."""
    assert content.endswith(b"\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")
    assert b"\r" not in content.replace(b"\r\n", b"")
    lines = content.decode().split("\r\n")[:-1]
    assert all(len(line.encode()) <= 75 for line in lines)
    assert all(lines), "an empty line"
    return content.decode().replace("\r\n ", "").split("\r\n")[:-1]


LONG = "Käse, Brühe; ½ gal – a long line with, commas; and a \\ and\na second line " * 3
FULL = job(
    event(description=LONG, alarm_min=15),
    event(
        "supper/beans/rinse/0/1",
        datetime(2026, 12, 5, 9),
        end=datetime(2026, 12, 5, 9),
        summary="Beans: rinse",
    ),
)


def test_ical_js_reads_what_was_written() -> None:
    found = by_ical_js(calendar_bytes(FULL))
    assert (found["name"], found["zones"]) == ("Supper for 35", [])
    cure, rinse = found["events"]
    assert cure["start"] == {"clock": "2026-11-28T07:00:00", "zone": "floating", "utc": None}
    assert cure["end"]["clock"] == "2026-11-28T12:00:00"
    assert cure["summary"] == "Shank: cure"
    assert cure["description"] == LONG
    assert cure["alarms"] == [{"action": "DISPLAY", "description": "Shank: cure", "seconds": -900}]
    assert cure["stamp"] == "2026-12-05T17:30:00Z"
    assert rinse["end"] is None, "an end that is no later than its start is not allowed"
    assert rinse["alarms"] == []


def test_icalendar_finds_no_fault() -> None:
    calendar = checked(calendar_bytes(FULL))
    cure, _ = calendar.events
    assert cure.start == datetime(2026, 11, 28, 7)
    assert str(cure["description"]) == LONG


def test_lines_are_those_of_the_standard() -> None:
    lines = unfolded(calendar_bytes(FULL))
    assert lines[:3] == ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Potherb//Gathering//EN"]
    assert lines[-1] == "END:VCALENDAR"
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == 2
    for needed in ("UID:", "DTSTAMP:", "DTSTART:", "SUMMARY:"):
        assert sum(line.startswith(needed) for line in lines) == 2, needed
    assert "DTSTART:20261128T070000" in lines, "floating: no Z, no zone"
    assert "DTSTAMP:20261205T173000Z" in lines
    assert "TRIGGER:-PT15M" in lines


def test_a_fault_is_seen_by_these_checks() -> None:
    content = calendar_bytes(FULL)
    with pytest.raises(AssertionError):
        checked(content.replace(b"DTSTART:20261128T070000", b"DTSTART:20261399T070000"))
    with pytest.raises(AssertionError):
        unfolded(content.replace(b"\r\n ", b"", 1))
    with pytest.raises(AssertionError):
        unfolded(content.replace(b"\r\n", b"\n", 1))


def test_identity_stays_and_names_no_machine() -> None:
    """RFC 7986, section 5.3: a UUID, nothing of host or user. A later start does not change it."""
    first = checked(calendar_bytes(job(event()))).events[0]["uid"]
    moved = checked(calendar_bytes(job(event(start=datetime(2027, 1, 1, 9))))).events[0]["uid"]
    other = checked(calendar_bytes(job(event("supper/shank/cure/3/1")))).events[0]["uid"]
    assert first == moved != other
    assert UUID(first).version == 5
    assert NAMESPACE.version == 4


def test_two_events_of_one_name_are_a_bug() -> None:
    with pytest.raises(ValueError, match="two events of one name in gatherings/supper/plan"):
        calendar_bytes(job(event(), event()))


def test_the_same_job_gives_the_same_bytes_in_every_process() -> None:
    """Neither the clock nor the seed of a set has a say."""
    code = (
        "import sys; from tests.write.test_calendar import ZONED, calendar_bytes; "
        "sys.stdout.buffer.write(calendar_bytes(ZONED))"
    )
    outputs = {
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }
    assert outputs == {calendar_bytes(ZONED)}


ZONED = job(
    event("a", datetime(2026, 10, 23, 18, tzinfo=BERLIN), end=datetime(2026, 10, 28, 17, tzinfo=BERLIN)),
    event("b", datetime(2026, 10, 30, 18, tzinfo=DENVER), end=datetime(2026, 11, 4, 17, tzinfo=DENVER)),
    stamp=datetime(2026, 10, 28, 18, tzinfo=BERLIN),
)


def test_zones_are_described_in_the_file_and_hours_are_kept() -> None:
    """18:00 CEST is 16:00 UTC, 17:00 CET is 16:00 UTC: 120 h. 18:00 MDT is 00:00 UTC, 17:00 MST is 00:00 UTC."""
    content = calendar_bytes(ZONED)
    found = by_ical_js(content)
    assert sorted(found["zones"]) == ["America/Denver", "Europe/Berlin"]
    berlin, denver = found["events"]
    assert berlin["start"] == {
        "clock": "2026-10-23T18:00:00",
        "zone": "Europe/Berlin",
        "utc": "2026-10-23T16:00:00.000Z",
    }
    assert berlin["end"]["utc"] == "2026-10-28T16:00:00.000Z"
    assert denver["start"]["utc"] == "2026-10-31T00:00:00.000Z"
    assert denver["end"]["utc"] == "2026-11-05T00:00:00.000Z"
    assert berlin["stamp"] == "2026-10-28T17:00:00Z"
    assert all(entry.end - entry.start for entry in checked(content).events)


def test_a_zone_is_described_for_the_years_around_alone() -> None:
    lines = unfolded(calendar_bytes(ZONED))
    assert sum(line.startswith("BEGIN:STANDARD") for line in lines) < 8
    assert len(calendar_bytes(ZONED)) < 3000
    years = {line[8:12] for line in lines if line.startswith("DTSTART:") and not line.endswith("Z")}
    assert years <= {"2025", "2026", "2027"}


@pytest.mark.parametrize(
    ("moment", "utc"),
    [
        # the first 02:30 is CEST, the second CET
        (datetime(2026, 10, 25, 2, 30, tzinfo=BERLIN), "2026-10-25T00:30:00.000Z"),
        (datetime(2026, 10, 25, 2, 30, fold=1, tzinfo=BERLIN), "2026-10-25T01:30:00.000Z"),
        # on the days of January before any change of the year, and in summer
        (datetime(2026, 1, 1, 0, 30, tzinfo=BERLIN), "2025-12-31T23:30:00.000Z"),
        (datetime(2026, 7, 1, 12, tzinfo=DENVER), "2026-07-01T18:00:00.000Z"),
        # a distance from UTC without a name
        (
            datetime(2026, 7, 1, 12, tzinfo=timezone(timedelta(hours=5, minutes=30))),
            "2026-07-01T06:30:00.000Z",
        ),
        (datetime(2026, 7, 1, 12, tzinfo=UTC), "2026-07-01T12:00:00.000Z"),
    ],
)
def test_every_moment_is_the_one_that_was_meant(moment: datetime, utc: str) -> None:
    content = calendar_bytes(job(event(start=moment)))
    assert by_ical_js(content)["events"][0]["start"]["utc"] == utc
    checked(content)


# in the site


def test_a_calendar_is_written_listed_and_taken_away_again(
    write: Callable[..., Any], into: Path, contents: Callable[[Path], Mapping[str, str]]
) -> None:
    path = FULL.path
    page = Page(path="index.html", html=f'<a href="{path}">The plan</a>')
    report, log = write(Site(pages=(page,), calendars=(FULL,)))
    assert not log.has_errors
    assert path in report.added
    assert (into / path).read_bytes() == calendar_bytes(FULL)
    listed = json.loads((into / ".potherb.json").read_text())["files"]
    assert listed[path] == contents(into)[path]
    again, _ = write(Site(pages=(page,), calendars=(FULL,)))
    assert again.changed == 0
    gone, _ = write(Site(pages=(Page(path="index.html", html="<p>None</p>"),)))
    assert gone.removed == (path,)
    assert not (into / path).exists()


def test_a_foreign_file_in_the_place_of_a_calendar_stays(write: Callable[..., Any], into: Path) -> None:
    page = Page(path="index.html", html="<p>None</p>")
    write(Site(pages=(page,)))
    foreign = into / FULL.path
    foreign.parent.mkdir(parents=True)
    foreign.write_text("mine")
    report, log = write(Site(pages=(page,), calendars=(FULL,)))
    assert [problem.slug for problem in log] == ["foreign-file"]
    assert not report.done
    assert foreign.read_text() == "mine"
