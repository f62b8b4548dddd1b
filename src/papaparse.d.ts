/**
 * The little of papaparse that is used. The minified build is the one without Node's streams, the same in every engine;
 * the types of DefinitelyTyped would bring Node's types into the pure core.
 */
declare module "papaparse/papaparse.min.js" {
  interface ParseError {
    code: "MissingQuotes" | "InvalidQuotes" | "UndetectableDelimiter" | "TooFewFields" | "TooManyFields";
    row?: number;
  }
  const Papa: {
    parse(
      text: string,
      options: { delimiter: string; newline: "\n"; preview?: number },
    ): { data: string[][]; errors: ParseError[] };
    unparse(
      table: { fields: readonly string[]; data: readonly (readonly string[])[] },
      options: { newline: "\n"; escapeFormulae: RegExp },
    ): string;
  };
  export default Papa;
}
