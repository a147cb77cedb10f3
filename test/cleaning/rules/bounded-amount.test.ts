import { testRule } from "./rule-table.ts";

testRule(
  "bounds",
  [
    ["40-50", "mass", "40 to 50"],
    ["40 – 50 g", "mass", "40 to 50"],
    ["10 to 12", "days", "10 to 12"],
    ["between 10 and 12 days", "days", "10 to 12"],
    [">50", "mass", "50 to"],
    ["<1", "mass", "to 1"],
    ["≥ 14", "days", "14 to"],
    ["at least 14 days", "days", "14 to"],
    ["up to 3 oz", "mass", "to 85.048569375"],
    ["50+", "mass", "50 to"],
    ["50+ g", "mass", "50 to"],
    ["1-2 lb", "mass", "453.59237 to 907.18474"],
    ["72-75 F", "temperature", "22.2222222222 to 23.8888888889"],
    ["50-40", "mass", "unreadable"],
  ],
  [
    ["-5", "mass", "-5"],
    ["1/2 lb", "mass", "226.796185"],
    ["720 min", "hours", "12"],
  ],
);
