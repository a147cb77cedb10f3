import { expect, test } from "vitest";
import { trayKey } from "../../../src/cleaning/trays/tray-key.ts";

test.each([
  ["T1", "t1"],
  ["t 1", "t1"],
  ["T-01", "t1"],
  ["T #1", "t1"],
  ["Schälchen 03", "schalchen3"],
  ["C1-001", "c1-1"],
  ["1-12", "1-12"],
  ["112", "112"],
  ["1 - 12", "1-12"],
  ["10", "10"],
  ["T100", "t100"],
  ["0", "0"],
  ["A0", "a0"],
  ["~", "~"],
])("%j is the tray %j", (name, key) => {
  expect(trayKey(name)).toBe(key);
});
