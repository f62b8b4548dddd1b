// The public face in a notebook: everything for Node and Deno, and `show`.

export * from "./node.ts";
export { show } from "./show/show.ts";
export type { ShowOptions } from "./show/types.ts";
