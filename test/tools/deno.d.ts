// The types of d3-array are a package of their own, which Deno does not look for.
declare module "d3-array" {
  export * from "types-of-d3-array";
}
