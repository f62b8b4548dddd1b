/** Bytes that grow at their end; kept and used again, because making room costs more than writing. */
export interface ByteSink {
  bytes: Uint8Array;
  /** Bytes that are written. */
  end: number;
}

/** Makes room for so many more bytes. */
export function makeRoom(sink: ByteSink, more: number): void {
  const needed = sink.end + more;
  if (needed <= sink.bytes.length) return;
  const larger = new Uint8Array(Math.max(needed, 2 * sink.bytes.length));
  larger.set(sink.bytes.subarray(0, sink.end));
  sink.bytes = larger;
}
