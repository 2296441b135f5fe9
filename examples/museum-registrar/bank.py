"""Writes bank.csv and quick.csv beside this file: an item bank for the demo's certificate, and a room in the middle of a quick diagnostic from it.

    python3 examples/museum-registrar/bank.py

Nothing here was calibrated on anybody: the 96 items' parameters are drawn from plain distributions with a fixed seed, and the answers of seven
invented people from those parameters. A real bank comes from the answers of a few hundred people.
"""
import csv
import math
import pathlib
import random

here = pathlib.Path(__file__).parent
rng = random.Random(20261120)
TOPICS = {
    "Cataloguing": "CA", "Preventive conservation": "PC", "Handling and packing": "HP", "Emergency plans": "EP",
    "Loans and insurance": "LI", "Title and ethics": "TE", "Acquisition and disposal": "AD", "Copyright and images": "CI",
}
PER_TOPIC, ROOM_ITEMS = 12, 10


def normal(mean, sd):
    # Box-Muller on the generator's plain numbers, whose sequence Python promises to keep.
    return mean + sd * math.sqrt(-2 * math.log(1 - rng.random())) * math.cos(2 * math.pi * rng.random())


bank = []
for topic, prefix in TOPICS.items():
    for number in range(1, PER_TOPIC + 1):
        slope = round(min(2.5, max(0.5, math.exp(normal(0.1, 0.3)))), 2)
        guessing = round(min(0.35, max(0.1, normal(0.22, 0.05))), 2)
        bank.append((topic, f"{prefix}-{number:02}", slope, round(normal(0, 1), 2), guessing))

with open(here / "bank.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["topic", "item", "model", "discrimination", "difficulty", "guessing"])
    out.writerows([topic, label, "3PL", slope, hard, guessing] for topic, label, slope, hard, guessing in bank)

# Six people have had ten items each, two of them on every topic at most; Lena Ostrow has had five.
rows = []
for person, items in [("Lena Ostrow", 5)] + [(name, ROOM_ITEMS) for name in
                      ["Aldo Brackwater", "Bente Dovesey", "Cyr Fallowby", "Dagny Amberlow", "Emil Cindermoor", "Frida Halvard"]]:
    ability = normal(0.2, 1.0)
    skill = {topic: ability + normal(0, 0.6) for topic in TOPICS}
    order = sorted(bank, key=lambda _: rng.random())
    taken = {topic: 0 for topic in TOPICS}
    given = []
    for item in order:
        if len(given) < items and taken[item[0]] < 2:
            taken[item[0]] += 1
            given.append(item)
    for topic, label, slope, hard, guessing in given:
        chance = guessing + (1 - guessing) / (1 + math.exp(-slope * (skill[topic] - hard)))
        rows.append([person, "quick diagnostic", "diagnostic", "2026-11-24", label, topic, "yes" if rng.random() < chance else "no"])

with open(here / "quick.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["candidate", "attempt", "kind", "date", "item", "topic", "correct"])
    out.writerows(rows)
