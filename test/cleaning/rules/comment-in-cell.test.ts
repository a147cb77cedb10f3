import { testRule } from "./rule-table.ts";

testRule(
  "comment-in-cell",
  [
    ["310 g (nice one)", "mass", "310"],
    ["310 (g)", "mass", "310"],
    ["22 C [new probe]", "temperature", "22"],
    ["30 g, ok", "mass", "30"],
    ["30, ok", "mass", "30"],
    ["205 - nice", "mass", "205"],
    ["231*", "mass", "231"],
    ["231 net", "mass", "231"],
    ["30g total", "mass", "30"],
    ["300 grams!", "mass", "300"],
    ["210 (scale off)", "mass", "about 210"],
    ["210 g (from memory)", "mass", "about 210"],
    ["210 (geschätzt)", "mass", "about 210"],
    ["7 days - slow corner", "days", "7"],
  ],
  [
    ["310 g (2 trays)", "mass", "2 trays 310"],
    ["(wet towel)", "mass", "unreadable"],
    ["30 g, moldy", "mass", "contaminated"],
    ["30 g, 12 caps", "mass", "unreadable"],
    ["205 - bag", "mass", "unreadable"],
    ["30, half", "mass", "unreadable"],
    ["30 g.", "mass", "30"],
  ],
);
