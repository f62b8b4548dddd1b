/**
 * What anyone would write first: decode, split, Number. No units, no checks, no messages.
 *
 * @param {Uint8Array} bytes A tab-separated table with one line of headings.
 * @returns {Float64Array[]} One array per column.
 */
export function yardstick(bytes) {
  const lines = new TextDecoder().decode(bytes).split("\n");
  const rows = lines.length - 2;
  const columns = lines[0].split("\t").map(() => new Float64Array(rows));
  for (let i = 0; i < rows; i++) {
    const cells = lines[i + 1].split("\t");
    for (let c = 0; c < columns.length; c++) columns[c][i] = Number(cells[c]);
  }
  return columns;
}
