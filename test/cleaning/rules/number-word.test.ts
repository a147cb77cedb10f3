import { testRule } from "./rule-table.ts";

testRule(
  "number-word",
  [
    ["none", "mass", "0"],
    ["zero", "mass", "0"],
    ["two weeks", "days", "14"],
    ["first", "count", "1"],
    ["Ten", "volume", "10"],
    ["half a kilo", "mass", "500"],
    ["a quarter pound", "mass", "113.3980925"],
    ["half of a cup", "volume", "118.29411825"],
    ["a pound", "mass", "453.59237"],
  ],
  [
    ["one-ish", "mass", "unreadable"],
    ["oneness", "mass", "unreadable"],
    // twelve of what is not said
    ["a dozen", "volume", "unreadable"],
  ],
);
