"""Writes candidates.csv beside this file: when the invented people of cohort.csv can study. The exam day is left out; it is given once for everybody.

    python3 examples/museum-registrar/candidates.py
"""
import csv
import pathlib
import random

here = pathlib.Path(__file__).parent
rng = random.Random(20261128)

with open(here / "cohort.csv", newline="") as file:
    people = list(dict.fromkeys(r["candidate"] for r in csv.DictReader(file)))
assert len(people) == 60

EVENINGS = ["Mon Wed Fri 19:00-20:30", "Mon to Thu 18:30-20:00", "Tue Thu 18:00-21:00", "Monday and Wednesday 20:00-22:00", "Mon-Fri 12:15-12:45, 19:30-20:30", "Tue 18:00-19:15, Thu 18:30-21:00"]
WEEKENDS = ["Sat 9:00-12:00", "Sat 9:30-13:00; Sun 16:00-18:00", "Sun 10:00-12:30", "Sat Sun 14:00-16:00", ""]
LIMITS = ["", "", "", "3 h", "2.5 h", "150 min"]

with open(here / "candidates.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["candidate", "free", "zone", "daily limit", "note"])
    for number, person in enumerate(people):
        free = "; ".join(part for part in (rng.choice(EVENINGS), rng.choice(WEEKENDS)) if part)
        zone = "Europe/Dublin" if number in (7, 31) else ""
        out.writerow([person, free, zone, rng.choice(LIMITS), "works shifts until spring" if number == 12 else ""])
