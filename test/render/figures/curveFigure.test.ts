import { expect, test } from "vitest";
import { drawSvg } from "../../../src/draw/drawSvg.ts";
import { curveFigure } from "../../../src/render/figures/curveFigure.ts";
import { theme } from "../../../src/render/figures/theme.ts";
import { windowBars } from "../../../src/render/figures/windowBars.ts";

/** Two logistic steps, 20 % about 120 °C and 5 % about 300 °C, in closed form: masses and DTG peaks are known. */
const steps = [
  { at: 120, lost: 20, width: 8 },
  { at: 300, lost: 5, width: 10 },
];
const temperature_C = Array.from({ length: 480 }, (_, i) => 30 + 2 * i);
const share = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
const sketch = {
  file: "made.txt",
  temperature_C,
  mass_pct: temperature_C.map(
    (T) => 100 - steps.reduce((sum, { at, lost, width }) => sum + lost * share(T, at, width), 0),
  ),
  dtg_pct_per_C: temperature_C.map((T) =>
    steps.reduce((sum, { at, lost, width }) => {
      const s = share(T, at, width);
      return sum + (lost * s * (1 - s)) / width;
    }, 0),
  ),
};

test("the text names the masses at both ends, the peaks and what each window lost", () => {
  const windows = [
    { name: "first", from_C: 50, to_C: 220 },
    { name: "second", from_C: 220, to_C: 400 },
    { name: "hotter", from_C: 900, to_C: 1100 },
  ];
  // A logistic step is steepest where half is lost: lost / (4 · width), 0.625 and 0.125 %/°C.
  expect(curveFigure(sketch, { windows }).alt).toBe(
    "TG and DTG of made.txt: mass 100.0 % at 30 °C, 75.0 % at 988 °C. Highest DTG peaks: 120 °C (0.63 %/°C), 300 °C (0.13 %/°C). Lost between the edges, % of the initial mass: first (50–220 °C) 20.0, second (220–400 °C) 5.0, hotter (900–1100 °C) not covered.",
  );
});

test("a run that loses nothing has no peak, and is drawn", async () => {
  const figure = curveFigure({
    ...sketch,
    mass_pct: temperature_C.map(() => 100),
    dtg_pct_per_C: temperature_C.map(() => 0),
  });
  expect(figure.alt).toContain("No DTG peak.");
  expect(await drawSvg(figure.spec)).toContain("temperature / °C");
});

test.for(["full", "column"] as const)(
  "at the width %s everything is named in the picture, and both axes are there",
  async (width) => {
    const windows = [
      { name: "first", from_C: 50, to_C: 220 },
      { name: "all", from_C: 40, to_C: 500 },
    ];
    const svg = await drawSvg(curveFigure(sketch, { windows, width }).spec);
    expect(svg).toMatch(new RegExp(`^<svg [^>]*width="${theme(width).width}"`));
    for (const text of ["first", "all", "mass / % of initial", "DTG / (%/°C)", "temperature / °C", "1000"]) {
      expect(svg).toContain(`>${text}</text>`);
    }
  },
);

test("drawing changes nothing of the figure", async () => {
  const figure = curveFigure(sketch);
  const before = structuredClone(figure);
  await drawSvg(figure.spec);
  expect(figure).toStrictEqual(before);
});

test("a sketch of one point is drawn, one of none is refused", async () => {
  const one = { temperature_C: [30], mass_pct: [100], dtg_pct_per_C: [0] };
  expect(await drawSvg(curveFigure(one).spec)).toContain("<path");
  expect(() => curveFigure({ temperature_C: [], mass_pct: [], dtg_pct_per_C: [] })).toThrow(
    new RangeError("A sketch without points has no figure"),
  );
});

test("windows that overlap stand in rows of their own, those that touch in one, those outside nowhere", () => {
  const windows = [
    { name: "a", from_C: 100, to_C: 300 },
    { name: "b", from_C: 300, to_C: 500 },
    { name: "c", from_C: 200, to_C: 400 },
    { name: "d", from_C: 1100, to_C: 1200 },
    { name: "e", from_C: 900, to_C: 1200 },
  ];
  const bars = windowBars(windows, { domain: [0, 1000], length: 500, theme: theme() });
  expect(bars.map(({ label, row, from, to }) => [label, row, from, to])).toEqual([
    ["a", 0, 100, 300],
    ["b", 0, 300, 500],
    ["c", 1, 200, 400],
    ["e", 0, 900, 1000],
  ]);
});

test("labels that are wider than their windows keep apart, and inside the axis", () => {
  const windows = ["a-window-of-a-long-name", "another-of-a-long-name"].map((name, i) => ({
    name,
    from_C: 2 + 6 * i,
    to_C: 8 + 6 * i,
  }));
  const bars = windowBars(windows, { domain: [0, 1000], length: 500, theme: theme() });
  expect(bars.map(({ row }) => row)).toEqual([0, 1]);
  for (const { middle } of bars) expect(middle).toBeGreaterThan(100);
});
