import { testRule } from "./rule-table.ts";

testRule(
  "fraction",
  [
    ["1 1/2 oz", "mass", "42.5242846875"],
    ["½ cup", "volume", "118.29411825"],
    ["1½ lb", "mass", "680.388555"],
    ["3/4 lb", "mass", "340.1942775"],
    ["2 and 1/4 lb", "mass", "1020.5828325"],
    ["⅓ cup", "volume", "78.8627455"],
  ],
  [
    ["12/12", "hours", "12"],
    ["60/40", "number", "unreadable"],
  ],
);
