import { expect, test } from "vitest";
import { besideLevel } from "../../analyses/treatment/verdict-words.ts";
import { asAmount } from "../../src/design/amount-of-names.ts";
import { doseFactor, freeFactor } from "../../src/design/factor.ts";
import { trayRecord } from "./demo-records.ts";

test("a level beside another keeps its unit, and leaves out a name that is said already", () => {
  const trays = ["0", "5", "10"].map((level) =>
    trayRecord({ trayId: level, factors: { "Bran %": level, Lamp: "on" } }),
  );
  expect(besideLevel(asAmount(freeFactor("Bran %"), trays), 0)).toMatchObject({ value: 0, unit: "%" });
  expect(besideLevel(freeFactor("Lamp"), "off")).toBe("off");
  expect(besideLevel(doseFactor, 3)).toMatchObject({ value: 3, unit: "mL" });
});
