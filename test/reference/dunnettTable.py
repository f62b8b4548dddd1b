"""Critical values of C. W. Dunnett, J Am Stat Assoc 50:1096–1121 (1955), tables 1a, 1b, 2a and 2b, and his example.

The values stand in SciPy's own tests (scipy/stats/tests/test_multicomp.py, from version 1.11 on, with the tables named);
they are taken from the installed file, not typed in. Needs a SciPy that carries its tests.
"""

import ast
from pathlib import Path

import scipy
import scipy.stats
from scipy import stats

from common import write

source = Path(scipy.stats.__file__).parent / "tests" / "test_multicomp.py"
tree = ast.parse(source.read_text(encoding="utf-8"))
test = next(node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and node.name == "test_critical_values")
cases = ast.literal_eval(test.decorator_list[0].args[1])
rows = [[rho, k, df, critical, alpha, sides] for rho, k, df, critical, alpha, sides in cases if not isinstance(critical, list)]
tables = {
    "one_sided": [row[:5] for row in rows if row[5] == "greater"],
    "two_sided": [row[:5] for row in rows if row[5] == "two-sided"],
}

constants = {
    node.targets[0].id: node.value
    for node in ast.walk(tree)
    if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name) and isinstance(node.value, ast.List)
}
read = lambda name: ast.literal_eval(constants[name])
examples = []
for number in (1, 2, 3, 4):
    samples, control = read(f"samples_{number}"), read(f"control_{number}")
    found = stats.dunnett(*samples, control=control, rng=1)
    examples.append({
        "samples": samples,
        "control": control,
        "statistic": [float(t) for t in found.statistic],
        "scipy_p": [float(p) for p in found.pvalue],
        "multcomp_two_sided": read(f"p_{number}_twosided"),
        "multcomp_greater": read(f"p_{number}_greater"),
        "multcomp_less": read(f"p_{number}_less"),
    })

write("dunnettTable", {"columns": ["rho", "comparisons", "df", "critical value", "alpha"], **tables, "examples": examples}, [scipy])
