"""A calendar job in; its file by RFC 5545 out, the same bytes for the same job.

Moments without a zone are written floating: they are read by the clock of the kitchen. Those with one carry it, and
the file describes the zone for the years it needs. The library would put in the present time and random identities
by itself, so every one of them is told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, date, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from generator.model.moment import Moment
from generator.model.page import CalendarJob, Event

if TYPE_CHECKING:
    import icalendar

NAMESPACE = UUID("16be2e38-d88d-4a37-a23f-42f12cd8da48")
"By which a step keeps its identity from one plan to the next: drawn once, for this program alone."
MADE_BY = "-//Potherb//Gathering//EN"


def calendar_bytes(job: CalendarJob) -> bytes:
    """The whole file. Two events of one name are our bug: ValueError."""
    import icalendar  # as long to load as a small book to build: only where there is a calendar

    names = [event.name for event in job.events]
    if len(set(names)) != len(names):
        raise ValueError(f"two events of one name in {job.path}")
    calendar = icalendar.Calendar()
    calendar.add("prodid", MADE_BY)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", job.name)
    for zone in _zones(job.events):
        calendar.add_component(zone)
    for event in job.events:
        calendar.add_component(_event(event, job.stamp))
    content: bytes = calendar.to_ical()
    return content


def _event(event: Event, stamp: Moment) -> icalendar.Event:
    import icalendar

    entry = icalendar.Event()
    entry.add("uid", str(uuid5(NAMESPACE, event.name)))
    entry.add("dtstamp", stamp.astimezone(UTC) if stamp.tzinfo else stamp.replace(tzinfo=UTC))
    start, end = _written(event.start), _written(event.end)
    entry.add("dtstart", start)
    if _instant(event.end) > _instant(event.start):  # an end that is no later than the start is not allowed
        entry.add("dtend", end)
    entry.add("summary", event.summary)
    if event.description:
        entry.add("description", event.description)
    entry.add("transp", "TRANSPARENT")  # meat in its brine keeps nobody from going out
    if event.alarm_min is not None:
        entry.add_component(_alarm(event, event.alarm_min))
    return entry


def _alarm(event: Event, minutes: int) -> icalendar.Alarm:
    import icalendar

    alarm = icalendar.Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", event.summary)
    alarm.add("trigger", timedelta(minutes=-minutes))
    return alarm


def _written(moment: Moment) -> Moment:
    """By its zone where that says which moment is meant. In an hour that comes twice readers differ: told in UTC."""
    if moment.tzinfo is None:
        return moment
    is_twice = moment.replace(fold=0).utcoffset() != moment.replace(fold=1).utcoffset()
    has_name = isinstance(moment.tzinfo, ZoneInfo) and moment.tzinfo.key != "UTC"
    return moment if has_name and not is_twice else moment.astimezone(UTC)


def _instant(moment: Moment) -> Moment:
    return moment.astimezone(UTC) if moment.tzinfo else moment


def _zones(events: Iterable[Event]) -> Iterator[icalendar.Timezone]:
    """Each zone that is named, by name, from the year before its first moment to the one after its last."""
    import icalendar

    found: dict[str, list[Moment]] = {}
    for event in events:
        for moment in (_written(event.start), _written(event.end)):
            if isinstance(moment.tzinfo, ZoneInfo):
                found.setdefault(moment.tzinfo.key, []).append(moment)
    for name, moments in sorted(found.items()):
        years = [moment.year for moment in moments]
        first, last = date(min(years) - 1, 1, 1), date(max(years) + 1, 12, 31)
        yield icalendar.Timezone.from_tzid(name, first_date=first, last_date=last)
