import { expect, test } from "vitest";
import { harvestOf, trayOf } from "./book-of.ts";

test("columns headed with names that objects have of themselves are columns like any other", async () => {
  const book = await harvestOf(
    "tray_id,inoculum_ml,fresh_g,dry_g,outcome,__proto__,constructor,toString\n" +
      "T1,5,200,20,good,a,x,p\nT2,5,210,21,good,A,y,q\nT2,5,210,21,good,A,y,q\nT3,5,220,22,good,,z,r\n",
  );
  expect(book.trays).toHaveLength(3);
  const { factors } = trayOf(book, "T2");
  expect(Object.entries(factors)).toEqual([
    ["__proto__", expect.stringMatching(/^a$/i)],
    ["constructor", "y"],
    ["toString", "q"],
  ]);
  expect(Object.keys(trayOf(book, "T3").factors)).toEqual(["constructor", "toString"]);
});
