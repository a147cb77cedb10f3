import { testRule } from "./rule-table.ts";

testRule(
  "decimal-comma",
  [
    ["12,5", "mass", "12.5"],
    ["0,129 kg", "mass", "129"],
    [",5", "mass", "0.5"],
    ["1234,5", "mass", "1234.5"],
    ["64,4 F", "temperature", "18"],
  ],
  [
    ["12.5", "mass", "12.5"],
    ["1,234,567", "number", "1234567"],
  ],
);
