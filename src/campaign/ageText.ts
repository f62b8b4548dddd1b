/** Whole minutes as people write an age: in days where they are whole, else in hours, else in minutes. */
export function ageText(minutes: number): string {
  if (minutes % 1440 === 0) return `${minutes / 1440}d`;
  return minutes % 60 === 0 ? `${minutes / 60}h` : `${minutes}min`;
}
