import type { Campaign } from "../campaign/types.ts";
import type { TableInfo } from "./tableInfo.ts";
import { tables } from "./tables.ts";

/** A file that a Data Package describes. */
export interface PackagedFile {
  /** Name of the file in its folder: that of a table, `curves.ndjson` or `campaign.json`; others are left out. */
  name: string;
  /** Length in bytes. */
  bytes?: number;
  /** SHA-256, hexadecimal. */
  sha256?: string;
}

/** What is no table, by the name of its file. */
const documents: Readonly<Record<string, { format: string; mediatype: string; title: string; description: string }>> = {
  "curves.ndjson": {
    format: "ndjson",
    mediatype: "application/x-ndjson",
    title: "Curves",
    description:
      "One JSON object per line and run: TG (% of the initial mass) and DTG (% per °C) at up to 300 temperatures (°C), for drawing",
  },
  "campaign.json": {
    format: "json",
    mediatype: "application/json",
    title: "Campaign",
    description:
      "Everything in the tables with every uncertainty budget, the settled protocol and the version; tg-hydrates protocol --schema campaign prints its JSON Schema",
  },
};

/**
 * datapackage.json: what the files of an output folder are, in the words of the Data Package standard, version 2
 * (https://datapackage.org). Tables have a schema with type, unit and meaning of every column, and what tells their rows
 * apart: a primary key where none of it can be empty, else a unique key. Nothing is said of licence and authors, which only
 * those who own the data can say.
 *
 * @param campaign The campaign that the files hold.
 * @param files Files of the folder; a foreign key stands only where the file that it points to is among them.
 * @returns JSON, the same to the byte for the same campaign and files.
 *
 * @example
 * ```ts
 * import { dataPackage, protocols, settle, summarise } from "tg-hydrates";
 * const { resources } = JSON.parse(dataPackage(summarise([], { protocol: settle(protocols.csa) }), [{ name: "ages.csv" }]));
 * if (resources[0].schema.fields[4].name !== "window") throw new Error("the fifth column of ages.csv is the window");
 * ```
 */
export function dataPackage(
  campaign: Pick<Campaign, "schema" | "version" | "protocol">,
  files: readonly PackagedFile[],
): string {
  const byName = new Map(files.map((file) => [file.name, file]));
  const resources = [
    ...tables.flatMap((table) => (byName.has(table.path) ? tableResource(table, byName) : [])),
    ...Object.entries(documents).flatMap(([name, { title, description, ...type }]) => {
      const file = byName.get(name);
      return file
        ? { name: resourceName(name), path: name, title, description, ...type, encoding: "utf-8", ...sizeOf(file) }
        : [];
    }),
  ];
  const description = {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "thermogravimetry-campaign",
    title: "Thermogravimetry of calcium sulfoaluminate cement: mass losses and indices per run and age",
    description: [
      "Mass losses of thermogravimetry runs in windows of temperature, as indices in g per 100 g of reference mass with their uncertainty.",
      "Numbers have 9 significant digits. An empty cell means missing, and the column flags says why.",
      "A text that a spreadsheet would run as a formula has an apostrophe in front.",
      "TG indices are no acceptance test: curing and strength decisions follow local codes and licensed practice.",
    ].join(" "),
    keywords: ["thermogravimetry", "cement", "calcium sulfoaluminate", "ettringite", "hydration", "curing"],
    madeBy: { program: "tg-hydrates", version: campaign.version, protocol: campaign.protocol.name },
    resources,
  };
  return `${JSON.stringify(description, null, 2)}\n`;
}

function tableResource(table: TableInfo, files: ReadonlyMap<string, PackagedFile>): object {
  const { path, title, description, columns, primaryKey, uniqueKey, foreignKey } = table;
  return {
    name: resourceName(path),
    type: "table",
    path,
    title,
    description,
    format: "csv",
    mediatype: "text/csv",
    encoding: "utf-8",
    ...sizeOf(files.get(path)!),
    dialect: { header: true, delimiter: ",", lineTerminator: "\n", quoteChar: '"', doubleQuote: true },
    schema: {
      fields: Object.entries(columns).map(([name, { type, unit, ...words }]) => ({
        name,
        type,
        ...(unit === undefined ? {} : { unit }),
        ...words,
      })),
      missingValues: [""],
      ...(primaryKey ? { primaryKey } : {}),
      ...(uniqueKey ? { uniqueKeys: [uniqueKey] } : {}),
      ...(foreignKey && files.has(foreignKey.path)
        ? {
            foreignKeys: [
              {
                fields: [foreignKey.column],
                reference: { resource: resourceName(foreignKey.path), fields: [foreignKey.column] },
              },
            ],
          }
        : {}),
    },
  };
}

function resourceName(file: string): string {
  return file.replace(/\.[a-z]+$/, "");
}

function sizeOf({ bytes, sha256 }: PackagedFile): { bytes?: number; hash?: string } {
  return { ...(bytes === undefined ? {} : { bytes }), ...(sha256 === undefined ? {} : { hash: `sha256:${sha256}` }) };
}
