/**
 * Standard atomic weights abridged to five figures, with the uncertainties of the abridgement: Prohaska et al.,
 * Pure Appl Chem 94:573–600 (2022), doi 10.1515/pac-2019-0603, table 1. Only the elements that occur in cement phases
 * and reference substances. Mixing tables moves results in the fifth figure: everything here comes from this one.
 */
export const atomicWeights: Readonly<Record<string, { weight: number; uncertainty: number }>> = {
  H: { weight: 1.008, uncertainty: 0.0002 },
  C: { weight: 12.011, uncertainty: 0.002 },
  N: { weight: 14.007, uncertainty: 0.001 },
  O: { weight: 15.999, uncertainty: 0.001 },
  Na: { weight: 22.99, uncertainty: 0.001 },
  Mg: { weight: 24.305, uncertainty: 0.002 },
  Al: { weight: 26.982, uncertainty: 0.001 },
  Si: { weight: 28.085, uncertainty: 0.001 },
  S: { weight: 32.06, uncertainty: 0.02 },
  K: { weight: 39.098, uncertainty: 0.001 },
  Ca: { weight: 40.078, uncertainty: 0.004 },
  Fe: { weight: 55.845, uncertainty: 0.002 },
  Cu: { weight: 63.546, uncertainty: 0.003 },
};
