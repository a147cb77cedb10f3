import { testRule } from "./rule-table.ts";

testRule(
  "thousands-mark",
  [
    ["1 234 g", "mass", "1234"],
    ["1'234,5 g", "mass", "1234.5"],
    ["1.234,5", "mass", "1234.5"],
    ["1,234.5", "mass", "1234.5"],
    ["1,234,567", "number", "1234567"],
    ["1.234.567", "number", "1234567"],
  ],
  [
    ["1,234", "mass", "1.234 or 1234: decimal_mark"],
    ["2 lb 3 oz", "mass", "992.233309375"],
    ["12.5", "mass", "12.5"],
  ],
);
