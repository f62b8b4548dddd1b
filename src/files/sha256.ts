import { createHash } from "node:crypto";

/** SHA-256 (FIPS 180-4) of some bytes, in hexadecimal. */
export function sha256(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}
