import { expect, test } from "vitest";
import { bookOf } from "../book-of.ts";

const flagged = async (note: string, fresh = "210", dry = "21"): Promise<boolean> => {
  const book = await bookOf({
    "a.csv": `Tray,LC ml,Fresh g,Dry g,Outcome,Notes\nT1,10,${fresh},${dry},good,"${note}"\nT2,15,231,23,good,\n`,
  });
  return book.issues.some(({ rule }) => rule === "weight-in-note");
};

// what a careful person would ask about: common practice, no source
test.each(["+ 40 g second pick", "2nd flush 65g a week later", "zweite Ernte 55 g", "another picking of 1.5 oz, sold"])(
  "a picking in the remarks is pointed out: %s",
  async (note) => {
    expect(await flagged(note)).toBe(true);
  },
);

test.each(["flush 1 140 g + flush 2 70 g", "harvest 210 g", "12 ml + 5 ml", "substrate 900 g", "pick 2 tomorrow"])(
  "a remark that is counted, or of no picking, is none: %s",
  async (note) => {
    expect(await flagged(note)).toBe(false);
  },
);
