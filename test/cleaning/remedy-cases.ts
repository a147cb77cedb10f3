/** Texts of sheets by path. */
export type Files = Record<string, string>;

/**
 * How a printed remedy is carried out: "setting" takes "State KEY = VALUE" or the first choice of "State KEY ... (A, B)",
 * "pins" the line or lines for columns.csv, each from the very text; "cell" answers the page's question of the cell, by
 * the text or the first button; a pair replaces text in the sheet, as the remedy says it in words.
 */
export type Remedy =
  | "setting"
  | "pins"
  | { cell: string }
  | { ending: true }
  | readonly [find: string | RegExp, replace: string]
  | { files: Files };

/** A rule, sheets it complains of, and remedies; each alone has to end the complaint. */
export type Case = readonly [rule: string, sheets: string | Files, ...remedies: Remedy[]];

const rows = (head: string, ...lines: string[]): string => `${[head, ...lines].join("\n")}\n`;
const trays = "Tray,LC ml,Fresh g,Dry g,Outcome";
const six = [
  ...["T1,10,205,21,good", "T2,10,198,20,good", "T3,10,210,21,good", "T4,15,231,23,good", "T5,15,226,23,good"],
  "T6,15,240,24,good",
];
/** The six trays with one more line. */
const and = (line: string): string => rows(trays, ...six, line);
const costs = "item,kind,pack_price,pack_size,pack_unit,amount,unit,per";
const cost = (line: string, head = costs): Files => ({ "a.csv": rows(trays, ...six), "costs.csv": rows(head, line) });
const product = (line: string, head = "product,form,pack_g,price"): Files => ({
  "a.csv": rows(trays, ...six),
  "products.csv": rows(head, line),
});
const setting = (...lines: string[]): Files => ({
  "a.csv": rows(trays, ...six),
  "settings.csv": rows("key,value,unit,note,sheet", ...lines),
});
const pin = (...lines: string[]): Files => ({
  "a.csv": rows(trays, ...six),
  "columns.csv": rows("file,header,field,unit", ...lines),
});

const ofShape: Case[] = [
  ["no-header", "T1,10,205,good\nT2,15,231,good\nT3,15,226,good\n", [/^/, "tray_id,inoculum_ml,fresh_g,outcome\n"]],
  [
    "values-as-names",
    "Flush,5 ml,10 ml\n1,205,231\n2,60,70\n",
    "setting",
    { files: { "a.csv": "tray_id,inoculum_ml,fresh_g\n1,5,205\n2,10,231\n" } },
  ],
  ["layout-in-doubt", "Tray,Strain,Yield\nBatch,10,10\nDose,200,210\n", "setting"],
  [
    "blank-tray-cells",
    "Tray,3 mL,6 mL\n1,205,231\n2,198,\n",
    ["198,", "198,contaminated"],
    ["198,", "198,growing"],
    ["198,", "198,none"],
  ],
  [
    "beside-table",
    "Tray,Dose ml,Fresh g,,Dose ml,Mean fresh\nT1,10,200,,10,205\nT2,10,210,,15,225\nT3,15,220,,,\nT4,15,230,,,\n",
    "setting",
  ],
  [
    "shifted-row",
    "Tray,LC ml,Fresh g,Dry g\nA1,10,205,22\nA2,10,,250,25,\nA3,15,240,26\nA4,15,230,25\n",
    ["A2,10,,250,25,", "A2,10,250,25"],
  ],
  [
    "long-row",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,ok", "T2,15,231,dense, late"),
    ["dense, late", '"dense, late"'],
  ],
  [
    "all-rows-short",
    rows("Tray,no,LC ml,Fresh g", "T1,10,205", "T2,15,231", "T3,15,240"),
    ["Tray,no", '"Tray,no"'],
    [/(?<=T\d.*)$/gm, ","],
  ],
  [
    "all-rows-long",
    rows("Tray,LC ml,Fresh g,Dry g", "T1,10,205,4,20", "T2,15,231,2,23"),
    [/(\d),(\d),(\d+)$/gm, '"$1.$2",$3'],
    ["Dry g", "Pins,Dry g"],
  ],
  [
    "doubt-beside-rows",
    rows("weights approx. (kitchen scale),,", "Tray,LC ml,Fresh g", "T1,10,205", "T2,15,231"),
    ["weights approx. (kitchen scale),,", ",,"],
  ],
  ["unclosed-quote", rows("Tray,LC ml,Fresh g,Notes", 'T1,10,205,"ok', "T2,15,231,x"), ['"ok', '"ok"'], ['"ok', "ok"]],
  [
    "row-without-tray",
    rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,231", ",,97", "T3,15,240"),
    ["\n,,97", "\nT9,15,97"],
    "setting",
  ],
  [
    "fill-down-in-doubt",
    "Tray,Dose ml,Fresh g\nT1,5,200\nT2,,205\nT3,,210\nT4,15,220\nT5,,230\nT6,20,240\nT7,,241\nT8,,242\nT9,,243\n",
    "setting",
  ],
  [
    "column-used-twice",
    rows("Tray,LC ml,Fresh g,Rack x,Rack x", "T1,10,205,1,2", "T2,15,231,1,2"),
    ["Rack x,Rack x", "Rack x,Bench"],
    [/Rack x,Rack x|(?<=,1),2/g, ""],
  ],
  ["nameless-column", rows("Tray,,LC ml,Fresh g", "T1,x,10,205", "T2,y,15,231"), ["Tray,,", "Tray,Bench,"]],
  ["unread-delimiter", "Tray#LC ml#Fresh g\nT1#10#205\nT2#15#231\n", [/#/g, ","]],
];

const ofColumns: Case[] = [
  ["weights-all-small", rows("Tray,LC ml,Fresh g", "T1,10,7.5", "T2,15,9", "T3,15,8"), "pins", [/7.5|9|8/g, "205"]],
  ["column-in-doubt", rows("Tray,LC ml,Date,Fresh g", "T1,10,2026-03-02,205", "T2,15,2026-03-04,231"), "pins"],
  [
    "gross-weight-column",
    rows("Tray,LC ml,Fresh incl. tray (g)", "T1,10,305", "T2,15,331"),
    "pins",
    ["Fresh incl. tray (g)", "Fresh g"],
  ],
  [
    "weights-by-remark",
    rows("All weights incl. 45 g box,,", "Tray,LC ml,Fresh g", "T1,10,250", "T2,15,276"),
    "pins",
    ["All weights incl. 45 g box,,\n", ""],
  ],
  [
    "two-columns-one-field",
    rows("Tray,LC ml,Fresh wt,Harvest weight", "T1,10,205,210", "T2,15,231,240"),
    { files: { "columns.csv": "file,header,field\na.csv,Fresh wt,fresh_g\na.csv,Harvest weight,factor\n" } },
  ],
  [
    "no-known-column",
    rows("Thing,Squirt,Stuff", "Q1,10,205", "Q2,10,198", "Q3,15,231", "Q4,15,229"),
    ["Thing,Squirt,Stuff", "Tray,LC ml,Fresh g"],
    { files: { "columns.csv": "file,header,field\na.csv,Squirt,inoculum_ml\na.csv,Stuff,fresh_g\n" } },
  ],
  ["no-varied-column", rows("Thing,Squirt,Stuff", "Q1,10,205", "Q2,10,198", "Q3,15,231", "Q4,15,229"), "pins"],
  [
    "no-result-column",
    rows("Tray,LC ml,Haul A g,Haul B g", "T1,10,205,60", "T2,15,231,70"),
    ["Haul A g,Haul B g", "Flush 1 g,Flush 2 g"],
    { files: { "columns.csv": "file,header,field\na.csv,Haul A g,fresh_g\n" } },
  ],
  ["no-result-column", rows("Thing,Squirt,Stuff", "Q1,10,205", "Q2,10,198", "Q3,15,231", "Q4,15,229"), "pins"],
];

const ofCells: Case[] = [
  ["decimal-or-thousands", rows("Tray,LC ml,Fresh g", 'T1,10,"5,234"', 'T2,15,"5,310"'), "setting"],
  [
    "syringe-size",
    rows("Tray,LC volume,Fresh g", "T1,1 syringe,205", "T2,2 syringes,231"),
    { files: { "settings.csv": "key,value\nsyringe_ml,12\n" } },
  ],
  ["bare-number", rows("Tray,Dose ml,Weight", "1,5,0.205", "2,10,0.198", "3,10,0.250"), "setting"],
  ["day-or-month", rows("Tray,LC ml,Inoculated,Fresh g", "T1,10,3/4/26,205", "T2,15,5/4/26,231"), "setting"],
  ["not-a-number", and("T7,15,abc,,good"), { cell: "310 g" }, ["abc", "310 g"]],
  ["container-included", and("T7,15,310 with towel,,good"), { cell: "230 g" }, ["310 with towel", "230 g"]],
  ["bounds", and("T7,15,>200,,good"), [">200", "230"]],
  ["spreadsheet-error", and("T7,15,#REF!,,good"), { cell: "230" }, ["#REF!", "230"]],
  [
    "not-a-date",
    rows("Tray,LC ml,Inoculated,Fresh g", "T1,10,2026-03-02,205", "T2,15,some day,231"),
    { cell: "2026-03-02" },
  ],
  [
    "no-year",
    rows("Tray,LC ml,Inoculated,Fresh g", "T1,10,3 Mar,205", "T2,15,5 Mar,231"),
    { files: { "settings.csv": "key,value\nfirst_year,2026\n" } },
  ],
  [
    "approximate",
    rows("Tray,LC ml,Inoculated,Fresh g", "T1,10,2026-03-02,205", "T2,15,~2026-03-04,231"),
    ["~2026", "2026"],
  ],
  ["not-an-outcome", and("T7,15,200,,meh"), { ending: true }, [",meh", ",good"]],
  ["outcome-two-ways", and('T7,15,200,,"good, green"'), { ending: true }, ['"good, green"', "contaminated"]],
  ["outcome-unknown", and("T7,15,200,,?"), { ending: true }, [",?", ",failed"]],
  [
    "lost-in-part",
    rows("Tray,LC ml,Fresh g,Contam %", "T1,10,205,0", "T2,15,150,20"),
    { ending: true },
    ["150,20", "150,good"],
  ],
  ["outcome-asked", and("T7,15,200,,asked"), { ending: true }, [",asked", ",good"]],
  ["outcome-queried", and("T7,15,,,contam?"), { ending: true }, ["contam?", "contaminated"]],
  [
    "outcome-contradiction",
    rows("Tray,LC ml,Fresh g,Dry g,Outcome", "T1,10,contam,,good", "T2,15,231,23,good"),
    ["contam", "205"],
    [",,good", ",,contaminated"],
  ],
  ["pool-contradiction", rows("Tray,LC ml,Fresh g,Trays", "T1-T3,10,600,4", "T4-T6,15,690,3"), ["600,4", "600,3"]],
];

const ofTrays: Case[] = [
  [
    "loss-from-note",
    rows("Tray,LC ml,Picked,Fresh g,Notes", "T1,10,2026-03-30,205,", "T2,15,2026-03-28,,green mold"),
    { ending: true },
  ],
  [
    "note-unclear",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,,spot of green on day 3 but grew past it"),
    { ending: true },
  ],
  [
    "note-against-weight",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,231,green mold on 2nd flush"),
    { ending: true },
  ],
  ["note-not-understood", rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,,flibber"), { ending: true }],
  [
    "note-against-outcome",
    rows("Tray,LC ml,Fresh g,Outcome,Notes", "T1,10,205,good,", "T2,15,,good,tossed"),
    [",good,tossed", ",discarded,tossed"],
  ],
  ["weighed-with-others", rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,,weighed with T1"), { ending: true }],
  ["several-or-one", rows("Tray,LC ml,Fresh g", "1-4,10,820", "3,15,205"), ["1-4", "1-2"]],
  [
    "part-or-name",
    rows("Tray,LC ml,Fresh g", "5/6,10,1050", "6/6,15,1440", "4/6,10,840"),
    ["Tray", "Trays"],
    { files: { "columns.csv": "file,header,field,unit\na.csv,Tray,tray_id,\n" } },
  ],
  [
    "part-of-tray",
    rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,231", "T3,15,240", "T4a,15,120", "T4b,15,110"),
    ["T4a,15,120\nT4b,15,110", "T4,15,120+110"],
    [/T4b/, "T5"],
  ],
  ["answered-apart", rows("Tray,LC ml,Fresh g,Did it fruit?", "T1,10,205,yes", "T2,15,,no"), { ending: true }],
  [
    "no-start-of-name",
    { "a.csv": rows("Tray,LC ml", "T1,10", "T2,15"), "b.csv": rows("Tray,Fresh g", "x1,205", "x1,60") },
    [/x(\d)/g, "T1"],
  ],
  [
    "name-of-several-trays",
    {
      "a.csv": rows("Batch,Tray,LC ml", "A,T1,10", "B,T1,15"),
      "b.csv": rows("Tray,Fresh g", "T1,205"),
    },
    ["Tray,Fresh g\nT1", "Batch,Tray,Fresh g\nB,T1"],
  ],
  ["mark-missing", rows("Tray,LC ml,Good?,Fresh g", "T1,10,x,205", "T2,15,,"), { ending: true }],
  [
    "loss-told-elsewhere",
    { "a.csv": rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,"), "diary.csv": "Diary\n9 March: T2 went green\n" },
    { ending: true },
    ["T2,15,", "T2,15,green"],
  ],
  [
    "name-in-two-sheets",
    {
      "March.csv": rows("Tray,LC ml,Fresh g", "1,10,205", "2,15,231"),
      "April.csv": rows("Tray,LC ml,Fresh g", "1,10,", "2,15,"),
    },
    {
      files: {
        ...{ "March.csv": "", "April.csv": "" },
        "batch A.csv": rows("Tray,LC ml,Fresh g", "1,10,205", "2,15,231"),
        "batch B.csv": rows("Tray,LC ml,Fresh g", "1,10,", "2,15,"),
      },
    },
  ],
  ["relative-amount", rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,+2,231"), ["+2", "12"]],
  ["count-of-what", rows("Batch,LC ml,Came through,Fresh g", "A,5,5/6,1050", "B,10,6/6,1440"), "pins"],
  ["count-of-what", rows("Tray,LC ml,Fresh g,Count", "T1,10,205,12", "T2,15,231,9"), "pins"],
  [
    "row-void",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,231,VOID - wrong scale"),
    ["VOID - wrong scale", ""],
    { ending: true },
  ],
  [
    "marked-left-out",
    rows("Tray,LC ml,Fresh g,Exclude", "T1,10,205,", "T2,15,231,x"),
    ["231,x", "231,no"],
    ["231,x", "231,contaminated"],
    { ending: true },
    { files: { "cells.csv": "file,row,tray,column,value\na.csv,3,T2,outcome,good\n" } },
  ],
  [
    "good-and-nothing",
    rows("Tray,LC ml,Fresh g,Outcome", "T1,10,205,good", "T2,15,0,good"),
    ["0,good", "0,failed"],
    ["0,good", ",good"],
  ],
  [
    "loss-in-remark",
    rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,231", "2 trays lost to mold,,"),
    ["2 trays lost to mold,,", "T3,15,contaminated\nT4,15,contaminated"],
  ],
  [
    "weight-of-more",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,405,incl. tray", "T2,15,231,"),
    ["405,incl. tray", "205,"],
  ],
  [
    "weight-corrected-in-note",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,213,sorry meant 231", "T2,15,240,"),
    ["213,sorry meant 231", "231,"],
  ],
  [
    "corrected-by-another-note",
    rows("Tray,LC ml,Fresh g,Notes", "T1,10,120,", "T2,15,240,T1 should be 210"),
    ["10,120", "10,210"],
    ["T1 should be 210", ""],
  ],
  [
    "rows-above-names",
    rows("T1,10,213,22", "T2,15,240,25", "Tray,LC ml,Fresh g,Dry g"),
    ["T1,10,213,22\nT2,15,240,25\nTray,LC ml,Fresh g,Dry g", "Tray,LC ml,Fresh g,Dry g\nT1,10,213,22\nT2,15,240,25"],
  ],
  [
    "loss-in-pool",
    rows("Trays,LC ml,Fresh g,Notes", "A1-A6,10,1010,A6 green", "B1-B6,15,1400,"),
    ["A1-A6,10,1010,A6 green", "A1-A5,10,1010,\nA6,10,,green"],
  ],
  ["picked-in-note", rows("Tray,LC ml,Fresh g,Notes", "T1,10,205,", "T2,15,,sold"), { ending: true }],
  [
    "loss-in-other-column",
    rows("Tray,LC ml,Fresh g,Brand", "T1,10,205,Acme", "T2,10,198,Bolt", "T3,15,231,Acme", "T4,15,,tossed"),
    { ending: true },
  ],
  [
    "loss-beside-rows",
    rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,", "T2 went green,,"),
    { ending: true },
    ["T2,15,", "T2,15,green"],
  ],
  ["weight-not-known", rows("Tray,LC ml,Fresh g", "T1,10,205", "T2,15,abc"), { cell: "310 g" }, ["abc", "310 g"]],
  [
    "ending-not-read",
    rows("Tray,LC ml,Fresh wt,Harvest weight", "T1,10,205,210", "T2,15,231,240"),
    { files: { "columns.csv": "file,header,field\na.csv,Fresh wt,fresh_g\na.csv,Harvest weight,factor\n" } },
  ],
  ["growing-with-weight", and("T7,15,abc,,growing"), { cell: "230" }, ["abc,,growing", "230,,good"]],
  ["doubted-loss-with-weight", and("T7,15,200,,contam?"), { ending: true }, ["contam?", "good"]],
  ["conflict", and("T6,15,199,24,good"), [/\nT6,15,199.*/, "\nT7,15,199,24,good"], ["199,24", "240,24"]],
  [
    "weight-out-of-reach",
    rows("Tray,LC ml,Fresh oz,Dry oz", "T1,10,205,21", "T2,15,231,23", "T3,15,240,24"),
    "pins",
    ["Fresh oz,Dry oz", "Fresh g,Dry g"],
  ],
  ["fresh-over-dry", and("T7,15,230,5,good"), ["230,5", "230,25"]],
  ["weight-slip", and("T7,15,2310,23,good"), ["2310", "231"]],
  ["dry-zero", and("T7,15,230,0,good"), { cell: "23" }, ["230,0,", "230,,"]],
  ["weight-of-lost-tray", and("T7,15,230,23,contaminated"), ["contaminated", "good"]],
  [
    "flush-without-weight",
    rows("Tray,Flush,LC ml,Harvested,Fresh g,Dry g", "T1,1,10,,205,21", "T1,2,10,2026-03-01,60,", "T2,1,15,,231,23"),
    ["60,", "60,6"],
    ["60,", "60,0"],
  ],
  [
    "flush-total-disagrees",
    rows("Tray,Flush,LC ml,Fresh g", "T1,1,10,205", "T1,2,10,60", "T1,,10,300", "T2,1,15,231"),
    ["T1,,10,300", "T1,3,10,300"],
    ["T1,,10,300", "T1,,10,265"],
  ],
];

const ofBooks: Case[] = [
  [
    "unknown-sheet",
    { "a.csv": rows(trays, ...six), "b.csv": "Colour,Mood\nred,fine\nblue,low\n" },
    { files: { "settings.csv": "key,value,unit,note,sheet\nsheet_role,harvest,,,b.csv\n" } },
  ],
  [
    "no-harvest-sheet-found",
    { "a.csv": "Time,Temp C,Humidity %\n2026-01-03 08:00,22.1,88\n2026-01-03 09:00,22.4,87\n" },
    { files: { "b.csv": rows(trays, ...six) } },
  ],
  [
    "no-trays-named",
    { "a.csv": "Made on,Strain,Culture jar,Recipe,Clean?\n2026-01-02,blue,J1,malt,yes\n2026-01-02,blue,J2,malt,no\n" },
    { files: { "settings.csv": "key,value,unit,note,sheet\nsheet_role,harvest,,,a.csv\n" } },
  ],
  [
    "second-settings",
    { ...setting("currency,USD,,,"), "mine.csv": "key,value\ncurrency,USD\n" },
    { files: { "mine.csv": "" } },
  ],
  [
    "missing-column",
    { "a.csv": rows(trays, ...six), "costs.csv": "item,kind\nstraw,ingredient\n" },
    { files: { "costs.csv": rows(costs, "straw,ingredient,10,5,kg,2,kg,cook") } },
  ],
  [
    "two-columns-for-one",
    cost("straw,ingredient,10,11,5,kg,2,kg,cook", "item,kind,price,price,pack_size,pack_unit,amount,unit,per"),
    [/price,price/, "pack_price,old money"],
  ],
  [
    "currency-from-sheets",
    cost("straw,ingredient,$10,5,kg,2,kg,cook"),
    { files: { "settings.csv": "key,value\ncurrency,USD\n" } },
  ],
  [
    "two-currencies",
    { ...cost("straw,ingredient,$10,5,kg,2,kg,cook"), "settings.csv": "key,value\ncurrency,EUR\n" },
    ["currency,EUR", "currency,USD"],
    ["$10", "9.20"],
  ],
  ["setting-for-one-sheet", setting("currency,USD,,,a.csv"), ["a.csv", ""]],
  [
    "setting-range-reversed",
    setting("drying_ratio_low,20,,,", "drying_ratio_high,10,,,"),
    ["low,20", "low,5"],
    ["high,10", "high,30"],
  ],
  [
    "setting-twice",
    setting("currency,USD,,,", "currency,GBP,,,"),
    ["currency,GBP,,,\n", ""],
    ["currency,USD,,,\n", ""],
  ],
  [
    "unknown-setting",
    setting("colour of shed,red,,,"),
    ["colour of shed", "book_title"],
    ["colour of shed,red,,,\n", ""],
  ],
  ["unknown-answer", setting("date_order,sideways,,,"), ["sideways", "day first"], ["sideways", ""]],
  ["out-of-range", setting("grain_moisture,99,%,,"), ["99", "12"], ["99", ""]],
  ["unknown-field", pin("a.csv,Fresh g,heft,"), ["heft", "fresh_g"], ["a.csv,Fresh g,heft,\n", ""]],
  ["unknown-unit", pin("a.csv,Fresh g,fresh_g,parsec"), ["parsec", "g"], ["a.csv,Fresh g,fresh_g,parsec\n", ""]],
  ["pinned-twice", pin("a.csv,Fresh g,fresh_g,", "a.csv,Fresh g,dry_g,"), ["a.csv,Fresh g,dry_g,\n", ""]],
  [
    "no-such-cell",
    { "a.csv": rows(trays, ...six), "cells.csv": "file,row,tray,column,value\na.csv,99,,Fresh g,205\n" },
    ["99", "2"],
    ["99,,", "3,T2,"],
    ["a.csv,99,,Fresh g,205\n", ""],
  ],
  [
    "cell-answer-without-place",
    { "a.csv": rows(trays, ...six), "cells.csv": "file,row,tray,column,value\na.csv,x,,Fresh g,205\n" },
    [",x,", ",2,"],
  ],
  [
    "money-by-remark",
    {
      "a.csv": rows(trays, ...six),
      "costs.csv": rows("prices in cents,,,,,,,", costs, "straw,ingredient,1000,5,kg,2,kg,cook"),
    },
    [/prices in cents,*\n/, ""],
  ],
  ["not-known", cost("straw,ingredient,tbc,5,kg,2 kg,,cook"), ["tbc", "10"], [/\nstraw.*/, ""]],
  [
    "product-twice",
    product("dried pouch,dried,30,12.50,\ndried pouch,dried,30,13.50,", "product,form,grams,price,channel"),
    [/\ndried pouch,dried,30,13.50,/, ""],
    ["13.50,", "13.50,market"],
  ],
  [
    "tax-without-rate",
    product("dried pouch,dried,30,12.50,yes,", "product,form,grams,price,tax_included,tax_pct"),
    ["yes,", "yes,20 %"],
  ],
  [
    "fee-share-or-money",
    product("dried pouch,dried,30,12.50,1.20", "product,form,grams,price,fee"),
    ["1.20", "1.20 %"],
    ["price,fee", "price,fee_fixed"],
  ],
  [
    "three-decimals",
    cost("tub,consumable,1.240,1,piece,1,,cook\nbag,consumable,12.50,100,piece,1,,tray"),
    ["1.240", "1.24"],
    ["1.240", "1240"],
  ],
  ["remark-changes-price", cost("rye,ingredient,31 (for 2),25,kg,400,g,tray"), ["31 (for 2)", "15.50"]],
  [
    "note-changes-price",
    cost("rye,ingredient,31,25,kg,400,g,tray,half for the garden", `${costs},note`),
    [",half for the garden", ""],
  ],
  [
    "item-twice",
    cost("straw,ingredient,10,5,kg,2 kg,,cook\nStraw,ingredient,12,5,kg,2 kg,,cook"),
    [/\nStraw.*/, ""],
    {
      files: {
        "costs.csv": rows(
          `${costs},from_date`,
          "straw,ingredient,10,5,kg,2 kg,,cook,",
          "straw,ingredient,12,5,kg,2 kg,,cook,2026-03-01",
        ),
      },
    },
  ],
  ["missing-pack-size", cost("straw,ingredient,10,,kg,2,kg,cook"), ["10,,kg", "10,5,kg"]],
  [
    "missing-life",
    cost("tub,reusable,10,1,piece,1,piece,tray"),
    { files: { "costs.csv": rows(`${costs},life_uses`, "tub,reusable,10,1,piece,1,piece,tray,50") } },
  ],
  ["missing", cost("straw,ingredient,,5,kg,2,kg,cook"), [",,5", ",10,5"]],
  [
    "unknown-sheet",
    { "a.csv": rows(trays, ...six), "electricity.csv": "Month,kWh,Cost\nJan,80,24\n" },
    { files: { "settings.csv": "key,value,unit,note,sheet\nsheet_role,ignore,,,electricity.csv\n" } },
    { files: { "electricity.csv": "item,cost,per\nelectricity,24,month\n" } },
  ],
  [
    "price-or-amount",
    cost("labour hours,1.5,cook", "item,cost,per"),
    ["1.5,", "1.5 €,"],
    { files: { "costs.csv": rows("item,cost,amount,per", "labour hours,16,1.5,cook") } },
  ],
  ["day-of-what", cost("shelf,0.05,day", "item,cost,per"), [",day", ",shelf day"], ["0.05,day", "1.50,month"]],
  [
    "odd-amount",
    cost("bags,46,100,1,tray", "item,price,pack kg,used g,per"),
    ["100,1,", "100 pcs,1 piece,"],
    ["100,1,", "100 kg,1 g,"],
  ],
  ["unread-column", cost("straw,ingredient,10,5,kg,2,kg,cook,3", `${costs},crates`), "pins"],
  [
    "work-without-pay",
    product("slices,dried,30,12,5", "product,form,pack_g,price,minutes"),
    { files: { "settings.csv": "key,value\nowner_labour_rate,12\n" } },
    { files: { "settings.csv": "key,value\nowner_labour_rate,0\n" } },
  ],
  [
    "discount-of-what",
    product("slices,dried,30,12,10%", "product,form,pack_g,price,discount"),
    ["12,10%", "10.80,"],
    { files: { "products.csv": rows("product,form,pack_g,price,discount,moq", "slices,dried,30,12,10%,5") } },
  ],
  ["two-weights", product("Dried 30 g,dried,50,12"), ["Dried 30 g", "Dried 50 g"], ["dried,50", "dried,30"]],
  [
    "missing-made-of",
    product("box,other,,5,", "product,form,pack_g,price,made_of"),
    ["box,other,,5,", "box,other,,5,fresh"],
  ],
];

/** One broken sheet for every rule that prints a remedy, and what the remedy says. */
export const cases: Case[] = [...ofShape, ...ofColumns, ...ofCells, ...ofTrays, ...ofBooks];
