/** A window that ends by here loses water only, °C (common practice, no source: bound water is taken up to 550–600 °C). */
export const WATER_GONE_C = 600;
