#!/usr/bin/python3
"""The user's page "How far to trust this", made from test results: tests/trust.py TEST-PROGRAM LOG-FOLDER [--check]

Runs the checks against the outside world and the laws, reads what they counted, adds what the comparisons with other
programs printed into LOG-FOLDER, and writes web/shell/trust.html. With --check it writes nothing and fails when the
page in the checkout names a check that the test program no longer has (that those pass, its own run says), or counts other
comparisons than the logs that are there.
"""
import html
import os
import re
import subprocess
import sys
import time
import xml.etree.ElementTree as ElementTree

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
PAGE = os.path.join(ROOT, "web", "shell", "trust.html")

FOLDERS = [
    ("outside", "Against published numbers and other people's worked examples",
     "Each line is a check that runs with every change. The letter and number in brackets is the row of the table that "
     "names author, title, page and tolerance."),
    ("identities", "Laws that must hold for every boat",
     "Each law is held against every boat that comes with the app, at several fills of the tank, in fresh and in salt water."),
]
# Log, what it says, and whether every run of tests/run makes it (else `tests/run --outside` alone, and the page says when).
LOGS = [
    ("density.log", "Two libraries for the density of water (IAPWS-95 and TEOS-10, of Debian), over every temperature and salinity that "
     "the app takes", True),
    ("manifold.log", "Another geometry library (manifold-3d) clips the same bodies", True),
    ("cgal.log", "A third geometry library (CGAL), which decides by exact arithmetic, clips them too", False),
    ("second-method.log", "Rest positions by a second method that shares no code with ours (volumes summed over a cloud of points, energy "
     "minimised by SciPy), drafts within 0.25 mm, attitudes within 0.1 degrees", False),
    ("native-is-wasm.log", "The program for the browser gives the same numbers as the one for the terminal", True),
]
UNKNOWN = [
    "How your boat really weighs and where: it knows what you typed. A dip tells more than any sum; enter it in the log.",
    "Waves, wind, speed, planes and propeller: everything here is a boat at rest in still water.",
    "Air that clings or is caught where you did not say so, water that soaks in, a leak.",
    "The true thickness of a skin: 0.1 mm on a large hull is tens of grams of buoyancy. Weigh the hull and dip it.",
    "Whether a cylinder holds. Strength figures are estimates from data sheets' ranges and ask for a wet pressure test "
    "behind cover.",
    "Local rules, and what the people who know your water know.",
]
STYLE = """body{font:17px/1.45 system-ui,sans-serif;color:#10202e;background:#f3f6fa;margin:0 auto;max-width:46rem;padding:1rem}
h1{font-size:1.5rem}h2{font-size:1.2rem;margin-top:2rem}li{margin:.35rem 0}
a.back{display:inline-block;min-height:44px;line-height:44px;padding:0 1rem;border-radius:8px;background:#0b4872;color:#fff;text-decoration:none}
.failed{color:#8c1020;font-weight:bold}"""


def casesOf(program, folder):
    """[(sentence, passed)] in the order of the files, and how many single comparisons they made."""
    run = subprocess.run([program, "-r=xml", f"--source-file=*tests/{folder}/*"], capture_output=True, text=True, check=False)
    cases, comparisons = [], 0
    for case in ElementTree.fromstring(run.stdout).iter("TestCase"):
        result = case.find("OverallResultsAsserts")
        if result is None:
            continue  # not of this folder
        cases.append((case.get("name"), result.get("test_case_success") == "true"))
        comparisons += int(result.get("successes"))
    return cases, comparisons


def roughly(n):
    """Two digits are enough, and stay the same from run to run."""
    size = 10 ** max(0, len(str(n)) - 2)
    return f"{n // size * size:,}".replace(",", "\u202f")


def sentence(text):
    start = text[0] if text[1] == "-" else text[0].upper()  # n-butane
    return html.escape(start + text[1:]) + "."


def othersSay(logs):
    """[(title, sentence)] of the logs that are there, by their last lines."""
    out = []
    for name, title, every in LOGS:
        path = os.path.join(logs, name)
        if not os.path.exists(path) or os.path.getsize(path) == 0:
            continue
        with open(path, encoding="utf-8") as file:
            last = file.read().strip().splitlines()[-1]
        day = "" if every else time.strftime(" (a longer run, last on %Y-%m-%d)", time.gmtime(os.path.getmtime(path)))
        out.append((title, f"{html.escape(title)}: {html.escape(last.split(' (')[0])}{day}."))
    return out


def page(program, logs):
    parts = ["<!doctype html>", '<html lang="en"><meta charset="utf-8">',
             '<meta name="viewport" content="width=device-width, initial-scale=1">', "<title>How far to trust this</title>",
             f"<style>{STYLE}</style>", "<h1>How far to trust this</h1>", '<p><a class="back" href="./">Back to the boat</a></p>',
             "<p>Made by the tests, not typed: every line of the lists below is a check that was run on the program in your "
             "hand.</p>"]
    failed = 0
    for folder, title, words in FOLDERS:
        cases, comparisons = casesOf(program, folder)
        failed += sum(not good for _, good in cases)
        parts.append(f"<h2>{title}</h2><p>{words} {len(cases)} checks, more than {roughly(comparisons)} single comparisons.</p><ul>")
        parts += [f"<li>{sentence(name)}" + ("" if good else ' <span class="failed">Failed.</span>') + "</li>" for name, good in cases]
        parts.append("</ul>")
    lines = [line for _, line in othersSay(logs)]
    if lines:
        parts.append("<h2>Against other programs</h2><ul>")
        parts += [f"<li>{line}</li>" for line in lines]
        parts.append("</ul>")
    parts.append("<h2>What it does not know</h2><ul>")
    parts += [f"<li>{html.escape(text)}</li>" for text in UNKNOWN]
    parts.append("</ul></html>")
    return "\n".join(parts) + "\n", failed


def checksIn(text):
    """The checks that a page names; numbers that differ from machine to machine left out."""
    return re.findall(r"<li>(.*?)</li>", text.split("<h2>Against other programs")[0].split("<h2>What it does")[0])


def counts(line):
    """Its whole numbers: what was compared and what failed. How close, and the day, differ from run to run."""
    return re.findall(r"(?<![\d.e+-])\d+(?![\d.e-])", line)


def otherThan(text, logs):
    """What the page says of other programs whose logs are there and count otherwise."""
    said = re.findall(r"<li>(.*?)</li>", text.split("<h2>Against other programs")[-1].split("<h2>What it does")[0])
    wrong = []
    for title, line in othersSay(logs):
        of_it = [s for s in said if s.startswith(html.escape(title))]
        wrong += [line for s in of_it if counts(s.split(" (a longer")[0]) != counts(line.split(" (a longer")[0])]
    return wrong


def check(program, logs):
    listed = subprocess.run([program, "-ltc", "-r=xml"], capture_output=True, text=True, check=True).stdout
    known = {sentence(case.get("name")) for case in ElementTree.fromstring(listed).iter("TestCase")}
    with open(PAGE, encoding="utf-8") as file:
        text = file.read()
    named = checksIn(text)
    gone = [name for name in named if name not in known]
    for name in gone:
        print("web/shell/trust.html names a check that is gone:", name)
    wrong = otherThan(text, logs)
    for line in wrong:
        print("web/shell/trust.html does not say what a log of another program does:", line)
    if gone or wrong:
        print("Run tests/trust.py and commit the page.")
    print(f"{len(named)} checks named")
    return 1 if gone or wrong or not named else 0


def main():
    program, logs = sys.argv[1:3]
    if "--check" in sys.argv[3:]:
        return check(program, logs)
    made, failed = page(program, logs)
    with open(PAGE, "w", encoding="utf-8") as file:
        file.write(made)
    print(f"{PAGE}: {len(checksIn(made))} checks, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
