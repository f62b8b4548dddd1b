"""Takes the analysis-of-variance problems of the NIST/ITL Statistical Reference Datasets (StRD, public domain) into our form.

    python3 test/reference/nistStrd.py FOLDER

FOLDER holds the files as NIST publishes them (SiRstv.dat, AtmWtAg.dat, SmLs01.dat, SmLs04.dat). Numbers stay text
until JSON reads them, so nothing is rounded here.
"""

import re
import sys
from pathlib import Path

from common import write

folder = Path(sys.argv[1])
problems = {}
for name in ["SiRstv", "AtmWtAg", "SmLs01", "SmLs04"]:
    lines = (folder / f"{name}.dat").read_text(encoding="ascii", errors="replace").splitlines()
    text = "\n".join(lines)
    between = re.search(r"^Between \w+\s+(\d+)\s+(\S+)\s+(\S+)\s+(\S+)", text, re.M)
    within = re.search(r"^Within \w+\s+(\d+)\s+(\S+)\s+(\S+)", text, re.M)
    deviation = re.search(r"Certified Residual\s+Standard Deviation\s+(\S+)", text)
    start = next(i for i, line in enumerate(lines) if line.startswith("Data:") and i > 50)
    groups = {}
    for line in lines[start + 1 :]:
        cells = line.split()
        if len(cells) == 2:
            groups.setdefault(cells[0], []).append(float(cells[1]))
    problems[name] = {
        "groups": list(groups.values()),
        "between_df": int(between[1]),
        "between_mean_square": float(between[3]),
        "within_df": int(within[1]),
        "within_mean_square": float(within[3]),
        "f": float(between[4]),
        "residual_deviation": float(deviation[1]),
    }

write("nistStrd", {"source": "NIST/ITL Statistical Reference Datasets, analysis of variance", "problems": problems}, [])
