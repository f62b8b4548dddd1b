/**
 * Masses, in mg or %, beyond which a number in a file is a fault of writing and no mass: no balance weighs a picogram, and no
 * sample of a thermobalance a tonne. Within them squares and quotients stay numbers.
 */
export const leastMass = 1e-9;
export const mostMass = 1e9;
