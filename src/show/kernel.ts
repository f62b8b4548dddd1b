import type { MimeBundle } from "./types.ts";

/** What a notebook kernel gives its cells. */
export interface Kernel {
  display(bundle: MimeBundle, options: { raw: true }): Promise<void>;
}

/** The notebook kernel that this runs in, or null: Deno has one only under `deno jupyter`, and throws elsewhere. */
export function kernel(): Kernel | null {
  const { Deno: deno } = globalThis as { Deno?: { jupyter?: Kernel } };
  try {
    return typeof deno?.jupyter?.display === "function" ? deno.jupyter : null;
  } catch {
    return null;
  }
}
