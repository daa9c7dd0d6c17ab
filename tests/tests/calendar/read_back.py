"""Reads an iCalendar file from standard input with PyPI's icalendar, and writes what it understood as JSON."""

import json
import sys
from datetime import date, datetime, timezone

import icalendar


def when(prop):
    if prop is None:
        return None
    value = prop.dt
    if isinstance(value, datetime):
        # A time without a zone would be read differently on each phone.
        assert value.tzinfo is not None, f"{value} floats"
        return value.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
    assert isinstance(value, date)
    return value.isoformat()


def alarm(component):
    return {
        "action": str(component["ACTION"]),
        "description": str(component["DESCRIPTION"]),
        "seconds": component["TRIGGER"].dt.total_seconds(),
        "related": component["TRIGGER"].params.get("RELATED", "START"),
    }


def event(component):
    return {
        "uid": str(component["UID"]),
        "sequence": int(component["SEQUENCE"]),
        "stamp": when(component["DTSTAMP"]),
        "start": when(component["DTSTART"]),
        "end": when(component.get("DTEND")),
        "summary": str(component["SUMMARY"]),
        "description": str(component["DESCRIPTION"]),
        "class": str(component["CLASS"]),
        "transparent": str(component["TRANSP"]),
        "organizer": str(component["ORGANIZER"]),
        "organizer_name": str(component["ORGANIZER"].params["CN"]),
        "alarms": [alarm(one) for one in component.walk("VALARM")],
    }


calendar = icalendar.Calendar.from_ical(sys.stdin.buffer.read())
faults = [str(fault) for part in calendar.walk() for fault in part.errors]
json.dump(
    {
        "faults": faults,
        "version": str(calendar["VERSION"]),
        "method": str(calendar["METHOD"]),
        "product": str(calendar["PRODID"]),
        "events": [event(one) for one in calendar.walk("VEVENT")],
    },
    sys.stdout,
)
