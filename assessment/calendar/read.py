# Reads a calendar with Debian's python3-icalendar and says what is in it, as JSON.
import json, sys
from icalendar import Calendar

c = Calendar.from_ical(sys.stdin.buffer.read())
print(json.dumps([{"uid": str(e["UID"]), "summary": str(e["SUMMARY"]), "from": e["DTSTART"].dt.isoformat(), "until": e["DTEND"].dt.isoformat(), "sequence": int(e["SEQUENCE"]), "stamp": e["DTSTAMP"].dt.isoformat()}
                  for e in c.walk("VEVENT")]))
