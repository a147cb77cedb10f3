import { describe, expect, test } from "vitest";
import { meaningsOfHeader } from "../../src/cleaning/columns/match-columns.ts";
import { bookOf, harvestOf, inShort, rulesOf } from "./book-of.ts";

const rows = (...lines: string[]): string => `${lines.join("\n")}\n`;
const harvest = rows(
  "Tray,LC ml,Fresh g,Result",
  "T1,5,205,good",
  "T2,5,198,good",
  "T3,10,,contaminated",
  "T4,10,231,good",
);
const four = ["T1: good 205/ @5", "T2: good 198/ @5", "T3: contaminated @10", "T4: good 231/ @10"];

// lists that growers keep beside their harvests; our own
const lists = [
  ["customers", "Name,Phone,Notes\nCafe,555 0101,2 kg a week\nMarket,555 0102,pays late\n"],
  ["cultures", "LC jar,Made on,Strain,Clean?\nJ1,2025-12-01,Blue,yes\nJ2,2025-12-20,Pearl,no\n"],
  ["tasks", "Task,Done\nclean tent,x\nsteam rice,\n"],
  ["hours", "Date,Who,Hours,What\n2026-01-03,Me,3.5,filling bags\n2026-01-04,Sam,2,inoculating\n"],
  [
    "sales",
    "Date,Customer,Product,Weight kg,Price per kg\n2026-01-31,Cafe,fresh,1.2,14\n2026-02-07,Market,fresh,2.1,16\n",
  ],
  ["account", "Date,Payee,Memo,Outflow,Inflow\n01/02/2026,Feed store,rice,18.50,\n01/05/2026,Market,,,38.00\n"],
  ["recipe", "Ingredient,Amount,Unit\nRice,500,g\nWater,650,ml\n"],
  ["prices", "Item,Price,Amount,Unit\nRice,18.5,25,kg\nLC,12,60,ml\nBags,31,100,pcs\n"],
  ["choices", "Outcome list,Strains\ngood,Blue\ncontaminated,Pearl\nfailed,\n"],
  ["remarks", "How to fill in\nOne row per tray\nWeigh at picking\nAsk if unsure\n"],
  ["means", "Dose,Trays,Contaminated,Avg fresh\n5,6,1,196.8\n10,6,1,229.8\n"],
] as const;

describe("lists of other things among the harvests give no trays", () => {
  test.each(lists)("%s", async (name, list) => {
    const book = await bookOf({ "harvests/winter.csv": harvest, [`harvests/${name}.csv`]: list });
    expect(inShort(book, true)).toEqual(four);
    expect(book.issues.some(({ file }) => file === `harvests/${name}.csv`)).toBe(true);
  });

  const costs = [
    "Item,Price,Pack size,Pack unit,Amount,Amount unit,Per",
    "Rice,30,25,kg,500,g,tray",
    "Bags,46,100,each,1,each,tray",
  ];
  const blank = costs.map(() => "");
  test.each([
    ["above", rows(...costs, "", ...harvest.trim().split("\n"))],
    ["below", rows(...harvest.trim().split("\n"), "", ...costs)],
    [
      "beside",
      rows(
        ...harvest
          .trim()
          .split("\n")
          .map((line, index) => `${line},,${costs[index] ?? blank.join(",")}`),
      ),
    ],
  ])("a list of costs %s the trays is read as costs, and no row counts as lost", async (_where, text) => {
    const book = await harvestOf(text);
    expect(inShort(book, true)).toEqual(four);
    expect(book.costLines?.map(({ item }) => item)).toEqual(["Rice", "Bags"]);
    expect(book.issues.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(book.account?.lost).toBe(0);
  });

  test("settings above the trays are settings", async () => {
    const book = await harvestOf(`key,value\ncurrency,CHF\n\n${harvest}`);
    expect(inShort(book, true)).toEqual(four);
    expect(book.settings.currency).toBe("CHF");
    expect(book.account?.lost).toBe(0);
  });

  test("prices below the trays, behind a gap and a title", async () => {
    const book = await harvestOf(`${harvest}\nCosts\nItem,Price\nRice,18.50\nLC,12.00\n`);
    expect(inShort(book, true)).toEqual(four);
    expect(book.unread).toMatchObject([
      { sheet: "costs", name: "Rice", inUse: false },
      { sheet: "costs", name: "LC", inUse: false },
    ]);
  });

  test("a list of cultures by itself is an error; pinned or stated, such a sheet is read", async () => {
    const list = lists[1][1];
    const alone = await harvestOf(list);
    expect(alone.issues.find(({ rule }) => rule === "no-trays-named")?.severity).toBe("error");
    const odd = "Thing,Squirt\nQ1,10\nQ2,15\n";
    const pinned = await bookOf({
      "harvests/a.csv": harvest,
      "harvests/b.csv": odd,
      "columns.csv": "file,header,field\nb.csv,Thing,tray_id\n",
    });
    expect(pinned.trays.length).toBe(6);
  });
});

describe("titles over rows say what they say", () => {
  test.each(["A = 4 ml,B = 8 ml", "Inoculum: 4 ml,Inoculum: 8 ml", "Cook: 1,Cook: 2"])(
    "two values of one thing in one line, %s, are given to no row",
    async (line) => {
      const book = await harvestOf(`${line}\nTray,Fresh g\nA1,200\nB1,240\n`);
      expect(inShort(book, true)).toEqual(["A1: good 200/", "B1: good 240/"]);
      expect(rulesOf(book)).toContain("no-varied-column");
    },
  );

  test.each([
    ["two things", "Cook A, 5 ml|Cook B, 10 ml", ["A 5", "B 10"]],
    ["two things, a dash between", "Batch 1 - 5 ml LC per bag|Batch 2 - 10 ml LC per bag", ["1 5", "2 10"]],
    ["between rules", "--- Batch A ---|*** Batch B ***", ["A -", "B -"]],
    ["a dose under a name of its own", "Low dose: 5 ml|High dose: 10 ml", ["- 5", "- 10"]],
    ["a dose of something", "5cc LC|10cc LC", ["- 5", "- 10"]],
  ])("%s", async (_, titles, says) => {
    const [a, b] = titles.split("|").map((title) => `"${title}",,`);
    const book = await harvestOf(
      rows("Tray,Fresh g,Result", a!, "T1,205,good", "T2,198,good", b!, "T3,231,good", "T4,226,good"),
    );
    const found = book.trays.map(({ batch, inoculumMillilitres }) => `${batch ?? "-"} ${inoculumMillilitres ?? "-"}`);
    expect(found).toEqual([says[0], says[0], says[1], says[1]]);
  });

  test("under this program's own names for the columns too", async () => {
    const book = await harvestOf(
      rows("tray_id,inoculum_ml,fresh_g,outcome", "Batch A,,,", "T1,5,205,good", "T2,10,,", "Batch B,,,", "T3,5,,"),
    );
    expect(book.trays.map(({ trayId, batch }) => `${trayId} ${batch}`)).toEqual(["T1 A", "T2 A", "T3 B"]);
  });

  test("alone in a column of its own name", async () => {
    const book = await harvestOf(
      rows("Batch,Tray,LC ml,Fresh g", "A,,,", ",T1,5,205", ",T2,10,198", "B,,,", ",T3,5,231", ",T4,10,226"),
    );
    expect(book.trays.map(({ batch }) => batch)).toEqual(["A", "A", "B", "B"]);
  });

  test.each(["|", '-"-', "dito", "j.w."])("%s stands for the cell above", async (mark) => {
    const cell = `"${mark.replaceAll('"', '""')}"`;
    const book = await harvestOf(rows("Cook,Tray,LC ml,Fresh g", "A,T1,5,205", `${cell},T2,10,198`, "B,T3,5,231"));
    expect(book.trays.map(({ batch }) => batch)).toEqual(["A", "A", "B"]);
  });

  test("picks below a tray named once are read by their days, else asked about, and the setting named is right", async () => {
    const trays = ["T1", "T2", "T3"];
    const dated = rows(
      "Tray,LC ml,Picked,Fresh g",
      ...trays.flatMap((tray) => [`${tray},5,2026-01-20,120`, ",,2026-02-21,60", ",,2026-03-22,25"]),
    );
    expect(inShort(await harvestOf(dated))).toEqual(["T1: good 205/", "T2: good 205/", "T3: good 205/"]);
    const sheet = rows(
      "Tray,LC ml,Picked,Fresh g",
      ...trays.flatMap((tray, at) => [
        `${tray},5,2026-01-20,120`,
        ",,2026-02-21,60",
        at === 1 ? ",,,25" : ",,2026-03-22,25",
      ]),
    );
    const asked = await harvestOf(sheet);
    expect(
      asked.issues.filter(({ rule, severity }) => rule === "row-without-tray" && severity === "error").length,
    ).toBe(6);
    expect(inShort(await harvestOf(sheet, "fill_down,yes"))).toEqual([
      "T1: good 205/",
      // a pick without its day may be anything
      "T2: asked",
      "T3: good 205/",
    ]);
  });
});

describe("no column of weights is known, and one looks like weights", () => {
  const sheet = (name: string): string =>
    rows(`Tray,LC ml,${name},Result`, "T1,5,205,good", "T2,5,198,good", "T3,10,,contaminated", "T4,10,231,good");

  test("is an error, ended by the line that it names", async () => {
    const book = await harvestOf(sheet("Frw"));
    const said = book.issues.find(({ rule }) => rule === "no-weight-column")!;
    expect(said.severity).toBe("error");
    expect(said.action).toContain("one.csv,Frw,fresh_g");
    for (const field of ["fresh_g", "factor"]) {
      const pins = `file,header,field\none.csv,Frw,${field}\n`;
      const settled = await bookOf({ "harvests/one.csv": sheet("Frw"), "columns.csv": pins });
      expect(rulesOf(settled)).not.toContain("no-weight-column");
    }
  });

  test.each(["FreshWeightG", "1st", "Masa świeża w gramach", "Peso fresco em gramas", "FW"])("%s", async (name) => {
    const two =
      name === "1st"
        ? sheet(name).replace("1st", "1st,2nd").replaceAll(",good", ",0,good").replace(",,", ",,,")
        : sheet(name);
    expect(inShort(await harvestOf(two), true)).toEqual(four);
  });
});

describe("headers as forms ask them, and as they are typed", () => {
  // our own questions in the eight languages
  test.each([
    ["How many ml of LC did you inject?", "inoculum_ml", "mL"],
    ["Wie viel ml Flüssigkultur?", "inoculum_ml", "mL"],
    ["Combien de ml de culture liquide ?", "inoculum_ml", "mL"],
    ["¿Cuántos ml de cultivo líquido?", "inoculum_ml", ""],
    ["Quanti ml di coltura liquida?", "inoculum_ml", ""],
    ["Hoeveel ml vloeibare cultuur?", "inoculum_ml", "mL"],
    ["Ile ml płynnej kultury?", "inoculum_ml", "mL"],
    ["Quantos ml de cultura líquida?", "inoculum_ml", ""],
    ["cc/bag", "inoculum_ml", "mL"],
    ["mL LC / bag", "inoculum_ml", "mL"],
    ["g fresh / bag", "fresh_g", "g"],
    ["Grams of spawn", "spawn_g", "g"],
    ["Brutmenge %", "spawn_pct", "%"],
    ["Impfmenge / dose (ml)", "inoculum_ml", "mL"],
    ["Syringes (10 ml)", "inoculum_ml", "syringe"],
    ["HarvestDate", "harvested_on", ""],
    ["'Fresh g'", "fresh_g", "g"],
  ])("%s", (header, field, unit) => {
    expect(meaningsOfHeader(header)[0]).toMatchObject({ field, unit });
  });

  test("syringes have no size of their own, and half a per cent is the least of spawn", async () => {
    const syringes = await harvestOf(rows("Tray,Syringes,Fresh g", "T1,2,205", "T2,3,231"));
    expect(inShort(syringes, true)).toEqual(["T1: good 205/", "T2: good 231/"]);
    expect(rulesOf(syringes)).toContain("syringe-size");
    const shares = await harvestOf(rows("Tray,Spawn %,Fresh g", "T1,0.05,205", "T2,0.1,231"));
    expect(shares.trays.map(({ spawnShare }) => spawnShare)).toEqual([undefined, undefined]);
  });

  test("marks that keep a name as text, an example and a count of losses", async () => {
    const sheet = rows("Tray,LC ml,Fresh g", "e.g. T0,10,250", `"=""T1""",5,205`, "'T2,10,231");
    expect(inShort(await harvestOf(sheet))).toEqual(["T1: good 205/", "T2: good 231/"]);
    const pools = await harvestOf(
      rows("Batch,Dose ml,Trays,Lost,Fresh g", "A,5,3,1,403", "B,10,3,0,697", "C,5,4,0,700"),
    );
    expect(pools.trays.map(({ outcome }) => outcome)).toEqual(["good", "discarded", "good", "good"]);
  });

  test("o.B. (ohne Befund) is no yes", async () => {
    const book = await harvestOf("Schale;FK ml;Frisch g;Konti\nT1;5;205;o.B.\nT2;10;231;ja\n");
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["good", "contaminated"]);
  });
});
