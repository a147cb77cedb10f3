import { testRule } from "./rule-table.ts";

testRule(
  "unusual-characters",
  [
    ["−5 g", "mass", "-5"],
    ["12 g", "mass", "12"],
    ["1 234 g", "mass", "1234"],
    ["１２", "mass", "12"],
    ["1’234 g", "mass", "1234"],
    ["1⁄2 oz", "mass", "14.1747615625"],
  ],
  [["12 g", "mass", "12"]],
);
