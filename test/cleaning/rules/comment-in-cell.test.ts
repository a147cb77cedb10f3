import { testRule } from "./rule-table.ts";

testRule(
  "comment-in-cell",
  [
    ["310 g (wet towel)", "mass", "310"],
    ["310 (g)", "mass", "310"],
    ["22 C [new probe]", "temperature", "22"],
  ],
  [
    ["310 g (2 trays)", "mass", "2 trays 310"],
    ["(wet towel)", "mass", "unreadable"],
  ],
);
