import { expect, test } from "vitest";
import { judgeMutant } from "./judge-reading.ts";

test("250 layouts of sheets of known truth are read right or asked about, and never misread without a word", async () => {
  const misread: string[] = [];
  let right = 0;
  for (let seed = 1; seed <= 250; seed++) {
    const { verdict, typed, differences } = await judgeMutant(seed);
    if (verdict === "right") right++;
    if (verdict === "silent misread")
      misread.push(`seed ${seed} (${typed.join("; ")}): ${differences.slice(0, 3).join("; ")}`);
  }
  expect(misread).toEqual([]);
  // a reader that asks about everything would be right, too
  expect(right).toBeGreaterThan(200);
});
