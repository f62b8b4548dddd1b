import { cpSync, mkdirSync, renameSync, rmSync, truncateSync, unlinkSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { chooseThreads } from "../../src/files/chooseThreads.ts";
import { indexFolder } from "../../src/files/indexFolder.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { exportBytes } from "./exportBytes.ts";
import { tempFolder } from "./tempFolder.ts";

test("campaign, plan and sketches of a folder; what will be done is told first", async () => {
  const cwd = tempFolder({ "data/b_7d.txt": exportBytes({ seed: 1 }), "data/a_7d.txt": "nothing" });
  const told: string[] = [];
  const { campaign, plan, sketches, stacks } = await indexFolder("data", {
    cwd,
    protocol: "csa",
    jobs: 1,
    onPlan: ({ jobs }) => void told.push(`plan of ${jobs.length}`),
    onProgress: (done, total) => void told.push(`${done} of ${total}`),
  });
  expect(told).toEqual(["plan of 2", "1 of 2", "2 of 2"]);
  expect(plan.jobs.map(({ file, age_min }) => [file, age_min])).toEqual([
    ["a_7d.txt", 10080],
    ["b_7d.txt", 10080],
  ]);
  expect(campaign.runs.map(({ file, status }) => [file, status])).toEqual([
    ["a_7d.txt", "failed"],
    ["b_7d.txt", "done"],
  ]);
  expect(sketches.map(({ file, temperature_C }) => [file, temperature_C.length <= 300])).toEqual([["b_7d.txt", true]]);
  expect(stacks).toEqual([]);
});

test("options are not changed, and a protocol object is taken as it is", async () => {
  const folder = tempFolder({ "a.txt": exportBytes() });
  const protocol = structuredClone(protocols.csa);
  const options = Object.freeze({ protocol: Object.freeze(protocol), columns: [] });
  const { campaign } = await indexFolder(folder, options);
  expect(campaign.protocol).toEqual({ ...protocols.csa, settled: { by: "fixed edges" } });
  expect(protocol).toEqual(protocols.csa);
});

test("columns go to the files whose row names none", async () => {
  const rows = Array.from({ length: 300 }, (_, i) => `${30 + i}\t${20 - i * 0.01}\t${1000 + i * 2}`);
  const text = `${rows.join("\n")}\n`;
  const sheet = 'file,columns\na.txt,\nb.txt,"temperature=3:K,mass=2:mg"\n';
  const folder = tempFolder({ "a.txt": text, "b.txt": text, "sheet.csv": sheet });
  const { campaign } = await indexFolder(folder, {
    columns: [
      { column: "1", quantity: "temperature", unit: "°C" },
      { column: "2", quantity: "mass", unit: "mg" },
    ],
  });
  const starts = campaign.runs.map((run) => (run.status === "failed" ? null : Math.round(run.start_C)));
  expect(starts).toEqual([30, Math.round(1000 - 273.15)]);
});

test.for([0, -1, 1.5, Number.NaN])("%d jobs", async (jobs) => {
  await expect(indexFolder("x", { jobs })).rejects.toThrow(`Give a whole number of jobs from 1 on, not ${jobs}`);
});

test("problems of sheet and mixes stop everything, as data too", async () => {
  const folder = tempFolder({ "a.txt": "", "sheet.csv": "file,mix\nb.txt,M1\n", "mixes.csv": "w_b\n0.4\n" });
  const error = await indexFolder(folder, { onPlan: () => expect.unreachable("there is no plan") }).catch((e) => e);
  expect(error).toMatchObject({ name: "PlanError" });
  expect(error.problems.length).toBeGreaterThanOrEqual(2);
  expect(error.message.split("\n").length).toBe(error.problems.length);
});

test("one thread for small work, never more than files or cores", async () => {
  const folder = tempFolder({ "a.txt": "x", "b.txt": "x", "big.txt": "" });
  truncateSync(join(folder, "big.txt"), 60_000_000);
  expect(await chooseThreads(["a.txt", "b.txt", "gone.txt"], folder)).toBe(1);
  expect(await chooseThreads([], folder)).toBe(1);
  expect(await chooseThreads(["big.txt"], folder)).toBe(1);
});

test("a file that vanishes after the plan was made is a failed run; the others are complete", async () => {
  const folder = tempFolder({ "a.txt": exportBytes({ seed: 1 }), "b.txt": exportBytes({ seed: 2 }) });
  const { campaign } = await indexFolder(folder, { jobs: 1, onPlan: () => unlinkSync(join(folder, "a.txt")) });
  expect(campaign.runs.map(({ file, status }) => [file, status])).toEqual([
    ["a.txt", "failed"],
    ["b.txt", "done"],
  ]);
});

test.for(["removed", "replaced by its copy", "replaced by a file"])(
  "a folder %s while it is read: refused",
  async (how) => {
    const root = tempFolder({ "data/a.txt": exportBytes({ seed: 1 }) });
    const indexed = indexFolder("data", {
      cwd: root,
      jobs: 1,
      onProgress() {
        renameSync(join(root, "data"), join(root, "before"));
        if (how === "replaced by its copy") cpSync(join(root, "before"), join(root, "data"), { recursive: true });
        if (how === "replaced by a file") cpSync(join(root, "before", "a.txt"), join(root, "data"));
        if (how === "removed") rmSync(join(root, "before"), { recursive: true });
      },
    });
    await expect(indexed).rejects.toMatchObject({
      code: "replaced",
      message: "data: The folder was removed, moved or replaced while it was read. Run this again.",
    });
  },
);

test("a folder in which files come and go meanwhile is the same folder", async () => {
  const folder = tempFolder({ "a.txt": exportBytes({ seed: 1 }) });
  const onProgress = (): void => void mkdirSync(join(folder, "new"));
  expect((await indexFolder(folder, { jobs: 1, onProgress })).campaign.runs.length).toBe(1);
});
