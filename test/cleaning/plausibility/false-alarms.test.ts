import { expect, test } from "vitest";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { bookOf } from "../book-of.ts";

/** A sheet without a slip: normal weights that differ by 12.5 %, cooks by as much, losses at random. */
function soundSheet(seed: number, cooks: number, doses: number): string {
  const random = seededRandom(seed);
  const rows = Array.from({ length: cooks * 6 }, (_, at) => {
    const cook = Math.floor(at / 6);
    const ofCook = seededRandom(1000 * seed + cook).normal();
    const dry = Math.max(2, 24 + 3 * ofCook + 3 * random.normal());
    const fresh = Math.round(dry * (9 + 0.4 * random.normal()));
    const lost = random.uniform() < 0.08;
    const days = 14 + Math.round(1.2 * random.normal());
    const weights = lost ? "contaminated,," : `good,${fresh},${dry.toFixed(1)}`;
    return `T${at},C${cook},${3 * (1 + ((at + cook) % doses))},${days},${weights}`;
  });
  return ["Tray,Cook,LC ml,Days to colonise,Result,Fresh g,Dry g", ...rows].join("\n");
}

// a robust z beyond 3.5 is seen in 0.05 % of normal values whose spread is known (Iglewicz and Hoaglin 1993); in small books it
// is not known, and fresh and dry weight are looked at both: one book in four and three trays in two hundred at most
test.each([
  [1, 2],
  [3, 3],
  [5, 4],
  [10, 6],
])("sound books of %i cooks and %i doses: few are said to hold an unusual tray", async (cooks, doses) => {
  const books = 30;
  let [alarmed, flagged] = [0, 0];
  for (let seed = 1; seed <= books; seed++) {
    const { trays } = await bookOf({ "trays.csv": soundSheet(seed, cooks, doses) });
    const far = trays.filter(({ flags }) => flags.some((flag) => flag.endsWith("-unusual"))).length;
    alarmed += far > 0 ? 1 : 0;
    flagged += far;
  }
  expect(alarmed / books).toBeLessThan(0.25);
  expect(flagged / (books * cooks * 6)).toBeLessThan(0.015);
});
