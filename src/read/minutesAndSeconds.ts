/** `:mm:ss` as seconds; NaN where it isn't. */
export function minutesAndSeconds(bytes: Uint8Array, at: number): number {
  const tensOfMinutes = bytes[at + 1]! - 48;
  const minutes = bytes[at + 2]! - 48;
  const tensOfSeconds = bytes[at + 4]! - 48;
  const seconds = bytes[at + 5]! - 48;
  const isClock =
    bytes[at] === 58 &&
    bytes[at + 3] === 58 &&
    tensOfMinutes >= 0 &&
    tensOfMinutes <= 5 &&
    minutes >= 0 &&
    minutes <= 9 &&
    tensOfSeconds >= 0 &&
    tensOfSeconds <= 5 &&
    seconds >= 0 &&
    seconds <= 9;
  return isClock ? 600 * tensOfMinutes + 60 * minutes + 10 * tensOfSeconds + seconds : Number.NaN;
}
