import { toJsonSchema } from "@valibot/to-json-schema";
import { protocolSchema } from "../../src/protocol/protocolSchema.ts";
import { protocols } from "../../src/protocol/protocols.ts";

interface Schema {
  type?: string;
  description?: string;
  properties?: Record<string, Schema>;
  items?: Schema | Schema[];
  prefixItems?: Schema[];
}

/** Every field of a protocol that holds a value, with the one of `csa` and what it is: a table for METHODS.md. */
export function protocolFields(): string {
  const rows = new Map<string, string>();
  const walk = (schema: Schema, path: string): void => {
    const inner = [schema.items ?? [], schema.prefixItems ?? []].flat();
    const before = rows.size;
    for (const [key, one] of Object.entries(schema.properties ?? {})) walk(one, path === "" ? key : `${path}.${key}`);
    for (const one of inner) if (one.properties) walk(one, `${path}[]`);
    // A field inside which others stand is told by them; one that was walked before is there already.
    const holds = schema.properties !== undefined || inner.some(({ properties }) => properties !== undefined);
    if (path === "" || rows.size > before || holds) return;
    const value = valueAt(protocols.csa, path);
    const shown = value === undefined || path === "description" ? "" : `\`${JSON.stringify(value)}\``;
    rows.set(path, `| \`${path}\` | ${shown} | ${(schema.description ?? "").replaceAll("|", "\\|")} |`);
  };
  walk(toJsonSchema(protocolSchema, { errorMode: "ignore" }) as Schema, "");
  return `${["| field | `csa` | what it is |", "| --- | --- | --- |", ...rows.values()].join("\n")}\n`;
}

function valueAt(document: object, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>((found, key) => (found as Record<string, unknown> | undefined)?.[key], document);
}
