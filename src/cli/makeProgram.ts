import { Argument, Command, InvalidArgumentError, Option } from "commander";
import { terminalSafe } from "../render/terminalSafe.ts";
import { version } from "../version.ts";
import type { Io } from "./io.ts";

/**
 * The commands with their options and help. The code behind a command is loaded when it runs, so that help and version answer
 * at once.
 *
 * @param exit Takes the exit code of the command that ran.
 */
export function makeProgram(io: Io, exit: (code: number) => void): Command {
  const program = new Command("tg-hydrates")
    .description("From a folder of thermogravimetry runs of CSA cement to per-age phase indices with uncertainty.")
    .version(version, "-V, --version", "print the version")
    .helpOption("-h, --help", "show help")
    .helpCommand("help [command]", "show the help of a command")
    .exitOverride()
    .showHelpAfterError("(run it with --help to see what it understands)")
    .configureOutput({
      writeOut: (text) => void io.stdout.write(text),
      // It repeats what was typed, or what a shell made of a file's name.
      writeErr: (text) => void io.stderr.write(text.split("\n").map(terminalSafe).join("\n")),
      getOutHelpWidth: () => io.columns || 80,
      getErrHelpWidth: () => io.columns || 80,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    });
  const example = (command: Command, ...lines: string[]): Command =>
    command.addHelpText("after", `\nExample:\n${lines.map((line) => `  ${line}`).join("\n")}`);

  const figures = (): Option =>
    // No default of its own: asked for in vain is another thing than not asked for.
    new Option(
      "--figures <which>",
      "figures for --out: those of the campaign (the default), or of every run besides",
    ).choices(["none", "campaign", "all"]);

  example(
    program
      .command("index")
      .description("index a folder of runs: per-age mass losses with their uncertainty")
      .argument("<folder>", "folder of the runs, usually with sheet.csv and mixes.csv")
      .option("--sheet <file>", "run sheet (default: sheet.csv of the folder, else drafted from the file names)")
      .option("--mixes <file>", "mix table (default: mixes.csv of the folder, where it has one)")
      .option("--protocol <file|name>", "protocol as a JSON file, or a built-in one", "csa")
      .option("--out <folder>", "folder to write tables, figures and report to")
      .addOption(figures())
      .option("--no-figures", "draw no figures, the same as --figures none")
      .option("--png", "write the figures as PNG (300 dpi) too; needs @resvg/resvg-js")
      .option("--jobs <n>", "worker threads (default: by the size of the work)", wholeNumber)
      .option("--columns <spec>", "columns of the files, where they cannot be inferred: temperature=2:K,mass=4:mg")
      .addOption(new Option("--json", "print the whole campaign as JSON instead of the table").conflicts("ndjson"))
      .option("--ndjson", "print every run as one line of JSON instead of the table")
      .option("--watch", "go on and take up new runs as the balance finishes them, until Ctrl+C")
      .option(
        "--still <s>",
        "with --watch: a file is complete once it has not changed for so many seconds (default: 3)",
      ),
    "tg-hydrates index data --out results",
  ).action(async (folder, options) =>
    exit(await (await import("./indexCommand.ts")).indexCommand(folder, options, io)),
  );

  example(
    program
      .command("compare")
      .description("compare curing regimes: differences, properties, and how short a curing is enough")
      .argument("<folder|campaign.json>", "folder of the runs, or the campaign.json that index wrote")
      .requiredOption("--reference <curing[:days]>", "curing regime that the others are held against")
      .option("--reference-age <age>", "age that the other ages are held against (default: 28 d, else the latest)")
      .option("--properties <file>", "table of strength, length change, … (default: properties.csv of the folder)")
      .option(
        "--margin <margin>",
        "largest difference that does not matter, again for each: 10% for all, strength=10%, strength=3 MPa, aft-afm=2",
        collected,
      )
      .option("--require <requirement>", 'what must be reached, again for each: "strength>=24 MPa"', collected)
      .option(
        "--test-age <age>",
        "age at which the shortest sufficient curing is looked for (default: the reference age)",
      )
      .addOption(
        new Option("--adjust <method>", "how comparisons are judged together")
          .choices(["holm", "dunnett"])
          .default("holm"),
      )
      .option("--welch", "judge by the scatter of the two cells compared, not by that of all")
      .addOption(
        new Option("--family <extent>", "what is judged together: one quantity and mix, or everything")
          .choices(["window", "campaign"])
          .default("window"),
      )
      .option("--sheet <file>", "run sheet of the folder")
      .option("--mixes <file>", "mix table of the folder")
      .option("--protocol <file|name>", "protocol as a JSON file, or a built-in one (default: csa)")
      .option("--out <folder>", "folder to write tables, figures and report to")
      .addOption(figures())
      .option("--no-figures", "draw no figures, the same as --figures none")
      .option("--png", "write the figures as PNG (300 dpi) too; needs @resvg/resvg-js")
      .option("--jobs <n>", "worker threads (default: by the size of the work)", wholeNumber)
      .option("--columns <spec>", "columns of the files, where they cannot be inferred: temperature=2:K,mass=4:mg")
      .option("--json", "print the whole campaign with its decisions as JSON instead of the summary"),
    "tg-hydrates compare data --reference sealed --margin 10% --out results",
    'tg-hydrates compare results/campaign.json --reference cloth:7 --properties strength.csv --require "strength>=24 MPa"',
  ).action(async (source, options) =>
    exit(await (await import("./compareCommand.ts")).compareCommand(source, options, io)),
  );

  example(
    program
      .command("read")
      .description("show how files are understood; writes nothing")
      .argument("<file...>", "files of runs")
      .option("--columns <spec>", "columns of the files, where they cannot be inferred: temperature=2:K,mass=4:mg")
      .option("--json", "print an array with one object per file"),
    "tg-hydrates read data/a.txt data/b.txt",
  ).action(async (files, options) => exit(await (await import("./readCommand.ts")).readCommand(files, options, io)));

  example(
    program
      .command("sheet")
      .description("draft a run sheet from the file names, for a person to finish")
      .argument("<folder>", "folder of the runs")
      .option("--json", "print the rows as JSON instead of CSV"),
    "tg-hydrates sheet data > data/sheet.csv",
  ).action(async (folder, options) =>
    exit(await (await import("./sheetCommand.ts")).sheetCommand(folder, options, io)),
  );

  example(
    program
      .command("check")
      .description(
        "hold a run of a reference substance against its theoretical steps; exit code 1 where it does not hold",
      )
      .argument("<file>", "file of the run")
      .requiredOption(
        "--substance <name>",
        "calcium-oxalate-monohydrate, copper-sulfate-pentahydrate, sodium-bicarbonate, calcium-carbonate or gypsum",
      )
      .option("--tolerance <pct>", "largest deviation of a step, % of the mass at the start", "0.3")
      .option("--columns <spec>", "columns of the file, where they cannot be inferred: temperature=2:K,mass=4:mg")
      .option("--json", "print the check as JSON"),
    "tg-hydrates check oxalate.txt --substance calcium-oxalate-monohydrate",
  ).action(async (file, options) => exit(await (await import("./checkCommand.ts")).checkCommand(file, options, io)));

  example(
    program
      .command("protocol")
      .description("print a built-in protocol to copy and edit")
      .argument("[name]", "name of a built-in protocol, or a JSON file", "csa")
      .option("--settle <folder>", "settle it on the runs of a folder: place shared edges, part what can be parted")
      .option("--sheet <file>", "run sheet of that folder")
      .option("--mixes <file>", "mix table of that folder")
      .addOption(
        new Option("--schema [document]", "print the JSON Schema of protocols, for an editor, or of campaign.json")
          .choices(["protocol", "campaign"])
          .preset("protocol")
          .conflicts("settle"),
      ),
    "tg-hydrates protocol csa > my-protocol.json",
    "tg-hydrates protocol my-protocol.json --settle data > settled.json",
    "tg-hydrates index data --protocol settled.json",
  ).action(async (name, options) =>
    exit(await (await import("./protocolCommand.ts")).protocolCommand(name, options, io)),
  );

  example(
    program
      .command("example")
      .description("write an invented campaign with known truth, to try things on")
      .argument("<folder>", "folder to make; it must be empty or missing")
      .option("--seed <n>", "another campaign for every seed", wholeNumber, 1)
      .addOption(new Option("--size <size>", "extent of the campaign").choices(["small", "full"]).default("full")),
    "tg-hydrates example demo",
    "tg-hydrates index demo",
  ).action(async (dir, options) => exit(await (await import("./exampleCommand.ts")).exampleCommand(dir, options, io)));

  example(
    program
      .command("completion")
      .description("print a script with which a shell completes commands, options and file names")
      .addArgument(new Argument("<shell>", "shell that will read it").choices(["bash", "zsh", "fish"])),
    "source <(tg-hydrates completion bash)",
  ).action(async (shell) => {
    const { completionScript } = await import("./completionScript.ts");
    const { protocols } = await import("../protocol/protocols.ts");
    io.stdout.write(completionScript(program, shell, { protocol: Object.keys(protocols) }));
    exit(0);
  });

  return program;
}

/** An option that may be given several times. */
function collected(written: string, before: string[] = []): string[] {
  return [...before, written];
}

function wholeNumber(written: string): number {
  const value = Number(written);
  if (!/^\d+$/.test(written) || value < 1 || value > 1000) {
    throw new InvalidArgumentError(`Give a whole number from 1 to 1000, not ${written}.`);
  }
  return value;
}
