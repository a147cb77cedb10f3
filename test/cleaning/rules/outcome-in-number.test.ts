import { testRule } from "./rule-table.ts";

testRule(
  "outcome-word",
  [
    ["contam", "mass", "contaminated"],
    ["Contaminated", "mass", "contaminated"],
    ["contaminted", "mass", "contaminated"],
    ["green", "mass", "contaminated"],
    ["mold?", "mass", "contaminated?"],
    ["tossed", "mass", "discarded"],
    ["no pins", "mass", "failed"],
    ["still growing", "mass", "growing"],
    ["120 g contam", "mass", "contaminated"],
    ["tossed (green)", "mass", "contaminated"],
  ],
  [
    ["ok", "mass", "unreadable"],
    ["no contamination", "mass", "unreadable"],
    ["310 g", "mass", "310"],
    ["greenhouse scale", "mass", "unreadable"],
  ],
);
