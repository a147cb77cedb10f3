import { testRule } from "./rule-table.ts";

testRule(
  "missing-word",
  [
    ["", "mass", "missing: blank"],
    ["-", "mass", "missing: dash"],
    ["–", "mass", "missing: dash"],
    ["n/a", "mass", "missing: not applicable"],
    ["N.A.", "volume", "missing: not applicable"],
    ["?", "mass", "missing: unknown"],
    ["unknown", "days", "missing: unknown"],
    ["forgot to weigh", "mass", "missing: not weighed"],
    ["NW", "mass", "missing: not weighed"],
  ],
  [
    ["0", "mass", "0"],
    ["-5", "mass", "-5"],
  ],
);
