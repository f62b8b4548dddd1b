/**
 * The letters of cement chemist notation and the oxides they stand for. `$` is sulfur trioxide (S with a bar) and `c`
 * carbon dioxide (C with a bar). None is an element: C is calcium oxide, H is water, N is sodium oxide.
 */
export const oxides: Readonly<Record<string, string>> = {
  C: "CaO",
  S: "SiO2",
  A: "Al2O3",
  F: "Fe2O3",
  M: "MgO",
  K: "K2O",
  N: "Na2O",
  H: "H2O",
  $: "SO3",
  c: "CO2",
};
