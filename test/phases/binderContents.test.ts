import { expect, test } from "vitest";
import { type BinderPart, binderContents } from "../../src/phases/binderContents.ts";
import { limeSource } from "../../src/phases/limeSource.ts";
import { makeMix } from "./makeMix.ts";

// Mineral names, names of the trade and cement notation (Taylor, Cement Chemistry, 2nd ed. 1997; krotite is CA, larnite β-C2S,
// brownmillerite C4AF, Klein's compound C4A3$), written as people write headings.
test.for([
  ["Ye'elimite_pct", "yeelimite"],
  ["Yelimite", "yeelimite"],
  ["C4A3S_pct", "yeelimite"],
  ["Klein's compound", "yeelimite"],
  ["gypsum_pct", "gypsum"],
  ["Dihydrate", "gypsum"],
  ["bassanite", "bassanite"],
  ["Hemi-hydrate_pct", "bassanite"],
  ["ANHYDRITE_PCT", "anhydrite"],
  ["belite", "belite"],
  ["C2S_pct", "belite"],
  ["Larnite", "belite"],
  ["ferrite", "ferrite"],
  ["C4AF", "ferrite"],
  ["brownmillerite_pct", "ferrite"],
  ["mayenite", "mayenite"],
  ["C12A7_pct", "mayenite"],
  ["CA_pct", "calciumAluminate"],
  ["krotite", "calciumAluminate"],
  ["calcium aluminate", "calciumAluminate"],
  ["mono-calcium aluminate_pct", "calciumAluminate"],
  ["C3A", "tricalciumAluminate"],
  ["tricalcium aluminate", "tricalciumAluminate"],
  ["lime_pct", "lime"],
  ["Free lime", "lime"],
  ["quicklime", "lime"],
  ["burnt lime_pct", "lime"],
  ["portlandite", "portlandite"],
  ["hydrated lime_pct", "portlandite"],
  ["calcium hydroxide", "portlandite"],
  ["alite", "alite"],
  ["C3S_pct", "alite"],
  ["Portland cement_pct", "portlandCement"],
  ["OPC", "portlandCement"],
  ["Portland", "portlandCement"],
  ["limestone_pct", "limestone"],
  ["calcite", "limestone"],
  ["calcium carbonate", "limestone"],
  ["dolomite", "limestone"],
] as [string, BinderPart][])("the column %s is %s", ([column, part]) => {
  expect(binderContents(makeMix({ contents: { [column]: 3 } }))).toEqual({
    phases: { [part]: 3 },
    oxides: {},
    organics: {},
  });
});

test.for(["CaO", "Al2O3", "SO3", "SiO2", "Fe2O3"])("the column %s is that oxide, in whatever capitals", (oxide) => {
  for (const column of [oxide, `${oxide}_pct`, oxide.toLowerCase(), oxide.toUpperCase()]) {
    expect(binderContents(makeMix({ contents: { [column]: 7 } }))).toEqual({
      phases: {},
      oxides: { [oxide]: 7 },
      organics: {},
    });
  }
});

test.for([
  "SBR latex",
  "polymer powder",
  "PVA fibre",
  "PP fiber",
  "superplasticiser",
  "plasticizer",
  "cellulose ether",
  "starch ether",
  "defoamer",
  "organic matter",
  "shrinkage-reducing agent",
])("%s is organic, and keeps its name", (name) => {
  for (const column of [name, `${name}_pct`, `${name}_PCT`]) {
    expect(binderContents(makeMix({ contents: { [column]: 0.5 } }))).toEqual({
      phases: {},
      oxides: {},
      organics: { [name]: 0.5 },
    });
  }
});

test("two names of one part add up; `_pct` inside a name, zero, negative numbers and text are nothing", () => {
  expect(
    binderContents(
      makeMix({
        contents: {
          belite_pct: 12,
          "larnite ": 3,
          gypsum_pct_old: 4,
          "free_pct lime": 2,
          alite: 0,
          c3a: -1,
          lime: "5",
          quartz_pct: 9,
        },
      }),
    ),
  ).toEqual({ phases: { belite: 15 }, oxides: {}, organics: {} });
  const { organics } = binderContents(makeMix({ contents: { "polymer_pct dry": 1 } }));
  expect(organics).toEqual({ "polymer_pct dry": 1 });
  expect(binderContents(makeMix({ polymer_pct: 0 })).organics).toEqual({});
  expect(binderContents(makeMix({ polymer_pct: 1 })).organics).toEqual({ polymer: 1 });
});

test("a name that every object has is no column we know", () => {
  expect(binderContents(makeMix({ contents: { constructor: 3, toString_pct: 4, valueOf: 5 } }))).toEqual({
    phases: {},
    oxides: {},
    organics: {},
  });
});

test.for([
  [{ lime_source: "slaked lime" }, "slaked lime"],
  [{ LIME_SOURCE: " hydrated lime " }, "hydrated lime"],
  [{ lime_source: "none" }, null],
  [{ lime_source: " No " }, null],
  [{ lime_source: "-" }, null],
  [{ lime_source: "–" }, null],
  [{ lime_source: "" }, null],
  [{ lime_source: "not known" }, "not known"],
  [{ lime_source: "kiln: none" }, "kiln: none"],
  [{ lime_source: "none", alite_pct: 3 }, "alite"],
  [{ lime_pct: 1 }, "lime"],
  [{ portlandite_pct: 1 }, "portlandite"],
  [{ opc_pct: 1 }, "portlandCement"],
  [{ lime_source: 3 }, null],
  [{ gypsum_pct: 20, belite_pct: 10 }, null],
] as [Record<string, string | number>, string | null][])("lime comes, of %j, from %s", ([contents, source]) => {
  expect(limeSource(makeMix({ contents }))).toBe(source);
});

test("a run without a mix has no source of lime", () => {
  expect(limeSource(null)).toBeNull();
});
