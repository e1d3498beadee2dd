"""Dates and times as typed. Changes of clocks from the IANA time zone database, release 2025."""

from __future__ import annotations

import pytest

from generator.read import AmountError, parse_moment


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("2026-12-05 08:00", "2026-12-05T08:00:00"),
        ("2026-12-05T8:00", "2026-12-05T08:00:00"),
        (" 2026-12-05  08:00:00 ", "2026-12-05T08:00:00"),
        ("2026-12-05 08:00 Europe/Berlin", "2026-12-05T08:00:00+01:00"),
        ("2026-07-05 08:00 America/Denver", "2026-07-05T08:00:00-06:00"),
        ("2026-12-05 08:00-07:00", "2026-12-05T08:00:00-07:00"),
        ("2026-12-05 08:00Z", "2026-12-05T08:00:00+00:00"),
        ("2026-10-25 02:30+02:00 Europe/Berlin", "2026-10-25T02:30:00+02:00"),
        ("2026-10-25 02:30+01:00 Europe/Berlin", "2026-10-25T02:30:00+01:00"),
    ],
)
def test_moment(text: str, iso: str) -> None:
    assert parse_moment(text).isoformat() == iso


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("tomorrow", "this is no date and time"),
        ("2026-12-05", "this is no date and time"),
        ("08:00", "this is no date and time"),
        ("12/5/2026 08:00", "this is no date and time"),
        ("2026-12-05 8 am", "this is no date and time"),
        ("2026-02-29 08:00", "there is no such day or hour"),
        ("2026-12-05 24:00", "there is no such day or hour"),
        ("1926-12-05 08:00", "the year is not from 2000 to 2199"),
        ("2026-12-05 08:00 Mars/Base", "'Mars/Base' is no time zone that is known here"),
        ("2026-12-05 08:00 America", "'America' is no time zone that is known here"),
        ("2026-12-05 08:00+25:00", "no clock is +25:00 from UTC"),
        ("2026-12-05 08:00+05:00 Europe/Berlin", "in Europe/Berlin the clock is not +05:00 from UTC then"),
        ("2026-03-29 02:30 Europe/Berlin", "there is no such hour in Europe/Berlin on that day"),
        ("2026-10-25 02:30 Europe/Berlin", "this hour comes twice in Europe/Berlin on that day"),
        ("2026-11-01 01:30 America/Denver", "this hour comes twice in America/Denver on that day"),
    ],
)
def test_refusal(text: str, words: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_moment(text)
    assert words in caught.value.message
    assert caught.value.hint


def test_an_hour_that_comes_twice_is_told_how_to_write() -> None:
    with pytest.raises(AmountError) as caught:
        parse_moment("2026-11-01 01:30 America/Denver")
    assert caught.value.hint == (
        "Write 2026-11-01 01:30-06:00 America/Denver or 2026-11-01 01:30-07:00 America/Denver."
    )
    first, second = (
        parse_moment(f"2026-11-01 01:30{offset} America/Denver") for offset in ("-06:00", "-07:00")
    )
    assert (second.timestamp() - first.timestamp()) == 3600
