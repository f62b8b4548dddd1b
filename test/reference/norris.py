"""Takes the linear regression problem Norris of the NIST/ITL Statistical Reference Datasets (StRD, public domain) into our form.

    python3 test/reference/norris.py FOLDER

FOLDER holds Norris.dat as NIST publishes it. Numbers stay text until JSON reads them, so nothing is rounded here.
"""

import re
import sys
from pathlib import Path

from common import write

text = (Path(sys.argv[1]) / "Norris.dat").read_text(encoding="ascii", errors="replace")
parameter = lambda name: [float(cell) for cell in re.search(rf"^\s+{name}\s+(\S+)\s+(\S+)\s*$", text, re.M).groups()]
pairs = [[float(cell) for cell in line.split()] for line in text.rpartition("Data:")[2].splitlines()[1:] if line.split()]
assert len(pairs) == int(re.search(r"(\d+) Observations", text)[1])
write(
    "norris",
    {
        "source": "NIST/ITL Statistical Reference Datasets (NIST StRD), linear regression, dataset Norris",
        "intercept": parameter("B0"),
        "slope": parameter("B1"),
        "residual_deviation": float(re.search(r"Standard Deviation\s+(\S+)\s*$", text.split("Residual\n")[1], re.M)[1]),
        "r_squared": float(re.search(r"R-Squared\s+(\S+)", text)[1]),
        "df": int(re.search(r"^Residual\s+(\d+)\s", text, re.M)[1]),
        "x": [x for _, x in pairs],
        "y": [y for y, _ in pairs],
    },
    [],
)
