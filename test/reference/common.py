"""Writes reference numbers beside the command and the versions that made them."""

import json
import platform
from pathlib import Path


def write(name, body, packages):
    """Writes `<name>.json` beside this file. Floats are written with 17 significant digits, so that nothing is lost."""
    made_by = {"command": f"python3 test/reference/{name}.py", "python": platform.python_version()}
    for package in packages:
        made_by[package.__name__] = package.__version__
    text = json.dumps({"made_by": made_by, **body}, indent=1, ensure_ascii=False)
    Path(__file__).with_name(f"{name}.json").write_text(compact(text) + "\n", encoding="utf-8")


def compact(text):
    """Puts arrays of plain numbers on one line."""
    import re

    return re.sub(r"\[\s+((?:[-+0-9.eE]+|null)(?:,\s+(?:[-+0-9.eE]+|null))*)\s+\]", lambda m: "[" + re.sub(r"\s+", " ", m.group(1)) + "]", text)
