import { testRule } from "./rule-table.ts";

testRule(
  "number-word",
  [
    ["none", "mass", "0"],
    ["zero", "mass", "0"],
    ["two weeks", "days", "14"],
    ["first", "count", "1"],
    ["Ten", "volume", "10"],
  ],
  [
    ["one-ish", "mass", "unreadable"],
    ["oneness", "mass", "unreadable"],
  ],
);
