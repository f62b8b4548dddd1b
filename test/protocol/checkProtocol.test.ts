import { describe, expect, test } from "vitest";
import { checkProtocol, ProtocolError } from "../../src/protocol/checkProtocol.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";

/** The csa protocol with one change, as it would come from a file. */
function changed(change: (document: Record<string, unknown>) => void): unknown {
  const document = structuredClone(protocols.csa) as unknown as Record<string, unknown>;
  change(document);
  return document;
}

const at = (document: Record<string, unknown>, path: (string | number)[]) =>
  path.reduce<Record<string | number, unknown>>((part, key) => part[key] as Record<string, unknown>, document);
const set = (path: (string | number)[], value: unknown) => (document: Record<string, unknown>) => {
  const parent = at(document, path.slice(0, -1));
  if (value === undefined) delete parent[path.at(-1)!];
  else parent[path.at(-1)!] = value;
};

describe("a protocol", () => {
  test("that is built in passes its own check and survives JSON", () => {
    for (const protocol of Object.values(protocols)) {
      expect(checkProtocol(JSON.parse(JSON.stringify(protocol)))).toEqual(protocol);
    }
  });

  test.for([
    [set(["windows", 0, "from_C"], 230), "p.json: windows[0] (aft-afm): from_C must lie below to_C, not 230 and 220"],
    [set(["windows", 1, "to_C"], "350"), 'p.json: windows[1].to_C must be a number, not "350"'],
    [set(["windows", 1, "to_C"], undefined), "p.json: windows[1].to_C is missing"],
    [set(["windows", 1, "form_C"], 50), "p.json: windows[1].form_C is not a field of a protocol: did you mean from_C?"],
    [set(["smothing"], {}), "p.json: smothing is not a field of a protocol: did you mean smoothing?"],
    [set(["grid", "stepp_C"], 1), "p.json: grid.stepp_C is not a field of a protocol: did you mean step_C?"],
    [set(["windows", 2, "rule"], "sum"), 'p.json: windows[2].rule must be "step", "area", "tangent", not "sum"'],
    [
      set(["windows", 2, "rule"], "tangent"),
      "p.json: windows[2] (ch-range): the rule tangent needs the field tangent with before_C and after_C",
    ],
    [set(["windows", 2, "name"], "ah3"), "p.json: windows[2] (ah3): the name is used twice; give every window its own"],
    [
      set(["windows", 2, "name"], "CH range"),
      'p.json: windows[2].name: use small letters, digits, points and hyphens, at most 40; not "CH range"',
    ],
    [set(["windows", 2, "anchor_C"], 0), "p.json: windows[2].anchor_C must be at least 0.000001, not 0"],
    [set(["windows"], []), "p.json: windows must not be empty"],
    [set(["windows", 0, "anchor_C"], 99), null],
    [set(["ignition", "temperature_C"], 700), "p.json: ignition.temperature_C must be at least 800, not 700"],
    [set(["ignition", "temperature_C"], 1100), "p.json: ignition.temperature_C must be at most 1000, not 1100"],
    [set(["basis"], "dry"), 'p.json: basis must be "ignited", "initial", "binder", not "dry"'],
    [set(["smoothing", "degree"], 2.5), "p.json: smoothing.degree must be a whole number, not 2.5"],
    [
      set(["smoothing", "width_C"], 1),
      "p.json: smoothing.width_C must span more than 4 and at most 401 grid points, not 3 (1 °C)",
    ],
    [
      set(["limits", "heating_rate_K_per_min"], [20, 5]),
      "p.json: limits.heating_rate_K_per_min must be two growing numbers above 0, not [20, 5]",
    ],
    [
      set(["limits", "heating_rate_K_per_min"], [5, 20, 40]),
      "p.json: limits.heating_rate_K_per_min must be two values, not [5,20,40]",
    ],
    [
      set(["windows", 0, "tangent"], { before_C: [50, 60, 70], after_C: [200, 210] }),
      "p.json: windows[0].tangent.before_C must be two values, not [50,60,70]",
    ],
    [set(["corrections"], []), "p.json: corrections must be an object in braces {}, not a list"],
    [set(["windows", 1, "amount"], []), "p.json: windows[1].amount must be an object in braces {}, not a list"],
    [set(["grid", "step_C"], Number.POSITIVE_INFINITY), "p.json: grid.step_C must be at most 5, not null"],
    [
      set(["limits", "heating_rate_K_per_min"], [5, Number.POSITIVE_INFINITY]),
      "p.json: limits.heating_rate_K_per_min[1] must be a finite number, not Infinity",
    ],
    [set(["grid\u001b\nx"], 1), 'p.json: "grid\\u001b\\nx" is not a field of a protocol'],
    [set(["toString"], 1), "p.json: toString is not a field of a protocol"],
    [
      set(["windows", 0, "amount"], { phase: "C6A$3\nH32", mol_lost: 26 }),
      'p.json: windows[0].amount.phase: leave out line ends and other control characters; not "C6A$3\\nH32"',
    ],
    [set(["schema"], "2"), 'p.json: schema must be "tg-hydrates/protocol/1", not "2"'],
  ] as const)("change %# is judged field by field", ([change, message]) => {
    const check = () => checkProtocol(changed(change), { name: "p.json" });
    if (message === null) expect(check).not.toThrow();
    else expect(check).toThrow(new ProtocolError(message));
  });

  test("an empty list is no object all of whose fields may be absent, however deep it lies", () => {
    const peaks = {
      from_C: 60,
      to_C: 200,
      baseline: "none",
      peaks: [{ name: "one", position_C: [100, 110], width_C: 30 }],
    };
    const check = (limits: unknown) => () =>
      checkProtocol(changed(set(["peaks"], { ...peaks, limits })), { name: "p.json" });
    expect(check({})).not.toThrow();
    expect(check([])).toThrow(new ProtocolError("p.json: peaks.limits must be an object in braces {}, not a list"));
  });

  test("of a size or depth that no protocol has is refused before its fields are looked at", () => {
    const text = (depth: number) => `{"schema": ${"[".repeat(depth)}1${"]".repeat(depth)}}`;
    for (const depth of [20, 1000, 1_000_000]) {
      expect(() => checkProtocol(JSON.parse(text(depth)), { name: "p.json" })).toThrow(
        new ProtocolError("p.json: is no protocol: its values are nested deeper than 20"),
      );
    }
    const [window] = protocols.csa.windows;
    const many = changed(
      set(
        ["windows"],
        Array.from({ length: 100_000 }, () => window),
      ),
    );
    expect(() => checkProtocol(many, { name: "p.json" })).toThrow(
      new ProtocolError("p.json: is no protocol: it has more than 10000 values"),
    );
    const some = changed(
      set(
        ["windows"],
        Array.from({ length: 60 }, () => window),
      ),
    );
    expect(() => checkProtocol(some, { name: "p.json" })).toThrow(
      new ProtocolError("p.json: windows is too long (at most 50)"),
    );
  });

  test("with several faults names them all", () => {
    const document = changed((d) => {
      set(["basis"], "dry")(d);
      set(["grid", "step_C"], 9)(d);
    });
    expect(() => checkProtocol(document, { name: "p.json" })).toThrow(
      new ProtocolError(
        'p.json: grid.step_C must be at most 5, not 9\np.json: basis must be "ignited", "initial", "binder", not "dry"',
      ),
    );
  });

  test.for([
    [null, "null"],
    [[], "[]"],
    ["csa", '"csa"'],
    [3, "3"],
  ] as const)("that is %j is no protocol", ([document, shown]) => {
    expect(() => checkProtocol(document, { name: "p.json" })).toThrow(
      new ProtocolError(`p.json: must be a JSON object, not ${shown}`),
    );
  });

  test("is settled once, and a settled one stays as it is", () => {
    const settled = settle(protocols.csa);
    expect(settled.settled).toEqual({ by: "fixed edges" });
    expect(settle({ ...settled, settled: { by: "campaign A" } }).settled).toEqual({ by: "campaign A" });
    expect("settled" in protocols.csa).toBe(false);
  });
});
