import { testRule } from "./rule-table.ts";

testRule(
  "decimal-or-thousands",
  [
    ["1,234", "mass", "1.234 or 1234: decimal_mark"],
    ["1.234", "mass", "1.234 or 1234: decimal_mark"],
    ["1,234", "mass", "1234", { decimalMark: "." }],
    ["1,234", "mass", "1.234", { decimalMark: "," }],
    ["1,234 g", "mass", "1234", { measures: "fresh_g", isAgreed: true }],
    ["1,234 kg", "mass", "1234", { measures: "fresh_g", isAgreed: true }],
    ["1,234 g", "mass", "1.234 or 1234: decimal_mark", { measures: "fresh_g" }],
    ["8,234 g", "mass", "8.234 or 8234: decimal_mark", { measures: "fresh_g", isAgreed: true }],
    ["1,234 g", "mass", "1.234 or 1234: decimal_mark", { measures: "dry_g", isAgreed: true }],
    ["1.234 kg", "mass", "1234000", { decimalMark: "," }],
    ["40-1,234", "mass", "1.234 or 1234: decimal_mark"],
  ],
  [
    ["0,234", "mass", "0.234"],
    ["1234,567", "mass", "1234.567"],
    ["1.234", "mass", "1.234", { decimalMark: "." }],
    ["12,5", "mass", "12.5"],
  ],
);
