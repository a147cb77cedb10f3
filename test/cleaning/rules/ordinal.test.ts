import { testRule } from "./rule-table.ts";

testRule(
  "ordinal",
  [
    ["2nd", "count", "2"],
    ["#2", "count", "2"],
    ["flush 2", "count", "2"],
    ["F2", "count", "2"],
    ["G3", "count", "3"],
    ["3 trays", "count", "3"],
    ["2.", "count", "2"],
  ],
  [
    ["2", "count", "2"],
    ["2.5", "count", "unreadable"],
  ],
);
