import type { Column } from "./tableInfo.ts";

type Limits = Pick<NonNullable<Column["constraints"]>, "required" | "unique" | "minimum" | "maximum" | "pattern">;
type Make = (title: string, description: string, more?: Limits & { unit?: string }) => Column;

const made =
  (type: Column["type"], always: Limits = {}): Make =>
  (title, description, { unit, ...limits } = {}) => {
    const constraints = { ...always, ...limits };
    return {
      type,
      title,
      description,
      ...(unit === undefined ? {} : { unit }),
      ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
    };
  };

/** Ways to describe a column; a cell may be empty unless it is `required`. */
export const column: {
  text: Make;
  number: Make;
  /** A whole number from 0 on that is always there. */
  count: Make;
  /** A whole number from 0 on, where it is known. */
  countOrNone: Make;
  /** A probability. */
  probability: Make;
  /** One of a few words; every one must be listed, which the type sees to. */
  oneOf: <Word extends string>(
    title: string,
    description: string,
    words: Readonly<Record<Word, true>>,
    options?: { required?: true },
  ) => Column;
  /** Codes joined by semicolons. */
  codes: (title: string, description: string) => Column;
} = {
  text: made("string"),
  number: made("number"),
  count: made("integer", { required: true, minimum: 0 }),
  countOrNone: made("integer", { minimum: 0 }),
  probability: made("number", { minimum: 0, maximum: 1 }),
  oneOf: (title, description, words, { required } = {}) => ({
    type: "string",
    title,
    description,
    constraints: { ...(required ? { required } : {}), enum: Object.keys(words) },
  }),
  codes: (title, description) =>
    made("string")(title, `${description}; codes joined by semicolons`, { pattern: "[a-z0-9-]+(;[a-z0-9-]+)*" }),
};
