/** Names of columns in their order. */
export function columnNames<Name extends string>(columns: Readonly<Record<Name, unknown>>): Name[] {
  return Object.keys(columns) as Name[];
}
