import { testRule } from "./rule-table.ts";

testRule(
  "sum-in-cell",
  [
    ["205 + 40 g", "mass", "245"],
    ["150 (+60)", "mass", "210"],
    ["150 g (+ 60 g)", "mass", "210"],
    ["200g+50g", "mass", "250"],
    ["200 + 50 + 30 g", "mass", "280"],
    ["200 + ~50 g", "mass", "about 250"],
    ["12ml + 5ml", "volume", "17"],
    ["12 + 5 ml", "volume", "17"],
  ],
  [
    ["2 lb 3 oz", "mass", "992.233309375"],
    ["1 lb and 3 oz", "mass", "538.640939375"],
  ],
);
