/** Linear red, green and blue of `#rrggbb` (IEC 61966-2-1). */
export function linear(hex: string): number[] {
  return [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
}

/** What a matrix makes of linear colours, kept within what a screen can show. */
export function through(matrix: readonly (readonly number[])[], rgb: readonly number[]): number[] {
  return matrix.map((row) =>
    Math.min(
      1,
      Math.max(
        0,
        row.reduce((sum, factor, i) => sum + factor * rgb[i]!, 0),
      ),
    ),
  );
}

/** CIELAB under D65 (CIE 15). */
export function lab([r = 0, g = 0, b = 0]: readonly number[]): [number, number, number] {
  const x = (0.4123907993 * r + 0.3575843394 * g + 0.1804807884 * b) / 0.95045592705;
  const y = 0.2126390059 * r + 0.7151686788 * g + 0.0721923154 * b;
  const z = (0.0193308187 * r + 0.1191947798 * g + 0.9505321522 * b) / 1.08905775076;
  const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  return [116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))];
}

/** Contrast of two colours (WCAG 2.2, "contrast ratio"). */
export function contrast(a: string, b: string): number {
  const [light, dark] = [a, b].map(luminance).sort((p, q) => q - p) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(hex: string): number {
  const [r, g, b] = linear(hex) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** CIEDE2000 (Sharma, Wu and Dalal, Color Research and Application 30, 2005, 21–30; their equations 2 to 22). */
export function ciede2000(one: readonly [number, number, number], two: readonly [number, number, number]): number {
  const degree = Math.PI / 180;
  const [L1, a1, b1] = one;
  const [L2, a2, b2] = two;
  const meanC = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const G = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const C1 = Math.hypot((1 + G) * a1, b1);
  const C2 = Math.hypot((1 + G) * a2, b2);
  const hue = (a: number, b: number): number =>
    a === 0 && b === 0 ? 0 : (Math.atan2(b, (1 + G) * a) / degree + 360) % 360;
  const [h1, h2] = [hue(a1, b1), hue(a2, b2)];
  const grey = C1 * C2 === 0;
  const turn = grey ? 0 : ((h2 - h1 + 540) % 360) - 180;
  const dL = L2 - L1;
  const dC = C2 - C1;
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin((turn / 2) * degree);
  const L = (L1 + L2) / 2;
  const C = (C1 + C2) / 2;
  const h = grey ? h1 + h2 : Math.abs(h1 - h2) <= 180 ? (h1 + h2) / 2 : (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
  const cos = (angle: number): number => Math.cos(angle * degree);
  const T = 1 - 0.17 * cos(h - 30) + 0.24 * cos(2 * h) + 0.32 * cos(3 * h + 6) - 0.2 * cos(4 * h - 63);
  const SL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C * T;
  const RT = -2 * Math.sqrt(C ** 7 / (C ** 7 + 25 ** 7)) * Math.sin(60 * Math.exp(-(((h - 275) / 25) ** 2)) * degree);
  return Math.sqrt((dL / SL) ** 2 + (dC / SC) ** 2 + (dH / SH) ** 2 + RT * (dC / SC) * (dH / SH));
}
