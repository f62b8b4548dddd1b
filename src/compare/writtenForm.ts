/**
 * Plain data as the outputs write it: numbers at 9 significant digits, −0 as 0. What is computed from it is the same whether the data
 * come from memory or out of a file.
 */
export function writtenForm<T>(data: T): T {
  if (typeof data === "number") return (Number(data.toPrecision(9)) + 0) as T;
  if (Array.isArray(data)) return data.map((item) => writtenForm(item)) as T;
  if (data === null || typeof data !== "object") return data;
  return Object.fromEntries(Object.entries(data).map(([key, value]) => [key, writtenForm(value)])) as T;
}
