#!/usr/bin/env python3
"""The calendar of last days, judged by another program: python3-icalendar reads it, and what it finds is compared with what
the book says is due.

    last_days.py PROGRAM FOLDER

Ends with status 1 and a line for each thing that is not so.
"""
import datetime
import json
import os
import subprocess
import sys

import icalendar

program, folder = sys.argv[1], sys.argv[2]
os.makedirs(folder, exist_ok=True)
world = {**os.environ, "NONRUNNER_BOOK": os.path.join(folder, "shop.book"), "XDG_STATE_HOME": os.path.join(folder, "state")}
bad = []


def run(*words):
    done = subprocess.run([program, *words], env=world, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"not so: {' '.join(words)} does its work: {done.stderr}")
    return done.stdout


def expect(what, holds):
    if not holds:
        bad.append(what)


def calendar(name):
    place = os.path.join(folder, name)
    run("due", "--calendar", place)
    with open(place, "rb") as file:
        return icalendar.Calendar.from_ical(file.read())


run("start", world["NONRUNNER_BOOK"])
run("owner", "in", "2500", "--purse", "cash")
run("buy", "pip", "900")
words = "caliper, left; with \\ and " + "é" * 60
run("receipt", "pip", "45", words, "--core", "18", "--core-by", "20d", "--id", "caliper")
run("receipt", "pip", "30", "rack", "--core", "9", "--id", "rack")
run("tool", "spring press", "60", "--back-by", "5d", "--supplier", "Millgate Parts")
first = calendar("first.ics")
events = {str(event["UID"]): event for event in first.walk("VEVENT")}
due = [each for each in json.loads(run("due", "--json"))["due"] if each["by"]]
expect("there is an event for each last day", len(events) == len(due) == 2)
days = sorted(event["DTSTART"].dt.isoformat() for event in events.values())
expect("their days are those of the book", days == sorted(each["by"] for each in due))
expect("the words come back whole", any(words in str(event["SUMMARY"]) for event in events.values()))
for event in events.values():
    alarms = event.walk("VALARM")
    expect("each has one alarm", len(alarms) == 1)
    rings = datetime.datetime.combine(event["DTSTART"].dt, datetime.time()) + alarms[0]["TRIGGER"].dt
    expect("it rings two days before", rings.date() == event["DTSTART"].dt - datetime.timedelta(days=2))
    expect("it lasts a whole day", event["DTEND"].dt - event["DTSTART"].dt == datetime.timedelta(days=1))
    expect("when it was made is said in UTC", event["DTSTAMP"].dt.utcoffset() == datetime.timedelta(0))
run("hours", "pip", "1", "brakes")
again = {str(event["UID"]) for event in calendar("again.ics").walk("VEVENT")}
expect("the names last", again == set(events))
for line in bad:
    print(f"not so: {line}")
print("a calendar of last days, read by another program" if not bad else f"{len(bad)} things are not so")
sys.exit(1 if bad else 0)
