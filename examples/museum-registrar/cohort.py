"""Writes two files beside this one: cohort.csv, the answers of an invented room of 60 people to the demo's 52-item diagnostic, and
outcomes.csv, the official results of those who sat the exam a month later, as correct answers per topic.

    python3 examples/museum-registrar/cohort.py

Everything is made up with a fixed seed. Two faults are put in on purpose: the key of item 17 is wrong, and item 31 is too easy.
One person hurries through the last items, and some run out of time. Between diagnostic and exam everyone studied a little; three people
did not sit the exam, and two results came as bands.
"""
import csv
import math
import pathlib
import random

here = pathlib.Path(__file__).parent
rng = random.Random(20261114)
MISKEYED, TOO_EASY, HURRIED = "17", "31", 23


def normal(mean, sd):
    # Box-Muller on the generator's plain numbers, whose sequence Python promises to keep.
    return mean + sd * math.sqrt(-2 * math.log(1 - rng.random())) * math.cos(2 * math.pi * rng.random())


with open(here / "mara-venn.csv", newline="") as file:
    items = [(r["item"], r["topic"], r["subtopic"]) for r in csv.DictReader(file) if r["attempt"] == "autumn diagnostic"]
assert len(items) == 52

given = ["Abel", "Brisa", "Corin", "Delphe", "Edda", "Fenn", "Gilda", "Hale", "Isolt", "Joss"]
family = ["Amberlow", "Brackwater", "Cindermoor", "Dovesey", "Eastwick-Thorn", "Fallowby"]
people = [f"{g} {f}" for f in family for g in given]

facts = {}
for label, _, _ in items:
    key = "ABCD"[int(rng.random() * 4)]
    facts[label] = dict(
        key=key,
        shown="ABCD"[("ABCD".index(key) + 1) % 4] if label == MISKEYED else key,
        slope=math.exp(normal(0.25, 0.25)),
        hard=-5.0 if label == TOO_EASY else 0.1 if label == MISKEYED else normal(0.1, 0.8),
        wrong=[0.2 + rng.random() for _ in range(3)],
        time=normal(3.9, 0.25),
        blur=0.25 + 0.2 * rng.random(),
    )

rows, abilities = [], []
for number, person in enumerate(people):
    ability, speed = normal(0.3, 1.0), normal(0, 0.22)
    by_topic = {}
    clock = 0.0
    for place, (label, topic, subtopic) in enumerate(items):
        fact = facts[label]
        skill = ability + by_topic.setdefault(topic, normal(0, 0.4))
        knows = rng.random() < 1 / (1 + math.exp(-fact["slope"] * (skill - fact["hard"])))
        seconds = math.exp(normal(fact["time"] - speed, fact["blur"]))
        hurried = number == HURRIED and place >= 40
        if hurried:
            knows, seconds = False, 1.5 + 2 * rng.random()
        clock += seconds
        omitted = not knows and not hurried and rng.random() < 0.04
        if knows:
            chosen = fact["key"]
        elif rng.random() < 0.25:
            chosen = fact["key"]
        else:
            pick, chosen = rng.random() * sum(fact["wrong"]), None
            for option, weight in zip([o for o in "ABCD" if o != fact["key"]], fact["wrong"]):
                pick -= weight
                if chosen is None and pick <= 0:
                    chosen = option
        doubt = rng.random()
        sure = ("certain" if doubt < 0.45 else "sure" if doubt < 0.85 else "unsure") if knows else \
               ("guess" if doubt < 0.4 else "unsure" if doubt < 0.8 else "sure" if doubt < 0.95 else "certain")
        blank = omitted or clock > 60 * 60
        rows.append([person, "autumn diagnostic", "diagnostic", "2026-11-14", label, topic, subtopic,
                     "" if blank else chosen, fact["shown"], "" if blank else f"{seconds:.0f}", "" if blank else sure])

    abilities.append((ability, by_topic))

with open(here / "cohort.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["candidate", "attempt", "kind", "date", "item", "topic", "subtopic", "chosen", "key", "seconds", "sure"])
    out.writerows(rows)

# The exam: items of the blueprint's numbers per topic, the items and the whole form a little harder or easier by chance.
NOT_SAT, IN_BANDS = (4, 31, 58), (12, 47)
exam_items = {"Cataloguing": 23, "Preventive conservation": 21, "Handling and packing": 18, "Emergency plans": 13,
              "Loans and insurance": 21, "Title and ethics": 15, "Acquisition and disposal": 11, "Copyright and images": 8}
form = {topic: [(math.exp(normal(0.25, 0.25)), normal(0.45, 0.8)) for _ in range(n)] for topic, n in exam_items.items()}
results = []
for number, person in enumerate(people):
    ability, by_topic = abilities[number]
    studied = abs(normal(0.1, 0.15))
    for topic, curves in form.items():
        skill = ability + by_topic[topic] + studied
        right = sum(rng.random() < 0.25 + 0.75 / (1 + math.exp(-slope * (skill - hard))) for slope, hard in curves)
        low = 20 * min(4, max(0, math.ceil(100 * right / len(curves) / 20) - 1))
        band = f"{low + 1 if low else 0}-{low + 20} %"
        if number not in NOT_SAT:
            count = ["", "", band] if number in IN_BANDS else [right, len(curves), ""]
            results.append([person, "official exam", "official", "2026-12-16", topic, *count])

with open(here / "outcomes.csv", "w", newline="") as file:
    out = csv.writer(file, lineterminator="\n")
    out.writerow(["candidate", "attempt", "kind", "date", "topic", "correct", "items", "band"])
    out.writerows(results)
