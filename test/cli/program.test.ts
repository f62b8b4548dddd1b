import { build } from "esbuild";
import { describe, expect, test } from "vitest";
import { reportError } from "../../src/cli/reportError.ts";
import { version } from "../../src/version.ts";
import { cli } from "./cli.ts";

const commands = ["index", "read", "sheet", "protocol", "example"];

test.for(["--version", "-V"])("%s", async (option) => {
  expect(await cli([option])).toEqual({ code: 0, out: `${version}\n`, err: "" });
});

test.for([["--help"], ["-h"], ["help"]])("%s lists every command on stdout", async (argv) => {
  const { code, out, err } = await cli(argv);
  expect([code, err]).toEqual([0, ""]);
  for (const command of commands) expect(out).toMatch(new RegExp(`^ {2}${command} `, "m"));
});

test.for(commands)("%s --help has an example and keeps to the width of the terminal", async (command) => {
  const { code, out, err } = await cli([command, "--help"], { columns: 70 });
  expect([code, err]).toEqual([0, ""]);
  expect(out).toContain(`\nExample:\n  tg-hydrates ${command} `);
  for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  expect((await cli(["help", command])).out).toContain("Example:");
});

const hint = "(run it with --help to see what it understands)\n";

test.for([
  [["indx", "data"], `error: unknown command 'indx'\n(Did you mean index?)\n${hint}`],
  [["index", "data", "--protcol", "x"], `error: unknown option '--protcol'\n(Did you mean --protocol?)\n${hint}`],
  [["index"], `error: missing required argument 'folder'\n${hint}`],
  [["read"], `error: missing required argument 'file'\n${hint}`],
  [["index", "a", "b"], `error: too many arguments for 'index'. Expected 1 argument but got 2.\n${hint}`],
  [
    ["index", "a", "--jobs", "0"],
    `error: option '--jobs <n>' argument '0' is invalid. Give a whole number from 1 to 1000, not 0.\n${hint}`,
  ],
  [
    ["index", "a", "--jobs", "2.5"],
    `error: option '--jobs <n>' argument '2.5' is invalid. Give a whole number from 1 to 1000, not 2.5.\n${hint}`,
  ],
  [["index", "a", "--out"], `error: option '--out <folder>' argument missing\n${hint}`],
] as const)("usage: %o", async ([argv, message]) => {
  expect(await cli(argv)).toEqual({ code: 2, out: "", err: message });
});

test("without a command: help on stderr, exit code 2", async () => {
  const { code, out, err } = await cli([]);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain("Usage: tg-hydrates");
});

describe("an error of the program itself", () => {
  const report = (env: Record<string, string>, error: Error = new TypeError("x is not a function")) => {
    const err: string[] = [];
    const io = {
      stdout: { write: () => 0 },
      stderr: { write: (text: string) => err.push(text) },
      cwd: "",
      env,
      isTTY: false,
    };
    return { code: reportError(error, io), err: err.join("") };
  };

  test("one line without a stack", () => {
    expect(report({})).toEqual({
      code: 2,
      err: "An error of tg-hydrates itself: TypeError: x is not a function. Report it with the command line; TG_HYDRATES_DEBUG=1 shows where it happened.\n",
    });
  });

  test("many problems of one table: the first forty and how many more", () => {
    const problems = Array.from({ length: 43 }, (_, i) => `sheet.csv, line ${i + 2}: wrong`);
    const error = Object.assign(new RangeError(problems.join("\n")), { name: "PlanError" });
    const lines = report({}, error).err.trimEnd().split("\n");
    expect(lines).toEqual([...problems.slice(0, 40), "… and 3 more; repair these and run it again"]);
    const few = Object.assign(new RangeError(problems.slice(0, 40).join("\n")), { name: "PlanError" });
    expect(report({}, few).err.trimEnd().split("\n")).toEqual(problems.slice(0, 40));
  });

  test("the stack on request", () => {
    expect(report({ TG_HYDRATES_DEBUG: "1" }).err).toMatch(/\n {4}at /);
  });
});

test("help and version load neither a stage nor a command's code", async () => {
  const { metafile } = await build({
    entryPoints: ["src/cli/main.ts"],
    bundle: true,
    write: false,
    platform: "node",
    format: "esm",
    external: ["vega", "vega-lite", "@resvg/resvg-js"],
    metafile: true,
    logLevel: "silent",
  });
  const reached = new Set<string>();
  const visit = (file: string): void => {
    if (reached.has(file)) return;
    reached.add(file);
    for (const { path, kind } of metafile.inputs[file]?.imports ?? []) if (kind !== "dynamic-import") visit(path);
  };
  visit("src/cli/main.ts");
  const own = [...reached].filter((file) => file.startsWith("src/")).sort();
  expect(own).toEqual(
    [
      "src/cli/io.ts",
      "src/cli/main.ts",
      "src/cli/makeProgram.ts",
      "src/cli/reportError.ts",
      "src/cli/run.ts",
      "src/cli/say.ts",
      "src/render/terminalSafe.ts",
      "src/version.ts",
    ].filter((file) => file !== "src/cli/io.ts"),
  );
  const packages = [...reached].flatMap((file) => /^node_modules\/[^/]+/.exec(file)?.[0] ?? []);
  expect([...new Set(packages)]).toEqual(["node_modules/commander"]);
});
