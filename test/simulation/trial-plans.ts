import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";
import type { Place } from "./grow-trays.ts";

const times = <T>(count: number, make: (index: number) => T[]): T[] =>
  Array.from({ length: count }, (_, index) => make(index)).flat();

/** Every cook holds every dose equally often. */
export const blockedInCooks = (cooks: number, doses: ReadonlyArray<number>, traysPerDose: number): Place[] =>
  times(cooks, (cook) => doses.flatMap((doseMillilitres) => times(traysPerDose, () => [{ cook, doseMillilitres }])));

/** Every cook holds every dose with every supplement equally often. */
export const blockedTwoFactors = (
  cooks: number,
  doses: ReadonlyArray<number>,
  supplements: ReadonlyArray<string>,
  traysPerCell: number,
): Place[] =>
  blockedInCooks(cooks, doses, traysPerCell).flatMap((place) =>
    supplements.map((supplement) => ({ ...place, supplement })),
  );

/** Every cook holds each dose a number of times of its own, from one tray up to `most`. */
export const blockedUnevenly = (
  cooks: number,
  doses: ReadonlyArray<number>,
  most: number,
  random: SeededRandom,
): Place[] =>
  times(cooks, (cook) =>
    doses.flatMap((doseMillilitres) => times(1 + random.integer(most), () => [{ cook, doseMillilitres }])),
  );

/** Each dose gets whole cooks: dose number k the cooks k, k + 1, ... of an order that is drawn or kept. */
export function wholeCooks(
  cooksPerDose: number,
  doses: ReadonlyArray<number>,
  traysPerCook: number,
  random?: SeededRandom,
): Place[] {
  const inOrder = doses.flatMap((dose) => Array.from({ length: cooksPerDose }, () => dose));
  const order = random === undefined ? inOrder : random.shuffle(inOrder);
  return order.flatMap((doseMillilitres, cook) => times(traysPerCook, () => [{ cook, doseMillilitres }]));
}

/** In every cook each dose comes from jars of its own; with `shared` the same jar serves a dose in every cook. */
export const jarsPerDose = (
  cooks: number,
  doses: ReadonlyArray<number>,
  jarsEach: number,
  traysPerJar: number,
  shared = false,
): Place[] =>
  times(cooks, (cook) =>
    doses.flatMap((doseMillilitres, dose) =>
      times(jarsEach, (jar) =>
        times(traysPerJar, () => [
          { cook, doseMillilitres, jar: `J${shared ? "" : `${cook + 1}-`}${dose + 1}-${jar + 1}` },
        ]),
      ),
    ),
  );

/** In every cook a few jars, each shared by a pair of neighbouring doses: jars overlap the doses without holding them all. */
export const jarsAcrossDoses = (cooks: number, doses: ReadonlyArray<number>, traysPerJarAndDose: number): Place[] =>
  times(cooks, (cook) =>
    doses.flatMap((_, jar) =>
      [doses[jar]!, doses[(jar + 1) % doses.length]!].flatMap((doseMillilitres) =>
        times(traysPerJarAndDose, () => [{ cook, doseMillilitres, jar: `J${cook + 1}-${jar + 1}` }]),
      ),
    ),
  );

/** Each cook holds two neighbouring doses, and the pair moves up as the season goes on. */
export const dosesCreepingUp = (cooksPerPair: number, doses: ReadonlyArray<number>, traysPerDose: number): Place[] =>
  times((doses.length - 1) * cooksPerPair, (cook) => {
    const pair = Math.floor(cook / cooksPerPair);
    return [doses[pair]!, doses[pair + 1]!].flatMap((doseMillilitres) =>
      times(traysPerDose, () => [{ cook, doseMillilitres }]),
    );
  });
