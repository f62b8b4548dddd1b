import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { DrawError } from "../../src/draw/drawError.ts";
import { drawPng } from "../../src/draw/drawPng.ts";
import { drawSvg } from "../../src/draw/drawSvg.ts";
import { importPackage } from "../../src/draw/importPackage.ts";
import type { FigureSpec } from "../../src/render/figures/types.ts";
import { root } from "../house/root.ts";

const $schema = "https://vega.github.io/schema/vega-lite/v5.json";
const points: FigureSpec = {
  $schema,
  description: "Three <points> & more",
  usermeta: { title: "A </title><script>x</script>" },
  data: { values: [{ x: 1 / 3 }, { x: 2 }] },
  mark: { type: "point", clip: true },
  encoding: { x: { field: "x", type: "quantitative" } },
};

describe("drawSvg", () => {
  test("gives the same bytes each time, also while others are drawn", async () => {
    const [first, second] = await Promise.all([drawSvg(points), drawSvg(points)]);
    expect(second).toBe(first);
    expect(await drawSvg(points)).toBe(first);
  });

  test("writes role, escaped title and description, a frame that scales, short numbers, fonts with a way out", async () => {
    const svg = await drawSvg(points);
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" role="img"/);
    expect(svg).toContain("<title>A &lt;/title&gt;&lt;script&gt;x&lt;/script&gt;</title>");
    expect(svg).toContain("<desc>Three &lt;points&gt; &amp; more</desc>");
    expect(svg).toMatch(/ viewBox="[-\d.]+ [-\d.]+ [\d.]+ [\d.]+"/);
    // What vega says of a point for those who cannot see it is data, not a length.
    expect(svg.replaceAll(/ aria-label="[^"]*"/g, "")).not.toMatch(/="[^"]*\d\.\d{3}/);
    expect(svg).toMatch(/font-family="[^"]*sans-serif"/);
    expect(await drawSvg(points, { title: "Other", alt: "Words" })).toContain("<title>Other</title><desc>Words</desc>");
  });

  test("names no address but that of the SVG namespace, and ids that no other figure has", async () => {
    const other = { ...points, data: { values: [{ x: 5 }] } };
    const [one, two] = [await drawSvg(points), await drawSvg(other)];
    for (const svg of [one, two]) {
      expect(svg.match(/https?:\/\/[^"]+/g)).toEqual(["http://www.w3.org/2000/svg"]);
      expect(svg).not.toContain("<script");
    }
    const ids = (svg: string): string[] => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!);
    expect(ids(one).length).toBeGreaterThan(0);
    for (const id of ids(one)) expect(one).toContain(`url(#${id})`);
    expect(ids(one).filter((id) => ids(two).includes(id))).toEqual([]);
  });

  test.for(["http://127.0.0.1:9/x.json", "file:///etc/hostname", "package.json"])(
    "a specification that names %s is refused",
    async (url) => {
      await expect(drawSvg({ ...points, data: { url } })).rejects.toThrow(DrawError);
      await expect(drawSvg({ ...points, data: { url } })).rejects.toThrow(
        `Put the data into the figure: it names ${url}, and nothing is fetched`,
      );
    },
  );

  test("an image is not fetched either", async () => {
    const image = {
      $schema,
      data: { values: [{ u: "http://127.0.0.1:9/x.png" }] },
      mark: "image",
      encoding: { url: { field: "u", type: "nominal" } },
    };
    await expect(drawSvg(image)).rejects.toThrow("it names http://127.0.0.1:9/x.png, and nothing is fetched");
  });

  test("what is no specification is an error that says so", async () => {
    await expect(drawSvg({ $schema, mark: "blob" })).rejects.toThrow(DrawError);
    await expect(drawSvg({ $schema })).rejects.toThrow(DrawError);
  });

  test("a package that is absent is named with the command that brings it", async () => {
    const absent = "no-such-package";
    const load = (): Promise<unknown> => import(/* @vite-ignore */ absent);
    await expect(importPackage("no-such-package", load)).rejects.toThrow(
      "Install no-such-package to draw figures: npm install no-such-package",
    );
  });
});

describe("drawPng", () => {
  /** Width and height stand in the header (PNG specification, 11.2.2 IHDR). */
  const sizeOf = (png: Uint8Array): number[] => {
    const view = new DataView(png.buffer, png.byteOffset);
    return [view.getUint32(16), view.getUint32(20)];
  };

  test("draws the SVG at twice its size, or at the resolution asked for", async () => {
    const svg = readFileSync(`${root}fixtures/expected/figures/ages.svg`, "utf8");
    const [, width, height] = / width="([\d.]+)" height="([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number];
    const png = await drawPng(svg);
    expect([...png.slice(1, 4)].map((byte) => String.fromCharCode(byte)).join("")).toBe("PNG");
    expect(Math.abs(sizeOf(png)[0]! - 2 * width)).toBeLessThanOrEqual(1);
    expect(Math.abs(sizeOf(png)[1]! - 2 * height)).toBeLessThanOrEqual(1);
    // 85 mm at 300 dpi.
    expect(Math.abs(sizeOf(await drawPng(svg, { dpi: 300 }))[0]! - (85 / 25.4) * 300)).toBeLessThan(3);
  });

  test("refuses a scale that makes no picture, and what is no SVG", async () => {
    await expect(drawPng("<svg/>", { scale: 0 })).rejects.toThrow(
      "Give a scale above 0 and up to 20 (1920 dpi), not 0",
    );
    await expect(drawPng("<svg/>", { dpi: Number.NaN })).rejects.toThrow("not NaN dpi");
    await expect(drawPng("no picture")).rejects.toThrow(DrawError);
  });
});
