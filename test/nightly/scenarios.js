/**
 * Ways in which the command is disturbed. `args` after `index runs`, `out` the output folder, `older`: outputs of another protocol
 * stand there, `watch`: the runs come one after another.
 *
 * @type {{ name: string, args: string[], out: string, older?: boolean, watch?: boolean }[]}
 */
export const scenarios = [
  { name: "one thread", args: ["--jobs", "1", "--no-figures"], out: "results" },
  { name: "three threads", args: ["--jobs", "3", "--no-figures"], out: "results" },
  { name: "over older outputs", args: ["--jobs", "1", "--no-figures"], out: "results", older: true },
  { name: "inside the folder of the runs", args: ["--jobs", "2", "--no-figures"], out: "runs/results" },
  { name: "watch", args: ["--no-figures"], out: "results", watch: true },
  { name: "figures, one thread", args: ["--jobs", "1"], out: "results" },
  { name: "figures, three threads", args: ["--jobs", "3"], out: "results" },
  { name: "figures, over older outputs", args: ["--jobs", "2"], out: "results", older: true },
  { name: "figures, watch inside the folder of the runs", args: [], out: "runs/results", watch: true },
];
