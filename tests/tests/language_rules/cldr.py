"""What the Unicode CLDR says of each of the locales on standard input, through PyPI's Babel, as JSON."""

import json
import sys
from datetime import date, timedelta

from babel import Locale
from babel.dates import format_date
from babel.lists import format_list

FIELDS = {
    "EEEE": "{weekday}",
    "d": "{day}",
    "MMMM": "{month}",
    "y": "{year}",
    "HH": "{hour}",
    "H": "{short_hour}",
    "mm": "{minute}",
}


def ours(pattern):
    """A CLDR pattern with our placeholders."""
    out, at, quoted = "", 0, False
    while at < len(pattern):
        one = pattern[at]
        if one == "'":
            quoted, at = not quoted, at + 1
        elif one.isalpha() and not quoted:
            run = len(pattern[at:]) - len(pattern[at:].lstrip(one))
            out, at = out + FIELDS[one * run], at + run
        else:
            out, at = out + one, at + 1
    return out


def rules(name):
    locale = Locale.parse(name)
    weekdays = locale.days["format"]["wide"]
    months = locale.months["format"]["wide"]
    first = date(2028, 1, 1)
    return {
        "weekday": [weekdays[day] for day in range(7)],
        "month": [months[month] for month in range(1, 13)],
        "full_date": ours(locale.date_formats["full"].pattern),
        "short_time": ours(locale.time_formats["short"].pattern),
        "lists": [format_list([f"<{at}>" for at in range(n)], locale=locale) for n in (2, 3, 4)],
        "plurals": [locale.plural_form(n) for n in range(201)],
        "year_2028": [format_date(first + timedelta(day), "full", locale=locale) for day in range(366)],
    }


print(json.dumps({name: rules(name) for name in json.load(sys.stdin)}))
