import { testRule } from "./rule-table.ts";

testRule(
  "approximate",
  [
    ["~45", "mass", "about 45"],
    ["45ish", "mass", "about 45"],
    ["45-ish", "mass", "about 45"],
    ["about 45 g", "mass", "about 45"],
    ["approx. 2 lb", "mass", "about 907.18474"],
    ["45?", "mass", "about 45"],
    ["45 ± 2 g", "mass", "about 45"],
    ["ca 45", "mass", "about 45"],
    ["≈45", "mass", "about 45"],
  ],
  [
    ["45", "mass", "45"],
    ["?", "mass", "missing: unknown"],
    ["c", "mass", "unreadable"],
  ],
);
