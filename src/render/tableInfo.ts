/** What a column of a CSV file holds; header and Data Package are both made from it. */
export interface Column {
  type: "string" | "number" | "integer";
  /** A few words, as for an axis. */
  title: string;
  /** What the values are, in a sentence. */
  description: string;
  /** Of the values; absent for plain numbers and text, and where another column or the description says it. */
  unit?: string;
  /** What holds for every cell, in the words of Table Schema. */
  constraints?: {
    required?: true;
    unique?: true;
    minimum?: number;
    maximum?: number;
    pattern?: string;
    enum?: readonly string[];
  };
}

/** Columns by name, in the order of the file. */
export type Columns = Readonly<Record<string, Column>>;

/** A CSV file: what it is called and holds, and what tells its rows apart. */
export interface TableInfo {
  /** Name of the file. */
  path: string;
  title: string;
  description: string;
  columns: Columns;
  /** Columns that together name a row and are never empty. */
  primaryKey?: readonly string[];
  /** Columns that together name a row though some may be empty. */
  uniqueKey?: readonly string[];
  /** Columns whose values all stand in a column of the same name of another file. */
  foreignKey?: { column: string; path: string };
}
