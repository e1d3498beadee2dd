"""A date and a time as typed in, a moment out: `2026-12-05 08:00`, with a zone behind it if clocks may change.

The zone is a name of the IANA time zone database (`Europe/Berlin`); an hour that a change of clocks brings twice
wants its distance from UTC as well: `2026-10-25 02:30+01:00 Europe/Berlin`.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta, timezone
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from generator.model.moment import Moment
from generator.read.number import AmountError

HINT = "Write a date and a time, such as 2026-12-05 08:00, or with a zone: 2026-12-05 08:00 America/Denver."
FIRST_YEAR, LAST_YEAR = 2000, 2199
"Source: house choice: a year outside is a slip of the finger."
FARTHEST_H = 14
"[h] from UTC. Source: IANA time zone database, Pacific/Kiritimati; the farthest there is."

_MOMENT = re.compile(
    r"(\d{4})-(\d{2})-(\d{2})(?:T| +)(\d{1,2}):(\d{2})(?::00)?"
    r"(?P<offset> ?[+-]\d{2}:\d{2}|Z)?(?P<zone> +[A-Za-z][\w+/-]*)?"
)


def _unreadable(message: str, hint: str = HINT) -> AmountError:
    return AmountError("unreadable-moment", message, hint)


def parse_moment(text: str) -> Moment:
    """Raises AmountError for what is no date and time, for an hour that does not exist, and for one that is twice."""
    match = _MOMENT.fullmatch(text.strip())
    if match is None:
        raise _unreadable("this is no date and time.")
    try:
        year, month, day, hour, minute = (int(part) for part in match.groups()[:5])
        moment = datetime(year, month, day, hour, minute)
    except ValueError as error:
        raise _unreadable("there is no such day or hour.") from error
    if not FIRST_YEAR <= moment.year <= LAST_YEAR:
        raise _unreadable(f"the year is not from {FIRST_YEAR} to {LAST_YEAR}.")
    offset, zone = match["offset"], match["zone"]
    if offset is not None:
        return _at_offset(moment, offset.strip(), zone)
    return moment if zone is None else _in_zone(moment, _zone(zone))


def _zone(name: str) -> ZoneInfo:
    try:
        return ZoneInfo(name.strip())
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        hint = "Write it as the IANA time zone database does: Europe/Berlin, America/Denver."
        raise _unreadable(f"'{name.strip()}' is no time zone that is known here.", hint) from error


def _at_offset(moment: Moment, offset: str, zone: str | None) -> Moment:
    """The one moment meant, by the clock of its zone where that is told too."""
    found = moment.replace(tzinfo=UTC if offset == "Z" else _distance(offset))
    if zone is None:
        return found
    local = found.astimezone(_zone(zone))
    if local.replace(tzinfo=None) != moment:
        message = f"in {zone.strip()} the clock is not {offset} from UTC then."
        raise _unreadable(message, "Leave one of the two out.")
    return local


def _distance(offset: str) -> timezone:
    hours, minutes = int(offset[1:3]), int(offset[4:6])
    if minutes >= 60 or hours * 60 + minutes > FARTHEST_H * 60:
        raise _unreadable(f"no clock is {offset} from UTC.")
    span = timedelta(hours=hours, minutes=minutes)
    return timezone(-span if offset[0] == "-" else span)


def _in_zone(moment: Moment, zone: ZoneInfo) -> Moment:
    """The moment of a local clock. Where clocks go forward there is none, where they go back there are two."""
    first = moment.replace(tzinfo=zone)
    if first.astimezone(UTC).astimezone(zone).replace(tzinfo=None) != moment:
        hint = "Clocks go forward over this hour: take one before or behind it."
        raise _unreadable(f"there is no such hour in {zone.key} on that day.", hint)
    second = first.replace(fold=1)
    if first.utcoffset() != second.utcoffset():
        which = " or ".join(f"{moment:%Y-%m-%d %H:%M}{_offset(one)} {zone.key}" for one in (first, second))
        raise _unreadable(f"this hour comes twice in {zone.key} on that day.", f"Write {which}.")
    return first


def _offset(moment: Moment) -> str:
    return moment.isoformat()[-6:]
