/** Molar gas constant, J/(mol·K): exact in the SI since 2019 (CODATA 2018, NIST SP 961). */
export const gasConstant = 8.31446261815324;

/** 0 °C in kelvin, by definition of the Celsius temperature. */
export const zeroCelsius = 273.15;
