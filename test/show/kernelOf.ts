import { afterEach, vi } from "vitest";
import type { MimeBundle } from "../../src/show/types.ts";

/** What happened, in order: outputs by their text, and pauses. */
export interface FakeKernel {
  bundles: MimeBundle[];
  options: unknown[];
  events: string[];
}

/** Puts a notebook kernel into the world, as Deno does; it goes away after the test. */
export function fakeKernel(): FakeKernel {
  const seen: FakeKernel = { bundles: [], options: [], events: [] };
  const display = async (bundle: MimeBundle, options: unknown): Promise<void> => {
    // A kernel sends later than it is asked to.
    await new Promise((done) => setTimeout(done, 2));
    seen.bundles.push(bundle);
    seen.options.push(options);
    seen.events.push("display");
  };
  vi.stubGlobal("Deno", { jupyter: { display } });
  return seen;
}

/** Catches what is written to stdout. */
export function catchStdout(): string[] {
  const written: string[] = [];
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    written.push(String(text));
    return true;
  });
  return written;
}

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
  vi.doUnmock("vega");
});
