import { testRule } from "./rule-table.ts";

testRule(
  "currency-sign",
  [
    ["$4.50", "number", "4.5"],
    ["4,50 €", "number", "4.5"],
    ["EUR 12", "number", "12"],
    ["-$3", "number", "-3"],
  ],
  [
    ["4.50", "number", "4.5"],
    ["$4.50", "mass", "unreadable"],
  ],
);
