import fc from "fast-check";

/**
 * Properties are tried on the same made-up cases in every run, so that a run that fails fails again. Other cases are drawn
 * with GRAMWRIGHT_SEED=7, or any other whole number, and then more of them.
 */
const drawn = process.env.GRAMWRIGHT_SEED;
fc.configureGlobal(drawn === undefined ? { seed: 11, numRuns: 50 } : { seed: Number(drawn), numRuns: 300 });
