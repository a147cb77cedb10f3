import { describe, expect, test } from "vitest";
import type { ColumnPlan } from "../../../src/cleaning/columns/column-plan.ts";
import { canonicalBounds, canonicalNumber } from "../../../src/cleaning/rows/canonical-text.ts";
import { type CellFact, readingOf } from "../../../src/cleaning/rows/cell-fact.ts";
import { columnReader, plainValue } from "../../../src/cleaning/rows/column-reader.ts";
import { flushNames, mayNameFlush } from "../../../src/cleaning/rows/flush-in-names.ts";
import { ownText } from "../../../src/cleaning/rows/own-text.ts";
import { readDateCell } from "../../../src/cleaning/rows/read-date-cell.ts";
import { questionOf, readOutcomeCell } from "../../../src/cleaning/rows/read-outcome-cell.ts";
import { readQuantityCell, settingAction } from "../../../src/cleaning/rows/read-quantity-cell.ts";
import { isPlainName, readTextCell } from "../../../src/cleaning/rows/read-text-cell.ts";
import { countOnly, pooledNames, severalTrays } from "../../../src/cleaning/rows/several-trays.ts";
import { plainConventions } from "../../../src/cleaning/values/quantity-reading.ts";
import type { Bounds } from "../../../src/records/tray.ts";
import { tableOf } from "../side-sheets/table-of-text.ts";

const planOf = (more: Partial<ColumnPlan> = {}): ColumnPlan =>
  ({
    index: 0,
    header: "Cell",
    field: "fresh_g",
    kind: "mass",
    because: "its name",
    conventions: { ...plainConventions, bareUnit: "g", decimalMark: "." },
    dates: { order: "", epoch: "" },
    ...more,
  }) as ColumnPlan;

/** A fact in short: its value and what else it says, then its remark as "rule severity result [setting]". */
function short({ remark, ...fact }: CellFact): unknown[] {
  const said =
    remark === undefined
      ? []
      : [
          `${remark.rule} ${remark.severity} ${remark.result}${remark.setting === undefined ? "" : ` [${remark.setting}]`}`,
        ];
  return [fact, ...said];
}
/** What a remark tells to do stands beside what was expected, and only where something is to be done. */
function tellsWhatToDo({ remark }: CellFact): void {
  if (remark === undefined) return;
  const toDo = remark.severity === "warning" || remark.severity === "error";
  expect([remark.reason === "", remark.expected !== "" || !toDo, remark.action !== "" || !toDo]).toEqual([
    false,
    true,
    true,
  ]);
}

test.each<[string, Partial<ColumnPlan>, unknown[]]>([
  ["205", {}, [{ value: 205 }]],
  ["205 g", {}, [{ value: 205 }, "unit-in-cell change 205"]],
  ["0.2 kg", {}, [{ value: 200 }, "unit-in-cell change 200"]],
  ["~205", {}, [{ value: 205 }, "approximate warning 205"]],
  ["310 g for 2 trays", {}, [{ value: 310, pool: 2 }, "pooled note 2 trays 310"]],
  [">14", {}, [{ bounds: { low: 14 } }, "bounds warning >14"]],
  ["<14", {}, [{ bounds: { high: 14 } }, "bounds warning <14"]],
  ["10-12", {}, [{ bounds: { low: 10, high: 12 } }, "bounds warning 10 to 12"]],
  [">2000000", {}, [{ unread: true }, "impossible-value error "]],
  ["<2000000", {}, [{ unread: true }, "impossible-value error "]],
  ["-5", {}, [{ unread: true }, "impossible-value error "]],
  ["abc", {}, [{ unread: true }, "not-a-number error "]],
  ["205 mL", {}, [{ unread: true }, "wrong-unit error "]],
  ["n/a", {}, [{}, "missing-word change "]],
  [" ", {}, [{}]],
  ["not weighed", {}, [{ unread: true }, "missing-word change "]],
  ["unknown", {}, [{ unread: true }, "missing-word change "]],
  ["contaminated", {}, [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["contaminated?", {}, [{ says: "contaminated", queried: true }, "outcome-queried warning contaminated"]],
  [
    "contaminated",
    { field: "inoculum_ml", kind: "volume" },
    [{ says: "contaminated" }, "outcome-word change contaminated"],
  ],
  ["compost", { field: "substrate_wet_g" }, [{ unread: true }, "not-a-number error "]],
  ["2 months", { field: "days_to_harvest", kind: "days" }, [{ value: 60.875 }, "rough-unit warning 60.875"]],
  ["3-4", { field: "flush", kind: "count" }, [{}, "bounds warning "]],
  ["12 %", { field: "spawn_pct", kind: "percent" }, [{ value: 0.12 }, "percent change 12"]],
])("the cell %j of numbers", (cell, plan, fact) => {
  const found = readQuantityCell(cell, planOf(plan));
  const [facts, ...said] = short(found);
  expect(facts).toStrictEqual(fact[0]);
  // the rule may be any that reads it so, what comes of it may not
  expect(
    said.map((text) => String(text).replace(/^(?:unit-in-cell|[a-z-]*percent[a-z-]*|units?-[a-z-]+) /, "* ")),
  ).toEqual(fact.slice(1).map((text) => String(text).replace(/^(?:unit-in-cell|percent) /, "* ")));
  tellsWhatToDo(found);
});

test("a bare number whose unit is not known waits, and is asked for by its setting", () => {
  const bare = planOf({ conventions: { ...plainConventions, bareUnit: "", decimalMark: "." } });
  expect(short(readQuantityCell("205", bare))).toEqual([
    { open: true, unread: true },
    "bare-number warning  [mass_unit]",
  ]);
  expect(readQuantityCell("205", bare).remark!.action).toBe(
    "State mass_unit in settings.csv (g, kg, oz, lb): that settles every cell like this one",
  );
  expect(settingAction("nothing")).toBe("State nothing in settings.csv: that settles every cell like this one");
});

test("in a column that mixes °C and °F a number is of the only scale on which it could be", () => {
  const mixed = planOf({
    field: "fruiting_c",
    kind: "temperature",
    mixedTemperatures: true,
    conventions: { ...plainConventions, bareUnit: "", decimalMark: "." },
  } as Partial<ColumnPlan>);
  expect(short(readQuantityCell("18", mixed))).toEqual([
    { value: 18 },
    "mixed-temperatures warning 18 [temperature_unit]",
  ]);
  expect(short(readQuantityCell("68", mixed))).toEqual([
    { value: 20 },
    "mixed-temperatures warning 20 [temperature_unit]",
  ]);
  expect(short(readQuantityCell("38", mixed))[0]).toEqual({ open: true, unread: true });
  expect(short(readQuantityCell("18", { ...mixed, mixedTemperatures: undefined } as never))[0]).toEqual({
    open: true,
    unread: true,
  });
});

test.each<[string, ColumnPlan["dates"], unknown[]]>([
  ["2026-03-04", { order: "", epoch: "" }, [{ value: "2026-03-04" }]],
  ["4 March 2026", { order: "", epoch: "" }, [{ value: "2026-03-04" }, "* change 2026-03-04"]],
  ["~2026-03-04", { order: "", epoch: "" }, [{ value: "2026-03-04" }, "approximate warning 2026-03-04"]],
  ["3/4/26", { order: "", epoch: "" }, [{ open: true }, "day-or-month warning  [date_order]"]],
  ["3/4/26", { order: "day first", epoch: "" }, [{ value: "2026-04-03" }, "* change 2026-04-03"]],
  ["46085", { order: "", epoch: "" }, [{ open: true }, "serial-date warning  [serial_dates]"]],
  [
    "4 March",
    { order: "", epoch: "" },
    [{ open: true, yearless: [{ month: 3, day: 4 }] }, "no-year warning  [first_year]"],
  ],
  [
    "3/4",
    { order: "", epoch: "" },
    [
      {
        open: true,
        yearless: [
          { month: 4, day: 3 },
          { month: 3, day: 4 },
        ],
      },
      "day-or-month warning  [date_order]",
    ],
  ],
  [" ", { order: "", epoch: "" }, [{}]],
  ["n/a", { order: "", epoch: "" }, [{}, "missing-word change "]],
  ["contaminated", { order: "", epoch: "" }, [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["soon", { order: "", epoch: "" }, [{ unread: true }, "not-a-date error "]],
])("the cell %j of dates in the order %j", (cell, dates, fact) => {
  const found = readDateCell(cell, planOf({ kind: "date", field: "harvested_on", dates }));
  const [facts, ...said] = short(found);
  expect(facts).toStrictEqual(fact[0]);
  expect(said.map((text) => (String(fact[1]).startsWith("*") ? String(text).replace(/^\S+/, "*") : text))).toEqual(
    fact.slice(1),
  );
  tellsWhatToDo(found);
});

test.each<[string, ReturnType<typeof questionOf>]>([
  ["Outcome", undefined],
  ["Contaminated?", "contaminated"],
  ["Contam", "contaminated"],
  ["Schimmel", "contaminated"],
  ["% lost", "share lost"],
  ["Lost (pct)", "share lost"],
  ["Percent contaminated", "share lost"],
  ["Trays lost", "share lost"],
  ["Number lost", "share lost"],
  ["Tray", undefined],
  ["Number", undefined],
  ["Lost", "discarded"],
  ["Verlust", "discarded"],
  ["Failed?", "failed"],
  ["Discarded", "discarded"],
  ["Success", "good"],
  ["OK?", "good"],
  ["Clean", "good"],
  ["Survived", "good"],
  ["Usable", "good"],
  ["Good", "good"],
])("the header “%s” asks for %s", (header, question) => {
  expect(questionOf(header)).toBe(question);
});

test.each<[string, ReturnType<typeof questionOf>, unknown[]]>([
  ["good", undefined, [{ says: "good" }]],
  ["asked", undefined, [{ says: "asked" }, "outcome-asked warning asked"]],
  ["ok", undefined, [{ says: "good" }, "outcome-word change good"]],
  ["tossed", undefined, [{ says: "discarded" }, "outcome-word change discarded"]],
  ["contaminted", undefined, [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["mold?", undefined, [{ says: "contaminated", queried: true }, "outcome-queried warning contaminated"]],
  ["purple", undefined, [{ says: "asked" }, "not-an-outcome warning asked"]],
  ["good, then mold", undefined, [{ says: "asked" }, "outcome-two-ways warning asked"]],
  ["?", undefined, [{ says: "asked" }, "outcome-unknown warning asked"]],
  ["unknown", undefined, [{ says: "asked" }, "outcome-unknown warning asked"]],
  ["n/a", undefined, [{}, "missing-word change "]],
  [" ", undefined, [{}]],
  ["yes", "contaminated", [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["Yes!", "contaminated", [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["✓", "discarded", [{ says: "discarded" }, "outcome-word change discarded"]],
  ["no", "contaminated", [{ says: "not lost" }, "outcome-word change "]],
  ["yes", "good", [{ says: "good" }, "outcome-word change good"]],
  ["no.", "good", [{ says: "failed" }, "outcome-word change failed"]],
  ["yes?", "contaminated", [{ says: "contaminated", queried: true }, "outcome-queried warning contaminated"]],
  ["no?", "good", [{ says: "failed", queried: true }, "outcome-queried warning failed"]],
  ["no?", "contaminated", [{ says: "asked" }, "not-an-outcome warning asked"]],
  ["yes - green mold", "discarded", [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["no, dried out", "contaminated", [{ says: "failed" }, "outcome-word change failed"]],
  ["yes, green mold", "good", [{ says: "asked" }, "*"]],
  ["no - all fine", "contaminated", [{ says: "not lost" }, "outcome-word change "]],
  ["2026-03-04", "discarded", [{ says: "spent" }, "outcome-word change spent"]],
  ["2026-03-04", "failed", [{ says: "spent" }, "outcome-word change spent"]],
  ["2026-03-04", "contaminated", [{ says: "contaminated", queried: true }, "outcome-word change contaminated"]],
  ["2026-03-04", "good", [{ says: "asked" }, "not-an-outcome warning asked"]],
  ["2026-03-04", "share lost", [{ says: "asked" }, "not-an-outcome warning asked"]],
  ["0", "share lost", [{ says: "not lost" }, "outcome-word change "]],
  ["0 %", "share lost", [{ says: "not lost" }, "outcome-word change "]],
  ["100", "share lost", [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["12,5 %", "share lost", [{ says: "asked" }, "lost-in-part warning asked"]],
  ["100.5", "share lost", [{ says: "asked" }, "lost-in-part warning asked"]],
  ["50 %", "contaminated", [{ says: "asked" }, "lost-in-part warning asked"]],
  ["0 %", "discarded", [{ says: "not lost" }, "outcome-word change "]],
  ["50 %", "good", [{ says: "asked" }, "lost-in-part warning asked"]],
  ["100 %", "good", [{ says: "not lost" }, "outcome-word change "]],
  ["0", "share good", [{ says: "failed" }, "outcome-word change failed"]],
  ["100", "share good", [{ says: "not lost" }, "outcome-word change "]],
  ["yes", "not contaminated", [{ says: "not lost" }, "outcome-word change "]],
  ["no", "not contaminated", [{ says: "contaminated" }, "outcome-word change contaminated"]],
  ["no - dried out", "not contaminated", [{ says: "failed" }, "outcome-word change failed"]],
  ["yes - green mold", "not contaminated", [{ says: "asked" }, "*"]],
  ["no?", "not discarded", [{ says: "discarded", queried: true }, "outcome-queried warning discarded"]],
  ["2026-03-04", "not contaminated", [{ says: "asked" }, "not-an-outcome warning asked"]],
])("the cell %j under a header that asks for %s", (cell, question, fact) => {
  const found = readOutcomeCell(cell, question);
  const [facts, ...said] = short(found);
  if (fact[1] === "*") return void expect(found.says).not.toBe("good");
  expect(facts).toStrictEqual(fact[0]);
  expect(said).toEqual(fact.slice(1));
  tellsWhatToDo(found);
});

test.each([
  ["3", true],
  [" 3 ", true],
  ["9999", true],
  ["0", false],
  ["10000", false],
  ["3 lost", false],
])("the number %j beside a count of trays says how many were lost: %s", (cell, counts) => {
  const lost = counts ? { trays: Number(cell), outcome: "discarded" } : undefined;
  expect(readOutcomeCell(cell, undefined, "trays").lost).toEqual(lost);
  expect(readOutcomeCell(cell, undefined).lost).toBeUndefined();
});

test.each<[string, unknown[], unknown[]?]>([
  ["Blue", [{ value: "Blue" }]],
  ["Blue oyster 2", [{ value: "Blue oyster 2" }]],
  [" Blue  oyster ", [{ value: "Blue oyster" }, "surrounding-space change Blue oyster"]],
  ["Blue\u00a0oyster", [{ value: "Blue oyster" }, "surrounding-space change Blue oyster"]],
  ["Blue\u200b", [{ value: "Blue" }, "surrounding-space change Blue"]],
  ["Schäl", [{ value: "Schäl" }]],
  ["Scha\u0308l", [{ value: "Schäl" }, "surrounding-space change Schäl"]],
  ["a\nb", [{ value: "a\nb" }]],
  [" ", [{}]],
  ['="007"', [{ value: "007" }, "quoted-cell change 007"], [{ value: '="007"' }]],
  ["'007", [{ value: "007" }, "quoted-cell change 007"], [{ value: "'007" }]],
  ["'Blue'", [{ value: "Blue" }, "quoted-cell change Blue"], [{ value: "'Blue'" }]],
  ["‘Blue’", [{ value: "Blue" }, "quoted-cell change Blue"], [{ value: "‘Blue’" }]],
  ["' '", [{ value: "' '" }]],
  ["it's", [{ value: "it's" }]],
  ["'a'b", [{ value: "'a'b" }]],
  ["#REF!", [{}, "spreadsheet-error warning "], [{ value: "#REF!" }]],
  ["n/a", [{}, "missing-word change "], [{ value: "n/a" }]],
  ["N.A.", [{}, "missing-word change "], [{ value: "N.A." }]],
  ["?", [{}, "missing-word change "], [{ value: "?" }]],
  ["--", [{}, "missing-word change "], [{ value: "--" }]],
  ["unknown", [{}, "missing-word change "], [{ value: "unknown" }]],
  ["not recorded", [{}, "missing-word change "], [{ value: "not recorded" }]],
  ["none", [{ value: "none" }]],
  ["unknown blue", [{ value: "unknown blue" }]],
])("the cell %j of names", (cell, name, asTyped = name) => {
  expect(short(readTextCell(cell, false))).toStrictEqual(name);
  expect(short(readTextCell(cell, true))).toStrictEqual(asTyped);
  tellsWhatToDo(readTextCell(cell, false));
  // the quick way past a closer look comes to the same
  if (isPlainName(cell)) expect(name).toEqual([{ value: cell }]);
});

test("why a cell of names is taken for none is told: nothing to say, or not known", () => {
  const reason = (cell: string) => readTextCell(cell, false).remark!.reason;
  expect(reason("n/a")).not.toBe(reason("unknown"));
  expect(reason("not known")).toBe(reason("unknown"));
});

test.each(["Blue", "T 1", "9a", "zz", "Blue oyster 2"])("%j is a name without a closer look", (cell) => {
  expect(isPlainName(cell)).toBe(true);
});
test.each([
  " Blue",
  "Blue ",
  "Blue  oyster",
  "n/a",
  "Not known",
  "unknown",
  "empty",
  "?",
  "",
  "'a",
  "=1",
  "Schäl\u0308",
  "a\u00a0b",
  "a\tb",
  "#1",
])("%j is looked at closer", (cell) => {
  expect(isPlainName(cell)).toBe(false);
});

test.each<[number, "mass" | "percent", string]>([
  [205, "mass", "205"],
  [0.1, "mass", "0.1"],
  [0.07, "percent", "7"],
  [0.29, "percent", "29"],
  [1 / 3, "percent", "33.333333333333"],
])("%d as %s is shown as %s", (value, kind, text) => {
  expect(canonicalNumber(value, kind)).toBe(text);
});
test.each<[Bounds, string]>([
  [{}, ""],
  [{ low: 1 }, ">1"],
  [{ high: 2 }, "<2"],
  [{ low: 1, high: 2 }, "1 to 2"],
])("the limits %j are shown as %j", (bounds, text) => {
  expect(canonicalBounds(bounds, "mass")).toBe(text);
});

test("a fact that is a value and nothing else is told from one that says more", () => {
  expect(readingOf({ value: 5 })).toEqual({ value: 5, more: undefined });
  const fact = { value: 5, pool: 2 };
  expect(readingOf(fact)).toEqual({ value: 5, more: fact });
  expect(readingOf({ unread: true })).toEqual({ value: undefined, more: { unread: true } });
});

test("a text with letters of its own is the same text, at every length", () => {
  for (const length of [0, 1, 12, 13, 999, 1000, 1001]) {
    const text = "aé日😀".repeat(length).slice(0, length);
    expect(ownText(text)).toBe(text);
  }
});

describe("plain digits are taken as they stand", () => {
  const value = (text: string, more: Partial<ColumnPlan> = {}) => plainValue(columnReader(planOf(more)), text);
  test.each<[string, Partial<ColumnPlan>, number]>([
    ["205", {}, 205],
    ["20.5", {}, 20.5],
    ["20,5", {}, -1],
    ["1000000", {}, 1_000_000],
    ["1000001", {}, -1],
    ["205 g", {}, -1],
    ["205", { conventions: { ...plainConventions, bareUnit: "oz", decimalMark: "." } }, -1],
    ["205", { conventions: { ...plainConventions, bareUnit: "", decimalMark: "." } }, -1],
    ["1.234", { conventions: { ...plainConventions, bareUnit: "g", decimalMark: "," } }, -1],
    ["1.234", {}, 1.234],
    ["30000", { field: "substrate_wet_g" }, 30_000],
    ["30001", { field: "substrate_wet_g" }, -1],
    ["21", { field: "days_to_harvest", kind: "days", conventions: plainConventions }, 21],
    ["3650", { field: "days_to_harvest", kind: "days", conventions: plainConventions }, 3650],
    ["8", { field: "days_to_harvest", kind: "days", conventions: { ...plainConventions, bareUnit: "weeks" } }, -1],
    ["3651", { field: "days_to_harvest", kind: "days", conventions: plainConventions }, -1],
    [
      "1000",
      { field: "inoculum_ml", kind: "volume", conventions: { ...plainConventions, bareUnit: "mL", decimalMark: "." } },
      1000,
    ],
    [
      "1001",
      { field: "inoculum_ml", kind: "volume", conventions: { ...plainConventions, bareUnit: "mL", decimalMark: "." } },
      -1,
    ],
    [
      "18",
      {
        field: "fruiting_c",
        kind: "temperature",
        conventions: { ...plainConventions, bareUnit: "°C", decimalMark: "." },
      },
      -1,
    ],
    ["2026", { field: "harvested_on", kind: "date" }, -1],
    ["12", { field: "strain", kind: "text" }, -1],
  ])("%j under %j is %d", (text, more, expected) => {
    expect(value(text, more)).toBe(expected);
  });
});

describe("a column of cells", () => {
  test("reads the same text the same, and tells its different texts", () => {
    const reader = columnReader(planOf({ field: "strain", kind: "text", header: "Strain" }));
    for (const text of ["Blue", "Grey", "Blue", "#REF!", " Blue"]) reader.read(text);
    expect(reader.read("Blue")).toEqual({ value: "Blue", more: undefined });
    expect(reader.texts()).toEqual(["Blue", "Grey"]);
    // texts that are found at one place by their last letters are still two
    expect(["xab", "yab", "xab"].map((text) => reader.read(text).value)).toEqual(["xab", "yab", "xab"]);
  });
  test("with very many texts remembers none of the further ones", () => {
    const reader = columnReader(planOf({ field: "strain", kind: "text" }));
    for (let at = 0; at < 20_000; at++) reader.read(`x${at}`);
    expect(reader.texts()).toHaveLength(20_000);
    expect(reader.read("one more").value).toBe("one more");
    expect(reader.texts()).toBeUndefined();
  });
  test("marks that its header explains are what the header says", () => {
    const reader = columnReader(
      planOf({ field: "outcome", kind: "outcome", header: "Result (X = harvested, Q: contaminated)" }),
    );
    expect(["X", " q ", "Q", "Z"].map((text) => reader.read(text).more?.says)).toEqual([
      "good",
      "contaminated",
      "contaminated",
      "asked",
    ]);
    const plain = columnReader(planOf({ field: "outcome", kind: "outcome", header: "Result" }));
    expect(plain.read("Q").more?.says).toBe("asked");
  });
  test("of free facts and notes keeps words for nothing", () => {
    const words = (field: ColumnPlan["field"]) => columnReader(planOf({ field, kind: "text" })).read("n/a").value;
    expect([words("factor"), words("note"), words("strain")]).toEqual(["n/a", "n/a", undefined]);
  });
});

const namesTable = (...names: string[]) =>
  tableOf(
    "a.csv",
    ["Tray"],
    names.map((name) => [name]),
  );

test.each<[string[], [string, number | "asked" | "too many"][]]>([
  [["T1", "T2"], []],
  [["T1-T3", "T4"], [["T1-T3", 3]]],
  [[" T1-T3 ", "T4"], [["T1-T3", 3]]],
  // another row speaks of one of them
  [["T1-T3", "t 2"], [["T1-T3", "asked"]]],
  [
    ["T1-T3", "T3+T4"],
    [
      ["T1-T3", "asked"],
      ["T3+T4", "asked"],
    ],
  ],
  [["T1-T3", "T1-T3"], [["T1-T3", 3]]],
  // forms that may be plain names are names where two of them overlap
  [["1-2", "1-3", "2-1"], []],
  [["1-1", "1-2"], []],
  [["3-2", "5-6"], []],
  [["K1-1", "K1-2"], []],
  [
    ["1-2", "3-4"],
    [
      ["1-2", 2],
      ["3-4", 2],
    ],
  ],
  [["1-4", "3"], [["1-4", "asked"]]],
  [["T1-T61", "x"], [["T1-T61", "too many"]]],
  [["1-5000", "x"], [["1-5000", "too many"]]],
  [
    ["1-5000", "T1-T3"],
    [
      ["1-5000", "too many"],
      ["T1-T3", 3],
    ],
  ],
  [["1-5000", "2-6000"], []],
])("in a column of %j the pools are %j", (names, pooled) => {
  expect([...pooledNames(namesTable(...names), 0)]).toEqual(pooled);
});

test.each<[string, string[] | undefined]>([
  ["T1 - T3", ["t1", "t2", "t3"]],
  ["T01…T03", ["t1", "t2", "t3"]],
  ["T1...T3", ["t1", "t2", "t3"]],
  ["#1 to #3", ["1", "2", "3"]],
  ["T#1-T#2", ["t1", "t2"]],
  ["1 t/m 3", ["1", "2", "3"]],
  ["1 à 3", ["1", "2", "3"]],
  ["1 y 2", ["1", "2"]],
  ["1 u. 2", ["1", "2"]],
  ["1;2", ["1", "2"]],
  ["A (x2)", ["a ×1", "a ×2"]],
  ["A × 2", ["a ×1", "a ×2"]],
  ["T1-T2 blue", undefined],
  ["blue T1-T2", undefined],
  ["T1-T2-T3", undefined],
  ["1-", undefined],
  ["-3", undefined],
  ["1234567-1234568", undefined],
  ["T1,,T2", ["t1", "t2"]],
  ["T1,T2 x", undefined],
])("%j names %j", (text, keys) => {
  expect(severalTrays(text)?.keys).toEqual(keys);
});

test.each([
  ["04 trays", 4],
  ["4  Trays", 4],
  [" 4 trays ", 4],
  ["4trays", 0],
  ["100 trays", 0],
  ["a4 trays", 0],
  ["4 traysxxxx", 0],
])("%j alone counts %d trays", (text, count) => {
  expect(countOnly(text)).toBe(count);
});

test.each([
  ["T1 F2", true],
  ["T1, 2nd flush", true],
  ["T1 flush 2", true],
  ["B3 (F1)", true],
  ["T1-F2", true],
  ["T1 f. 2", true],
  ["T1F2", false],
  ["F2", false],
  ["T1 blue", false],
  ["T12", false],
  ["T1 F0", false],
])("%j may name a flush: %s", (text, may) => {
  expect(mayNameFlush(text)).toBe(may);
});

describe("names that speak of a flush", () => {
  const named = (names: string[], hasFlushes = false, isPinned = false) =>
    [...flushNames(namesTable(...names), 0, hasFlushes, isPinned)].map(([text, { value, flush, remark }]) => [
      text,
      value,
      flush,
      remark?.result,
    ]);
  test("by words always do", () => {
    expect(named(["T1 flush 2", "T3"])).toEqual([["T1 flush 2", "T1", 2, "T1, flush 2"]]);
    expect(named(["T1, 2nd flush"], false, true)).toEqual([["T1, 2nd flush", "T1", 2, "T1, flush 2"]]);
    expect(named(["T1 flush 2"], true)).toEqual([]);
  });
  test("by a letter do where each has its first, one its second, and half of the names are so", () => {
    const two = ["T1 F1", "T1 F2"];
    expect(named(two).map(([, tray, flush]) => [tray, flush])).toEqual([
      ["T1", 1],
      ["T1", 2],
    ]);
    expect(named([...two, "T2", "T3"])).toHaveLength(2);
    expect(named([...two, "T2", "T3", "T4"])).toEqual([]);
    expect(named([...two, "T2", "", "T3"])).toHaveLength(2);
    expect(named(["T1 F1", "T2 F1"])).toEqual([]);
    expect(named([...two, "T2 F2"])).toEqual([]);
    expect(named(two, false, true)).toEqual([]);
    expect(named(two, true)).toEqual([]);
  });
});
