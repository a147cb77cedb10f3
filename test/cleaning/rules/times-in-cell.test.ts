import { testRule } from "./rule-table.ts";

testRule(
  "times-in-cell",
  [
    ["2 x 6 ml", "volume", "12"],
    ["2x6ml", "volume", "12"],
    ["10 mL × 2", "volume", "20"],
    ["3*5", "volume", "15"],
    // pickings of one tray, or several trays
    ["2 x 120 g", "mass", "unreadable"],
    ["2*125", "mass", "unreadable"],
  ],
  [
    ["2 x", "volume", "unreadable"],
    ["2 x 6 ml twice", "volume", "unreadable"],
    ["6 x ml", "volume", "unreadable"],
    ["2 trays 240 g", "mass", "2 trays 240"],
  ],
);
