import { testRule } from "./rule-table.ts";

testRule(
  "spreadsheet-error",
  [
    ["#REF!", "mass", "unreadable"],
    ["#DIV/0!", "number", "unreadable"],
    ["#N/A", "mass", "unreadable"],
    ["#NAME?", "volume", "unreadable"],
    ["#####", "days", "unreadable"],
    ["Err:502", "mass", "unreadable"],
  ],
  [["#1", "count", "1"]],
);
