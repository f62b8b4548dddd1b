import { spawn } from "node:child_process";
import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { expect, test } from "vitest";
import { indexFolder } from "../../src/files/indexFolder.ts";
import { outputFiles } from "../../src/files/outputFiles.ts";
import { exportLayouts } from "../../src/simulate/exportLayouts.ts";
import { formatExport } from "../../src/simulate/formatExport.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";

const command = new URL("../../bin/tg-hydrates.js", import.meta.url).pathname;

function textOf(i: number): Buffer {
  const run = simulateRun(
    {
      sample_mg: 20,
      reactions: [placeReaction({ loss_pct: 10 + i / 10, peak_C: 115, width_C: 35 })],
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    },
    { rows: 1200, noise_ug: 1, seed: `watch ${i}` },
  );
  return Buffer.from(formatExport(run, exportLayouts.tabs));
}

test("thirty runs dropped into a watched folder, one of them slowly: each is indexed once, none half-read", async () => {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-watch-"));
  const folder = join(root, "runs");
  const names = Array.from({ length: 30 }, (_, i) => `run${String(i + 1).padStart(2, "0")}.txt`);
  mkdirSync(folder);
  // The sheet is there before the runs.
  writeFileSync(
    join(folder, "sheet.csv"),
    `file,mix,curing,age_d,specimen\n${names.map((name, i) => `${name},M1,sealed,${1 + Math.floor(i / 10)},S${i}`).join("\n")}\n`,
  );
  const args = [command, "index", folder, "--watch", "--still", "1", "--out", join(root, "results"), "--no-figures"];
  const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  child.stderr.on("data", (data) => {
    said += data;
  });
  const ended = new Promise<number | null>((done) => child.once("exit", done));
  const until = async (sign: () => boolean): Promise<void> => {
    for (let i = 0; !sign(); i++) {
      if (i > 600 || child.exitCode !== null) throw new Error(`the watch did not get there: ${said}`);
      await pause(100);
    }
  };
  try {
    await until(() => said.includes("Watching"));
    // The balance writes this one all the while, with pauses shorter than those of a file that is complete.
    const slow = textOf(6);
    const pieces = 12;
    const slowly = (async () => {
      for (let k = 0; k < pieces; k++) {
        const piece = slow.subarray(
          Math.floor((k * slow.length) / pieces),
          Math.floor(((k + 1) * slow.length) / pieces),
        );
        appendFileSync(join(folder, names[6]!), piece);
        if (k < pieces - 1) expect(said).not.toContain(names[6]);
        await pause(400);
      }
    })();
    for (const [i, name] of names.entries()) {
      if (i !== 6) writeFileSync(join(folder, name), textOf(i));
      await pause(100);
    }
    await slowly;
    await until(() => said.split("Indexed:").length - 1 >= names.length);
    const asked = Date.now();
    child.kill("SIGINT");
    expect(await ended).toBe(0);
    expect(Date.now() - asked).toBeLessThan(20_000);
    const lines = said.split("\n").filter((line) => line.startsWith("Indexed"));
    expect(lines.sort()).toEqual(names.map((name) => `Indexed: ${name}`));
    expect(said).toContain("Stopped with 30 runs indexed");
    const once = await indexFolder(folder, { jobs: 1 });
    for (const { name, content } of outputFiles(once)) {
      if (typeof content !== "string") continue;
      expect(readFileSync(join(root, "results", name), "utf8"), name).toBe(content);
    }
  } finally {
    child.kill("SIGKILL");
    rmSync(root, { recursive: true, force: true });
  }
});

test("a sheet with an error is told once and read again when it is mended", async () => {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-watch-"));
  try {
    writeFileSync(join(root, "a.txt"), textOf(1));
    writeFileSync(join(root, "sheet.csv"), "file,agee_d\na.txt,7\n");
    const { watchFolder } = await import("../../src/files/watchFolder.ts");
    const stop = new AbortController();
    const troubles: string[] = [];
    const added: string[][] = [];
    const { runs, trouble } = await watchFolder(root, {
      still_s: 0.2,
      every_s: 0.05,
      signal: stop.signal,
      onTrouble(message) {
        troubles.push(message);
        setTimeout(() => writeFileSync(join(root, "sheet.csv"), "file,age_d\na.txt,7\n"), 300);
      },
      onCampaign(_, news) {
        added.push(news.added);
        stop.abort();
      },
    });
    expect(troubles).toEqual([expect.stringContaining("agee_d")]);
    expect(added).toEqual([["a.txt"]]);
    expect([runs, trouble]).toEqual([1, null]);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
});

test("what could not be written is told once and tried again; what is taken is counted, nothing else", async () => {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-watch-"));
  try {
    writeFileSync(join(root, "a.txt"), textOf(1));
    const { watchFolder } = await import("../../src/files/watchFolder.ts");
    const { FileError } = await import("../../src/files/fileError.ts");
    const stop = new AbortController();
    const troubles: string[] = [];
    const taken: string[][] = [];
    let tries = 0;
    const outcome = await watchFolder(root, {
      still_s: 0.1,
      every_s: 0.01,
      signal: stop.signal,
      onTrouble: (message) => troubles.push(message),
      onCampaign(_, { added }) {
        tries++;
        if (added.includes("b.txt")) {
          setTimeout(() => stop.abort(), 1000);
          throw new FileError("no-space", "out: no room for two");
        }
        if (tries < 3) throw new FileError("no-space", "out: no room");
        taken.push(added);
        writeFileSync(join(root, "b.txt"), textOf(2));
      },
    });
    expect(troubles).toEqual(["out: no room", "out: no room for two"]);
    expect(taken).toEqual([["a.txt"]]);
    expect(tries).toBeGreaterThan(4);
    expect(outcome).toEqual({ runs: 1, trouble: "out: no room for two" });
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
});

test("outputs, figures too, in a folder within the watched one are no news", async () => {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-watch-"));
  try {
    writeFileSync(join(root, "a.txt"), textOf(1));
    const { watchFolder } = await import("../../src/files/watchFolder.ts");
    const { writeOutputs } = await import("../../src/files/writeOutputs.ts");
    const stop = new AbortController();
    let times = 0;
    await watchFolder(root, {
      still_s: 0.05,
      every_s: 0.01,
      out: join(root, "results"),
      signal: stop.signal,
      onTrouble: (message) => expect.unreachable(message),
      async onCampaign() {
        times++;
        const files = ["ages.csv", "figures/ages.svg", "campaign.json"];
        await writeOutputs(
          join(root, "results"),
          files.map((name) => ({ name, content: `${times}` })),
        );
        setTimeout(() => stop.abort(), 1000);
      },
    });
    expect(times).toBe(1);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
});
