import { checkProtocol } from "./checkProtocol.ts";
import type { Protocol, SettledProtocol } from "./types.ts";

/**
 * Fixes what depends on all runs, so that losses can be taken. A protocol that is settled already stays as it is.
 *
 * @throws ProtocolError for a protocol that cannot work.
 *
 * @example
 * ```ts
 * import { protocols, settle } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * if (protocol.settled.by !== "fixed edges") throw new Error("the edges of csa are fixed");
 * ```
 */
export function settle(protocol: Protocol): SettledProtocol {
  const checked = checkProtocol(protocol);
  return { ...checked, settled: checked.settled ?? { by: "fixed edges" } };
}
