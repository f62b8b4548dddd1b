/** Longest line that can be a row of a table, bytes. */
export const longestLine: number = 65_536;
