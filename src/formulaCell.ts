const number = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i;

/**
 * A cell that a spreadsheet would run as a formula: it begins with = + - @ (full-width ones too), tab or a line end and is no
 * number. Apostrophes before it count as part of it, so that a cell made safe by one more apostrophe can be read back exactly.
 */
export const formulaCell: RegExp = new RegExp(`^(?!${number.source.slice(1)})'*[=+\\-@\\t\\r\\n＝＋－＠]`, "i");
