"""Reads the calendar of a season with icalendar, a library of general use, and checks that it holds the planned days of the
pack's files and no others, each as a whole day under a name of its own.

usage: season-calendar.py CALENDAR PACK
"""

import datetime
import pathlib
import sys
import tomllib

import icalendar

written = pathlib.Path(sys.argv[1]).read_bytes()
calendar = icalendar.Calendar.from_ical(written)
assert not calendar.errors, calendar.errors
assert all(len(line) <= 75 for line in written.split(b"\r\n")), "a line of more than 75 octets"
events = list(calendar.walk("VEVENT"))
found = []
for event in events:
    assert not event.errors, event.errors
    for needed in ["UID", "DTSTAMP", "DTSTART", "SUMMARY"]:
        assert needed in event, needed
    day = event["DTSTART"].dt
    # A moment would be a datetime, which is a date too.
    assert type(day) is datetime.date, day
    found.append((str(event["SUMMARY"]), day.isoformat()))
assert len({str(it["UID"]) for it in events}) == len(events), "a name twice"

planned = []
for path in sorted((pathlib.Path(sys.argv[2]) / "puzzles").glob("*.toml")):
    puzzle = tomllib.loads(path.read_text())
    for key, says in [("record", "Record"), ("release", "Recording out:")]:
        if key in puzzle:
            planned.append((f"{says} {puzzle['title']}", puzzle[key]))
assert planned, "nothing is planned, so nothing was shown"
assert sorted(found) == sorted(planned), (found, planned)
print(f"{len(found)} planned days, as the files have them")
