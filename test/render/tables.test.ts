import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import { flag } from "../../src/flags.ts";
import type { RunResult } from "../../src/protocol/types.ts";
import { agesCsv } from "../../src/render/agesCsv.ts";
import { lossesCsv } from "../../src/render/lossesCsv.ts";
import { runsCsv } from "../../src/render/runsCsv.ts";
import { makeFailure, makeResult, twoWindows } from "../campaign/makeResult.ts";

const campaignOf = (...runs: RunResult[]) => summarise(runs, { protocol: twoWindows });

describe("runs.csv", () => {
  const heading =
    "file,mix,curing,curing_d,age_d,specimen,replicate,role,session,status,rows_read,rows_used,start_C,end_C,initial_mass_mg,ignited_mass_mg,residue_pct,loi_pct,heating_rate_K_per_min,noise_ug,flags,sha256";

  test("has a row per run, a failed one with the code of its error, a missing number with its reason", () => {
    const campaign = campaignOf(
      makeResult("a.txt", [10, 1], {
        sha256: "ab12",
        replicate: "2",
        session: "S1",
        age_d: 240 / 1440,
        noise_ug: null,
        heating_rate_K_per_min: 10.0123456789,
      }),
      makeResult("b.txt", ["x", "x"], {
        mix: null,
        curing: null,
        curing_d: null,
        age_d: null,
        specimen: "P, 1",
        ignited_mass_mg: { missing: "ends-before-ignition" },
        residue_pct: { missing: "ends-before-ignition" },
        loi_pct: { missing: "ends-before-ignition" },
        flags: [flag("no-time", "No time."), flag("ends-before-ignition", "Ends.")],
      }),
      makeFailure("c.txt", { role: "blank", mix: "=M" }),
    );
    expect(runsCsv(campaign).split("\n")).toEqual([
      heading,
      "a.txt,M1,moist,7,0.166666667,a.txt,2,specimen,S1,done,900,890,30,960,20,15,75,25,10.0123457,,,ab12",
      'b.txt,,,,,"P, 1",,specimen,,incomplete,900,890,30,960,20,,,,10,1,no-time;ends-before-ignition,',
      `c.txt,"'=M",moist,7,7,c.txt,,blank,,failed,,,,,,,,,,,no-table,`,
      "",
    ]);
  });
});

describe("losses.csv", () => {
  test("has a row per run and window, none for a failed run", () => {
    const run = makeResult("a.txt", [10, "window-truncated"]);
    Object.assign(run.windows[0]!, {
      loss_mg: { value: 1.5, u: 0.01, terms: [] },
      loss_pct_initial: { value: 7.5, u: null, terms: [] },
      index: { value: 10, u: 0.125, terms: [] },
      index_area: { missing: "anchor-truncated" },
      peak_C: 118.25,
      peak_dtg_pct_per_C: 0.21,
      flags: [flag("anchor-truncated", "Cut.", "aft-afm")],
    });
    expect(lossesCsv(campaignOf(run, makeFailure("b.txt"))).split("\n")).toEqual([
      "file,mix,curing,curing_d,age_d,specimen,replicate,window,from_C,to_C,rule,basis,loss_mg,loss_pct_initial,index,index_u,index_step,index_area,peak_C,peak_dtg_pct_per_C,flags",
      "a.txt,M1,moist,7,7,a.txt,,aft-afm,50,220,step,ignited,1.5,7.5,10,0.125,10,,118.25,0.21,anchor-truncated",
      "a.txt,M1,moist,7,7,a.txt,,ah3,220,350,area,ignited,,,,,,,,,window-truncated",
      "",
    ]);
  });
});

describe("ages.csv", () => {
  test("has a row per cell and window; what is not known is empty", () => {
    // 18.2, 19.2, 18.7: mean 18.7, s 0.5, u = 0.5/√3; t(0.975; 2) of SciPy 1.10.1, scipy.stats.t.ppf: 4.302652729911275.
    const half = (4.302652729911275 * 0.5) / Math.sqrt(3);
    const [heading, aft, ah3, , missing] = agesCsv(
      campaignOf(
        makeResult("a", [18.2, 4]),
        makeResult("b", [19.2, "window-truncated"]),
        makeResult("c", [18.7, "window-truncated"]),
        makeResult("d", [1, "window-truncated"], { age_d: 28 }),
      ),
    ).split("\n");
    expect(heading).toBe(
      "mix,curing,curing_d,age_d,window,rule,basis,n_specimens,n_runs,index,index_sd,u_random,u_shared,df,index_u,index_lo95,index_hi95,flags",
    );
    expect(aft).toBe(
      `M1,moist,7,7,aft-afm,step,ignited,3,3,18.7,0.5,0.288675135,0,2,0.288675135,${(18.7 - half).toPrecision(9)},${(18.7 + half).toPrecision(9)},`,
    );
    expect(ah3).toBe("M1,moist,7,7,ah3,area,ignited,1,1,4,,,,,,,,runs-missing;one-specimen");
    expect(missing).toBe("M1,moist,7,28,ah3,area,ignited,0,0,,,,,,,,,runs-missing;window-truncated");
  });
});
