/**
 * Six colours that stay apart for readers with normal sight, without one kind of cone, and in grey print, none too light for a
 * thin line on white: found by search for the largest smallest distance, held by test/render/figures/palette.test.ts.
 */
export const palette: readonly string[] = ["#7c0403", "#129cd8", "#6c06d1", "#9e7426", "#3f1841", "#566965"];
