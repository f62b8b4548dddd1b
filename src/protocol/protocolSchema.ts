import * as v from "valibot";
import type { Protocol } from "./types.ts";

/** Not quite zero: of what is divided by, a number such as 1e-300 would leave no number. */
const LEAST = 1e-6;
// JSON may write a number that is too large for one: 1e999 is read as infinite.
const number = v.pipe(v.number(), v.finite());
const celsius = (about: string) => v.pipe(v.number(), v.minValue(-50), v.maxValue(2000), v.description(`${about}, °C`));
const positive = (about: string, most: number) =>
  v.pipe(v.number(), v.minValue(LEAST), v.maxValue(most), v.description(about));
const standard = (about: string, most: number) =>
  v.pipe(v.number(), v.minValue(0), v.maxValue(most), v.description(about));
const about = <Schema extends v.GenericSchema>(description: string, schema: Schema) =>
  v.pipe(schema, v.description(description));
const range = (about: string) => v.pipe(v.strictTuple([number, number]), v.description(about));

const windowName = v.pipe(
  v.string(),
  v.regex(/^[a-z0-9][a-z0-9.-]{0,39}$/, "use small letters, digits, points and hyphens, at most 40"),
  v.description("Name of the window, as written in every table"),
);
const numberOrNull = v.nullable(number);
const upTo = (about: string) =>
  v.exactOptional(v.pipe(v.number(), v.minValue(0), v.maxValue(1000), v.description(about)));
const peaksSchema = v.strictObject({
  from_C: celsius("Lower end of the fit"),
  to_C: celsius("Upper end of the fit"),
  baseline: v.pipe(v.picklist(["linear", "none"]), v.description("What the peaks stand on")),
  peaks: v.pipe(
    v.array(
      v.strictObject({
        name: windowName,
        position_C: range("Where the maximum may lie, °C"),
        width_C: positive("Full width at half height, °C", 500),
        asymmetry: v.exactOptional(
          v.pipe(v.number(), v.minValue(-2), v.maxValue(2), v.description("ln(right half width / left half width)")),
        ),
      }),
    ),
    v.minLength(1),
    v.maxLength(12),
    v.description("Peaks of fixed shape (Fraser and Suzuki, Anal Chem 41:37, 1969)"),
  ),
  width_u_pct: upTo("Standard uncertainty of the widths, %; 5 if absent"),
  asymmetry_u: upTo("Standard uncertainty of the asymmetries; 0.05 if absent"),
  limits: v.exactOptional(
    about(
      "When a fit is refused",
      v.strictObject({
        area_u_pct: upTo("Refused if an area is known no better, %"),
        misfit_pct: upTo("Refused if the DTG departs by more, % of the highest peak"),
        merged_pct: upTo("Refused if one peak in place of two leaves less, %"),
        merged_times: upTo("… or less than this many times the residual deviation"),
      }),
    ),
  ),
});
const settledSchema = v.strictObject({
  by: v.pipe(v.string(), v.minLength(1), v.description("What fixed the protocol")),
  edges: v.exactOptional(
    about(
      "Edges that were to move, and where they came to lie",
      v.array(
        v.strictObject({
          window: about("Window of the edge", v.string()),
          edge: about("Its lower or upper edge", v.picklist(["from", "to"])),
          fixed_C: about("Where the protocol had it, °C", number),
          placed_C: about("Where it was placed, °C; null where it stayed", numberOrNull),
          prominence: about("Depth of the minimum there, standard deviations; null without one", numberOrNull),
        }),
      ),
    ),
  ),
  smoothing: v.exactOptional(
    about(
      "The width that was chosen from the runs",
      v.strictObject({
        width_C: about("Width of the filter, °C", number),
        peak_bias_pct: about("By how much it lowers the sharpest peak of the runs, %", number),
      }),
    ),
  ),
  resolved: v.exactOptional(
    about(
      "Windows that were to be parted, and where",
      v.array(
        v.strictObject({
          window: about("Window of the protocol", v.string()),
          at_C: about("Where it was parted, °C; null where it stayed one", numberOrNull),
          prominence: about("Depth of the minimum there, standard deviations; null without one", numberOrNull),
        }),
      ),
    ),
  ),
});
const amountSchema = v.strictObject({
  phase: v.pipe(
    v.string(),
    v.minLength(1),
    v.maxLength(60),
    // Without a flag, since JSON Schema has none.
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is refused
    v.regex(/^[^\u0000-\u001f\u007f-\u009f]*$/, "leave out line ends and other control characters"),
    v.description("Phase that the whole loss of the window is taken for, by name or in cement shorthand"),
  ),
  mol_lost: positive("mol of gas that one mol of the phase loses in this window", 100),
  gas: v.exactOptional(v.pipe(v.picklist(["H2O", "CO2"]), v.description("Needed where the phase has both"))),
});
const share = (about: string) => v.pipe(v.number(), v.minValue(0), v.maxValue(1), v.description(about));
const correctionsSchema = v.strictObject({
  hydroxyl: v.exactOptional(
    about(
      "Takes the hydroxyl water of AFt and AFm off the loss of AH3's window",
      v.strictObject({
        window: about("Window of AH3, by the rule step", windowName),
        aft: v.exactOptional(about("Window of AFt", windowName)),
        afm: v.exactOptional(about("Window of AFm", windowName)),
        aft_afm: v.exactOptional(about("Common window of AFt and AFm, where they are not parted", windowName)),
        afm_share: v.exactOptional(share("Share of AFm in the loss of the common window")),
        u_afm_share: v.exactOptional(share("Its standard uncertainty; 0 if absent")),
        k: v.exactOptional(share("Share of the 6 hydroxyl waters of AFt that leaves in AH3's window; 0.5 if absent")),
        u_k: v.exactOptional(share("Its standard uncertainty; 0.3 if absent")),
        k_afm: v.exactOptional(share("The same of AFm; 1 if absent")),
        u_k_afm: v.exactOptional(share("Its standard uncertainty; 0.1 if absent")),
      }),
    ),
  ),
  carbonation: v.exactOptional(
    about(
      "Counts carbonated lime as portlandite again",
      v.strictObject({
        window: about("Window of portlandite", windowName),
        carbonate: about("Window of its carbonate", windowName),
      }),
    ),
  ),
});
const windowSchema = v.strictObject({
  name: windowName,
  from_C: celsius("Lower edge"),
  to_C: celsius("Upper edge"),
  rule: v.pipe(v.picklist(["step", "area", "tangent"]), v.description("What is counted in the window")),
  note: v.exactOptional(v.pipe(v.string(), v.description("What the window is for and where its edges come from"))),
  anchor_C: v.exactOptional(
    positive("Width of the band in which the slope at an edge is fitted, °C; 10 if absent", 100),
  ),
  placement: v.exactOptional(
    about(
      "Edges that move at settling, the same for all runs",
      v.strictObject({
        edges: v.pipe(v.literal("shared"), v.description("The edges move to the minima of the campaign's mean DTG")),
        tolerance_C: positive("… no further than this, °C", 50),
      }),
    ),
  ),
  resolve: v.exactOptional(
    about(
      "A window that is parted at settling where the campaign has a prominent minimum",
      v.strictObject({
        between_C: range("Range in which the campaign's minimum parts the window, °C"),
        into: v.pipe(v.strictTuple([windowName, windowName]), v.description("Names of the two parts")),
        amounts: v.exactOptional(about("Phases of the two parts", v.strictTuple([amountSchema, amountSchema]))),
      }),
    ),
  ),
  tangent: v.exactOptional(
    about(
      "Ranges of the two lines of the rule tangent, which needs them",
      v.strictObject({
        before_C: range("Range of the line before the step, °C"),
        after_C: range("Range of the line after the step, °C"),
      }),
    ),
  ),
  amount: v.exactOptional(about("Phase whose amount the loss of the window gives", amountSchema)),
});

const schema = v.strictObject({
  $schema: v.exactOptional(about("Where an editor finds the JSON Schema of a protocol", v.string())),
  schema: about("What this document is, and the version of its form", v.literal("tg-hydrates/protocol/1")),
  name: v.pipe(v.string(), v.minLength(1), v.maxLength(60), v.description("Name of the protocol")),
  description: v.exactOptional(about("What the protocol is for", v.string())),
  grid: about(
    "The temperature grid that all runs are brought to",
    v.strictObject({
      step_C: v.pipe(v.number(), v.minValue(0.05), v.maxValue(5), v.description("Step of the temperature grid, °C")),
    }),
  ),
  smoothing: about(
    "Smoothing of TG and DTG, by Savitzky and Golay",
    v.strictObject({
      width_C: positive("Width of the Savitzky–Golay filter, °C", 200),
      choose: v.exactOptional(
        about(
          "At settling the width is chosen from the runs",
          v.strictObject({
            least_C: positive("Not below this, °C", 200),
            most_C: positive("Not above this, °C", 200),
          }),
        ),
      ),
      degree: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(5), v.description("Degree of its polynomial")),
    }),
  ),
  windows: v.pipe(
    v.array(windowSchema),
    v.minLength(1),
    v.maxLength(50),
    v.description("The windows, in the order of the tables"),
  ),
  ignition: about(
    "How the ignited mass is had",
    v.strictObject({
      temperature_C: v.pipe(v.number(), v.minValue(800), v.maxValue(1000), v.description("Ignition temperature, °C")),
      half_width_C: positive("The ignited mass is the mean over ± this, °C", 25),
      hold_min: positive("A final isothermal at least this long gives the ignited mass, min", 600),
      max_loss: v.pipe(
        v.number(),
        v.minValue(0),
        v.maxValue(10),
        v.description("Ignited if no more than this is lost at the end, g per 100 g ignited mass"),
      ),
      check_C: positive("… over this much of the heating, °C", 200),
    }),
  ),
  peaks: v.exactOptional(v.pipe(peaksSchema, v.description("Peaks that are fitted to the DTG of every run"))),
  basis: v.pipe(v.picklist(["ignited", "initial", "binder"]), v.description("Reference mass of the indices")),
  corrections: v.exactOptional(
    about("What is done to losses on their way to amounts; nothing if absent", correctionsSchema),
  ),
  uncertainty: about(
    "Assumed inputs of the uncertainty budget",
    v.strictObject({
      temperature_u_C: standard("Standard uncertainty of the temperature axis, °C: 1 calibrated, 5 not", 30),
      buoyancy_u_mg: standard("Standard uncertainty of the buoyancy without a blank run, mg", 5),
      blank_u_mg: standard("Standard uncertainty of the buoyancy after a blank run, mg", 5),
      assumed_mass_mg: positive("Initial mass that stands in where a file gives % only, mg", 1e6),
      residue_u_mg: standard("Standard uncertainty of a furnace residue of the run sheet, mg", 1000),
      baseline_choice: v.pipe(v.boolean(), v.description("Count the choice between step and area as an uncertainty")),
    }),
  ),
  limits: about(
    "What a run must keep within, or is flagged",
    v.strictObject({
      heating_rate_K_per_min: range("Heating rates for which the windows hold, K/min"),
      start_max_C: celsius("A run that starts above it is flagged"),
      start_loss_max_pct: positive(
        "A run that loses more before the first window was not dry, % of the initial mass",
        100,
      ),
    }),
  ),
  settled: v.exactOptional(about("What was fixed from all runs; present once the protocol is settled", settledSchema)),
});

type Exact<A, B> = [A, B] extends [B, A] ? true : false;
// The hand-written interface and the schema are the same type, in both directions.
true satisfies Exact<v.InferOutput<typeof schema>, Protocol>;

/** Checks a protocol field by field; the JSON Schema is made from it too. */
export const protocolSchema: v.GenericSchema<unknown, Protocol> = schema;
