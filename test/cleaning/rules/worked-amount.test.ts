import { testRule } from "./rule-table.ts";

// common practice, no source
testRule(
  "worked-amount",
  [
    ["10 ml (2 shots of 5)", "volume", "10"],
    ["10 ml (5+5)", "volume", "10"],
    ["267 g (312-45)", "mass", "267"],
    ["312 - 45 = 267 g", "mass", "267"],
    ["312-45=260 g", "mass", "unreadable"],
    ["2 x 6 = 12 ml", "volume", "12"],
  ],
  [
    ["10 ml (2 shots of 6)", "volume", "unreadable"],
    ["312 g (14/3)", "mass", "unreadable"],
    ["150 + 60 = 210 g", "mass", "210"],
    ["205 g (nice)", "mass", "205"],
  ],
);
