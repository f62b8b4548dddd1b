"""Takes the nonlinear regression problems of the NIST/ITL Statistical Reference Datasets (StRD, public domain) into our form.

    python3 test/reference/strd.py FOLDER

FOLDER holds the files as NIST publishes them (Misra1a.dat, …). One `strd/<name>.json` per problem. Numbers stay text
until JSON reads them, so nothing is rounded here.
"""

import json
import platform
import re
import sys
from pathlib import Path

from common import compact

NAMES = ["Misra1a", "Gauss1", "Gauss2", "Gauss3", "Kirby2", "Hahn1", "Thurber", "MGH09", "Eckerle4"]
folder = Path(sys.argv[1])
target = Path(__file__).with_name("strd")
target.mkdir(exist_ok=True)
for name in NAMES:
    text = (folder / f"{name}.dat").read_text(encoding="ascii", errors="replace")
    head, _, rows = text.rpartition("Data:")
    parameters = [
        [float(cell) for cell in cells]
        for cells in re.findall(r"^\s*b\d+\s*=\s*(\S+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$", head, re.M)
    ]
    pairs = [[float(cell) for cell in line.split()] for line in rows.splitlines()[1:] if len(line.split()) == 2]
    count = int(re.search(r"(\d+) Observations", head)[1])
    assert len(pairs) == count, name
    number = lambda label: float(re.search(label + r":\s+(\S+)", head)[1])
    body = {
        "made_by": {"command": "python3 test/reference/strd.py", "python": platform.python_version()},
        "source": f"NIST/ITL Statistical Reference Datasets (NIST StRD), nonlinear regression, dataset {name}",
        "difficulty": re.search(r"(Lower|Average|Higher) Level of Difficulty", head)[1].lower(),
        "starts": [[row[0] for row in parameters], [row[1] for row in parameters]],
        "certified": [row[2] for row in parameters],
        "certified_deviations": [row[3] for row in parameters],
        "residual_sum_of_squares": number("Residual Sum of Squares"),
        "residual_deviation": number("Residual Standard Deviation"),
        "df": int(number("Degrees of Freedom")),
        "x": [x for _, x in pairs],
        "y": [y for y, _ in pairs],
    }
    (target / f"{name}.json").write_text(compact(json.dumps(body, indent=1, ensure_ascii=False)) + "\n", encoding="utf-8")
