import { testRule } from "./rule-table.ts";

testRule(
  "quoted-cell",
  [
    ["'12", "volume", "12"],
    ['"12"', "volume", "12"],
    ["'205 g'", "mass", "205"],
    ['"7 1/2 oz"', "mass", "212.6214234375"],
    ["'n/a", "mass", "missing: not applicable"],
  ],
  [
    ['12"', "volume", "unreadable"],
    ["1'200", "mass", "1200"],
    ["''", "mass", "unreadable"],
  ],
);
