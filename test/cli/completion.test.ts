import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { cli } from "./cli.ts";

const has = (shell: string): boolean => spawnSync(shell, ["-c", "exit 0"]).status === 0;

test.skipIf(!has("bash"))("bash completes commands, options, their choices and files", async () => {
  const { out, code } = await cli(["completion", "bash"]);
  expect(code).toBe(0);
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-completion-"));
  try {
    writeFileSync(join(folder, "my runs.txt"), "");
    writeFileSync(join(folder, "script"), out);
    const complete = (...words: string[]): string[] => {
      const list = words.map((word) => `'${word}'`).join(" ");
      const code = `source ./script; COMP_WORDS=(tg-hydrates ${list}); COMP_CWORD=${words.length}; _tg_hydrates; printf '%s\\n' "\${COMPREPLY[@]}"`;
      const { stdout, stderr } = spawnSync("bash", ["-c", code], { cwd: folder, encoding: "utf8" });
      expect(stderr).toBe("");
      return stdout.split("\n").filter((line) => line !== "");
    };
    expect(complete("in")).toEqual(["index"]);
    expect(complete("index", "--fig")).toEqual(["--figures"]);
    expect(complete("index", "--figures", "")).toEqual(["none", "campaign", "all"]);
    expect(complete("index", "--sheet", "my")).toEqual(["my runs.txt"]);
    expect(complete("compare", "--adjust", "d")).toEqual(["dunnett"]);
    expect(complete("protocol", "csa-")).toEqual(["csa-amounts"]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test.skipIf(!has("zsh"))("zsh reads its script", async () => {
  const { out } = await cli(["completion", "zsh"]);
  const { stderr, status } = spawnSync("zsh", ["-f", "-c", `compdef() { :; }\n${out}`], { encoding: "utf8" });
  expect([stderr, status]).toEqual(["", 0]);
  expect(out).toContain("index) _arguments");
});

test.skipIf(!has("fish"))("fish completes commands and choices", async () => {
  const { out } = await cli(["completion", "fish"]);
  const ask = (line: string): string => {
    const { stdout, stderr } = spawnSync("fish", ["--no-config", "-c", `${out}\ncomplete -C '${line}'`], {
      encoding: "utf8",
    });
    expect(stderr).toBe("");
    return stdout;
  };
  expect(ask("tg-hydrates ind")).toContain("index\t");
  expect(
    ask("tg-hydrates index --figures ")
      .split("\n")
      .map((line) => line.split("\t")[0]),
  ).toEqual(expect.arrayContaining(["none", "campaign", "all"]));
});

test("every command, option and choice stands in every script; another shell is refused", async () => {
  for (const shell of ["bash", "zsh", "fish"]) {
    const { out } = await cli(["completion", shell]);
    for (const word of ["index", "compare", "read", "sheet", "check", "protocol", "example", "completion", "dunnett"]) {
      expect(out, `${shell} ${word}`).toContain(word);
    }
  }
  const { code, err } = await cli(["completion", "tcsh"]);
  expect(code).toBe(2);
  expect(err).toContain("Allowed choices are bash, zsh, fish");
});
