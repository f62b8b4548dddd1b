import * as v from "valibot";
import { checkPeakSpec } from "../losses/checkPeakSpec.ts";
import type { Window } from "../losses/types.ts";
import { nearestName } from "../nearestName.ts";
import { checkAmounts } from "./checkAmounts.ts";
import { documentProblems } from "./documentProblems.ts";
import { protocolSchema } from "./protocolSchema.ts";
import type { Protocol } from "./types.ts";

/** A protocol that cannot work. The message names every wrong field and its value, one per line. */
export class ProtocolError extends RangeError {
  override name = "ProtocolError";
}

/**
 * Checks a protocol, from a file or made in code.
 *
 * @param document What `JSON.parse` gave.
 * @param options `name` of the source for the message. @default "protocol"
 * @returns The same document, typed.
 * @throws ProtocolError that lists every wrong field with its value and what is allowed.
 *
 * @example
 * ```ts
 * import { checkProtocol, protocols } from "tg-hydrates";
 * const csa = checkProtocol(JSON.parse(JSON.stringify(protocols.csa)), { name: "mine.json" });
 * if (csa.windows[0]!.name !== "aft-afm") throw new Error("a copy of a protocol is a protocol");
 * ```
 */
export function checkProtocol(document: unknown, options: { name?: string } = {}): Protocol {
  const { name = "protocol" } = options;
  if (typeof document !== "object" || document === null || Array.isArray(document)) {
    throw new ProtocolError(`${name}: must be a JSON object, not ${show(document)}`);
  }
  const before = documentProblems(document, protocolSchema);
  const problems = before.length > 0 ? before : fieldProblems(document);
  if (problems.length > 0) throw new ProtocolError(problems.map((problem) => `${name}: ${problem}`).join("\n"));
  return document as Protocol;
}

function fieldProblems(document: object): string[] {
  const result = v.safeParse(protocolSchema, document);
  return result.success ? crossChecks(result.output) : result.issues.flatMap(explain);
}

function explain(issue: v.BaseIssue<unknown>): string[] {
  const field = fieldName(issue.path ?? []);
  const value = show(issue.input);
  if (issue.type === "strict_object" && issue.expected === "never") {
    const key = String(issue.path?.at(-1)?.key);
    const nearest = nearestName(key, knownFields(issue.path ?? []));
    return [`${field} is not a field of a protocol${nearest ? `: did you mean ${nearest}?` : ""}`];
  }
  if (issue.type === "strict_tuple" && issue.expected === "never") {
    const { input } = issue.path!.at(-1) as { input: unknown };
    return [`${fieldName(issue.path!.slice(0, -1))} must be two values, not ${show(input)}`];
  }
  if (issue.input === undefined) return [`${field} is missing`];
  switch (issue.type) {
    case "min_value":
      return [`${field} must be at least ${issue.requirement}, not ${value}`];
    case "max_value":
      return [`${field} must be at most ${issue.requirement}, not ${value}`];
    case "picklist":
    case "literal":
      return [`${field} must be ${issue.expected?.replaceAll(/[()]/g, "").replaceAll(" | ", ", ")}, not ${value}`];
    case "regex":
      return [`${field}: ${issue.message}; not ${value}`];
    case "min_length":
      return [`${field} must not be empty`];
    case "max_length":
      return [`${field} is too long (at most ${issue.requirement})`];
    case "finite":
      return [`${field} must be a finite number, not ${issue.input}`];
    case "integer":
      return [`${field} must be a whole number, not ${value}`];
    default:
      return [`${field} must be a ${issue.expected?.toLowerCase() ?? "valid value"}, not ${value}`];
  }
}

/** What one field alone cannot know. */
function crossChecks(protocol: Protocol): string[] {
  const problems: string[] = [];
  const seen = new Set<string>();
  protocol.windows.forEach((window, i) => {
    const at = `windows[${i}] (${window.name})`;
    for (const name of [window.name, ...(window.resolve?.into ?? [])]) {
      if (seen.has(name))
        problems.push(
          `${at}: the name is used twice${name === window.name ? "" : ` (${name})`}; give every window its own`,
        );
      seen.add(name);
    }
    problems.push(...checkWindow(window).map((problem) => `${at}: ${problem}`));
  });
  problems.push(...checkAmounts(protocol));
  if (protocol.peaks) {
    try {
      checkPeakSpec(protocol.peaks);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      problems.push(`peaks: ${error.message}`);
    }
  }
  const [slow, fast] = protocol.limits.heating_rate_K_per_min;
  if (!(slow > 0 && slow < fast)) {
    problems.push(`limits.heating_rate_K_per_min must be two growing numbers above 0, not [${slow}, ${fast}]`);
  }
  const { choose } = protocol.smoothing;
  if (choose && !(choose.least_C < choose.most_C)) {
    problems.push(`smoothing.choose.least_C must lie below most_C, not ${choose.least_C} and ${choose.most_C}`);
  }
  const points = 2 * Math.round(protocol.smoothing.width_C / protocol.grid.step_C / 2) + 1;
  if (points <= protocol.smoothing.degree + 1 || points > 401) {
    const range = `more than ${protocol.smoothing.degree + 1} and at most 401 grid points`;
    problems.push(`smoothing.width_C must span ${range}, not ${points} (${protocol.smoothing.width_C} °C)`);
  }
  return problems;
}

function checkWindow({ from_C, to_C, rule, anchor_C, placement, resolve, tangent }: Window): string[] {
  const problems: string[] = [];
  if (!(from_C < to_C)) problems.push(`from_C must lie below to_C, not ${from_C} and ${to_C}`);
  else if (anchor_C !== undefined && anchor_C > to_C - from_C) {
    problems.push(`anchor_C must not be wider than the window of ${to_C - from_C} °C, not ${anchor_C}`);
  } else if (placement && anchor_C !== undefined && anchor_C > to_C - from_C - 2 * placement.tolerance_C) {
    const left = Math.max(to_C - from_C - 2 * placement.tolerance_C, 0);
    problems.push(`anchor_C must not be wider than the ${left} °C that placement can leave, not ${anchor_C}`);
  }
  if (placement && placement.tolerance_C * 2 > to_C - from_C) {
    problems.push(
      `placement.tolerance_C must not be more than half the window of ${to_C - from_C} °C, not ${placement.tolerance_C}`,
    );
  }
  if (
    resolve &&
    !(from_C < resolve.between_C[0] && resolve.between_C[0] < resolve.between_C[1] && resolve.between_C[1] < to_C)
  ) {
    problems.push(`resolve.between_C must be a growing range inside the window, not [${resolve.between_C.join(", ")}]`);
  }
  if (rule === "tangent" && !tangent)
    problems.push("the rule tangent needs the field tangent with before_C and after_C");
  for (const side of ["before_C", "after_C"] as const) {
    const range = tangent?.[side];
    if (range && !(range[0] < range[1])) problems.push(`tangent.${side} must grow, not [${range.join(", ")}]`);
  }
  if (tangent && tangent.before_C[1] > tangent.after_C[0]) {
    problems.push(
      `tangent.before_C must end before tangent.after_C starts, not ${tangent.before_C[1]} and ${tangent.after_C[0]}`,
    );
  }
  return problems;
}

function fieldName(path: readonly v.IssuePathItem[]): string {
  return path.reduce(
    (name, { key }) =>
      typeof key === "number" ? `${name}[${key}]` : name ? `${name}.${shownKey(key)}` : shownKey(key),
    "",
  );
}

/** A stranger's field may be called anything. */
function shownKey(key: unknown): string {
  const text = String(key);
  return /^[\w$.-]{1,60}$/.test(text) ? text : JSON.stringify(text.slice(0, 60));
}

/** Fields of the object in which the unknown one stands. */
function knownFields(path: readonly v.IssuePathItem[]): string[] {
  let schema: unknown = protocolSchema;
  for (const { key } of path.slice(0, -1)) schema = inner(schema, key);
  const { entries } = unwrap(schema) as { entries?: object };
  return Object.keys(entries ?? {});
}

function inner(schema: unknown, key: unknown): unknown {
  const { entries, item } = unwrap(schema) as { entries?: Record<string, unknown>; item?: unknown };
  return typeof key === "number" ? item : entries?.[String(key)];
}

/** The schema inside an optional one; a pipe carries the fields of its first schema itself. */
function unwrap(schema: unknown): unknown {
  return (schema as { wrapped?: unknown } | undefined)?.wrapped ?? schema ?? {};
}

function show(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
