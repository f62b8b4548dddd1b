import { describe, expect, test } from "vitest";
import { parseProperties } from "../../src/compare/parseProperties.ts";
import { propertyCells } from "../../src/compare/propertyCells.ts";

const parse = (text: string) => parseProperties(text, { name: "p.csv" });
const heading = "mix,curing,curing_d,age_d,property,value,unit,specimen\n";

describe("rows", () => {
  test("all columns, days as minutes, a specimen by its name", () => {
    const { rows, problems } = parse(`${heading}M1,cloth,7,28,strength,41.5,MPa,A1\n`);
    expect(problems).toEqual([]);
    expect(rows).toEqual([
      {
        ...{ mix: "M1", curing: "cloth", curing_d: 7, age_min: 40320, property: "strength", specimen: "A1" },
        ...{ value: 41.5, unit: "MPa", line: 2 },
      },
    ]);
  });

  test("semicolons, decimal commas, an age with its unit, columns in any order and without specimens", () => {
    const { rows, problems } = parse(
      "property;value;unit;age;mix\nstrength;41,5;N/mm²;4h;M1\nstrength;39,0;N/mm²;4h;M1\n",
    );
    expect(problems).toEqual([]);
    expect(rows.map(({ value, age_min, curing, specimen }) => [value, age_min, curing, specimen])).toEqual([
      [41.5, 240, null, "line 2"],
      [39, 240, null, "line 3"],
    ]);
  });

  test("negative values and zero are values", () => {
    const { rows } = parse(`${heading}M1,air,0,7,length_change,-0.031,%,p\nM1,air,0,1,length_change,0,%,p\n`);
    expect(rows.map(({ value }) => value)).toEqual([-0.031, 0]);
  });
});

describe("units", () => {
  // NIST Special Publication 811 (2008), appendix B; the same in scipy.constants 1.17.1 (psi 6894.757293, kgf 9.80665 N).
  test.for([
    ["MPa", 1, 1],
    ["N/mm²", 1, 1],
    ["psi", 1, 6.894757e-3],
    ["PSI", 5000, 34.473785],
    ["ksi", 1, 6.894757],
    ["kgf/cm²", 1, 0.0980665],
    ["kPa", 1000, 1],
    ["GPa", 1, 1000],
  ] as const)("%s: %d is %d MPa", ([unit, value, MPa]) => {
    const { rows, problems } = parse(`${heading}M1,a,,1,strength,1,MPa,\nM1,a,,1,strength,${value},${unit},\n`);
    expect(problems).toEqual([]);
    expect(Math.abs(rows[1]!.value / MPa - 1)).toBeLessThan(1e-7);
    expect(rows[1]!.unit).toBe("MPa");
  });

  test.for([
    ["microstrain", 250, 250],
    ["µε", 250, 250],
    ["µstrain", 250, 250],
    ["µm/m", 250, 250],
    ["mm/m", 0.25, 250],
    ["%", 0.025, 250],
    ["percent", 0.025, 250],
    ["‰", 0.25, 250],
    ["in/in", 0.00025, 250],
  ] as const)("a change of length in %s: %d is %d microstrain", ([unit, value, microstrain]) => {
    const { rows, problems } = parse(
      `${heading}M1,a,,1,shrinkage,1,microstrain,\nM1,a,,1,shrinkage,${value},${unit},\n`,
    );
    expect(problems).toEqual([]);
    expect(rows[1]!.value).toBeCloseTo(microstrain, 9);
  });

  test("the unit of a property is that of its first row", () => {
    const { rows } = parse(`${heading}M1,a,,1,strength,4000,psi,\nM1,a,,1,strength,30,MPa,\n`);
    expect(rows.map(({ unit }) => unit)).toEqual(["psi", "psi"]);
    expect(rows[1]!.value).toBeCloseTo(30 / 6.894757e-3, 2);
  });

  test("% is a share unless the property is a change of length, by its name or by its other units", () => {
    const text = `${heading}M1,a,,1,absorption,5,%,\nM1,a,,1,expansion,0.01,%,\nM1,a,,1,expansion,50,microstrain,\nM1,a,,1,eps,0.01,%,\nM1,a,,1,eps,50,microstrain,\n`;
    const { rows, problems } = parse(text);
    expect(problems).toEqual([]);
    expect(rows.map(({ property, value, unit }) => [property, Number(value.toPrecision(9)), unit])).toEqual([
      ["absorption", 5, "%"],
      ["expansion", 0.01, "%"],
      ["expansion", 0.005, "%"],
      ["eps", 0.01, "%"],
      ["eps", 0.005, "%"],
    ]);
  });

  test("an unknown unit is kept as it is, as long as it is the only one", () => {
    const { rows, problems } = parse(`${heading}M1,a,,1,flow,140,mm spread,\nM1,b,,1,flow,150,mm spread,\n`);
    expect(problems).toEqual([]);
    expect(rows.map(({ unit }) => unit)).toEqual(["mm spread", "mm spread"]);
  });

  test("what does not convert is refused with its line, never mixed", () => {
    const { rows, problems } = parse(
      `${heading}M1,a,,1,strength,30,MPa,\nM1,a,,7,strength,12,kN,\nM1,a,,7,flow,1,a.u.,\nM1,a,,7,flow,1,mm,\n`,
    );
    expect(rows).toHaveLength(2);
    expect(problems).toEqual([
      {
        source: "p.csv",
        line: 3,
        column: "unit",
        message:
          'strength is in MPa (line 2), and "kN" does not convert into that: give it in one of MPa, N/mm2, Pa, kPa, GPa, bar, psi, ksi, kgf/cm2, or give the property another name',
      },
      {
        source: "p.csv",
        line: 5,
        column: "unit",
        message:
          'flow is in a.u. (line 4), and "mm" does not convert into that: write it in a.u., or give the property another name',
      },
    ]);
  });
});

describe("what is wrong is named with its line", () => {
  test.for([
    [
      "mix,property,value\nM1,strength,1\n",
      undefined,
      "the table of properties has no column unit: it needs mix, curing, curing_d, age_d, property, value, unit",
    ],
    [
      `${heading.trim()},colour\n`,
      1,
      '"colour" is not a column of a table of properties: it knows mix, curing, curing_d, age_d, age, property, value, unit, specimen, note',
    ],
    [
      "mix,propertie,property,value,unit\nM1,,strength,1,MPa\n",
      1,
      '"propertie" is not a column of a table of properties: did you mean property?',
    ],
    [heading, undefined, "the table of properties has no rows: write one row per measured value"],
    [`${heading}M1,a,,1,,30,MPa,\n`, 2, "the row names no property: give it one, such as strength"],
    [`${heading}M1,a,,1,strength,,MPa,\n`, 2, "the row has no value: give it one, or take the row out"],
    [
      `${heading}M1,a,,1,strength,30,,\n`,
      2,
      "the value has no unit: give it one, such as MPa, psi, microstrain or %; 1 for a plain number",
    ],
    [
      `${heading}M1,a,,1,strength,thirty,MPa,\n`,
      2,
      'write a plain number, or leave the cell empty where it is not known, not "thirty"',
    ],
    [`${heading}M1,a,28,7,strength,30,MPa,\n`, 2, "curing lasts longer (28 d) than the age (7 d): correct one of them"],
    [
      `${heading}M1,a,,1,strength,30,MPa,\nM1,a,,1,Strength,30,MPa,\n`,
      3,
      '"Strength" and "strength" (line 2) differ in capitals only: write both alike',
    ],
    [
      `${heading}M1,a,,1,length,3,%,prism A\nM1,b,,1,length,3,%,prism A\n`,
      3,
      'the specimen "prism A" has another curing in line 2: give each specimen its own name, or number the specimens of each cell 1, 2, 3',
    ],
    [
      "mix,age,property,value,unit\nM1,28,strength,1,MPa\n",
      2,
      'give the age a unit (min, h, d or w), such as 28d, not "28"',
    ],
  ] as const)("%j", ([text, line, message]) => {
    const { problems } = parse(text);
    expect(problems.map((problem) => [problem.line, problem.message])).toEqual([[line, message]]);
  });
});

describe("cells of properties", () => {
  test("values of one specimen are averaged first; three readings of one are one specimen", () => {
    const text = `${heading}M1,a,,1,strength,30,MPa,A\nM1,a,,1,strength,32,MPa,A\nM1,a,,1,strength,36,MPa,B\n`;
    const [cell] = propertyCells(parse(text).rows);
    expect(cell!.specimens).toEqual([
      { specimen: "A", value: 31 },
      { specimen: "B", value: 36 },
    ]);
    expect(cell!.value).toBe(33.5);
    const aliquots = `${heading}M1,a,,1,strength,30,MPa,A\nM1,a,,1,strength,32,MPa,A\nM1,a,,1,strength,36,MPa,A\n`;
    expect(propertyCells(parse(aliquots).rows)[0]!.specimens).toHaveLength(1);
  });

  test("strength scatters in proportion, a change of length and values of either sign by one standard deviation", () => {
    const strength =
      "M1,a,,1,strength,10,MPa,\nM1,a,,1,strength,11,MPa,\nM1,a,,28,strength,40,MPa,\nM1,a,,28,strength,43,MPa,\n";
    const length = "M1,a,,1,length,-2,%,\nM1,a,,1,length,0,%,\nM1,a,,28,length,3,%,\nM1,a,,28,length,5,%,\n";
    const cells = propertyCells(parse(heading + strength + length).rows);
    const of = (property: string) => cells.find(({ quantity }) => quantity === property)!.scatter!;
    // Squares of 0.5/10.5 and 1.5/41.5 twice each, over two degrees of freedom.
    expect(of("strength")).toMatchObject({ model: "proportional", a: 0, df: 2 });
    expect(of("strength").b).toBeCloseTo(Math.sqrt((0.5 / 10.5) ** 2 + (1.5 / 41.5) ** 2), 12);
    // √((0.5 + 4.5)/2) of the squares about each mean, each with one degree of freedom.
    expect(of("length")).toEqual({ model: "constant", a: Math.SQRT2, b: 0, df: 2 });
    const shrinkage = "M1,a,,1,shrinkage,300,microstrain,\nM1,a,,1,shrinkage,310,microstrain,\n";
    expect(propertyCells(parse(heading + shrinkage).rows)[0]!.scatter!.model).toBe("constant");
  });

  test("a property in two units is refused", () => {
    const rows = parse(`${heading}M1,a,,1,strength,10,MPa,\n`).rows;
    expect(() => propertyCells([...rows, { ...rows[0]!, unit: "psi" }])).toThrow(
      "Give strength in one unit, not in MPa and psi",
    );
  });
});
