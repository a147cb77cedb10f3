import { describe, expect, test } from "vitest";
import type { Answer, AnsweredQuestion } from "../../src/analysis.ts";
import { markStep } from "../../src/live/mark-steps.ts";
import { EditStorage } from "../../src/live/model/edit-storage.ts";
import { withoutDoubt } from "../../src/live/model/edited-sheet.ts";
import { type Edits, type LiveColumn, noEdits } from "../../src/live/model/live-sheet.ts";
import { packRecords, unpackRecords } from "../../src/live/model/packed-records.ts";
import { savedBook } from "../../src/live/model/saved-book.ts";
import { blockText, cellsOfBlock } from "../../src/live/sheet/block-text.ts";
import { passes, rowsInView } from "../../src/live/sheet/rows-in-view.ts";
import { shownCell } from "../../src/live/sheet/shown-cell.ts";
import { AnswerAgain } from "../../src/live/worker/answer-again.ts";
import { DrawingsAgain } from "../../src/live/worker/drawings-again.ts";
import type { Book } from "../../src/records/book.ts";
import { contentName } from "../../src/records/content-name.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { requireInert } from "../../src/report/live-scripts.tsx";
import { bookInFolder } from "./book-in-folder.ts";

test("records by column come back, texts that repeat stand once", () => {
  const records = [{ a: "x", n: 1 }, { a: "x" }, { a: "y", n: 3 }, { a: "x", deep: { __proto: [1, "2"] } }, { a: "x" }];
  expect(unpackRecords(packRecords(records))).toEqual(records);
  expect(JSON.stringify(packRecords(records)).match(/"x"/g)!.length).toBe(1);
  expect(unpackRecords(packRecords([]))).toEqual([]);
});

describe("a block of cells", () => {
  // tabs, line breaks and doubled quotation marks, as spreadsheet programs put them on the clipboard (from memory)
  test.each([
    [
      "1\t2\r\n3\t4\r\n",
      [
        ["1", "2"],
        ["3", "4"],
      ],
    ],
    ['"two\nlines"\t"say ""hi"""', [["two\nlines", 'say "hi"']]],
    ["one", [["one"]]],
    ["a,b\tc;d", [["a,b", "c;d"]]],
  ])("%j", (text, cells) => {
    expect(cellsOfBlock(text)).toEqual(cells);
  });

  test("what is copied is pasted alike, formulas guarded on the way", () => {
    const cells = [
      ["=1+1", "-5", "two\nlines"],
      ["'=x", 'a "b"', ""],
    ];
    expect(blockText([["=1+1"]])).toBe("'=1+1");
    expect(cellsOfBlock(blockText(cells))).toEqual(cells);
  });
});

test.each([
  ["12", "> 5", true],
  ["12", "<5", false],
  ["7.5", "5 to 10", true],
  ["", "empty", true],
  ["", "> 0", false],
  ["Coarse hulls", "coarse", true],
  ["anything", " ", true],
])("cell %j passes %j: %s", (cell, filter, isIn) => {
  expect(passes(cell, filter)).toBe(isIn);
});

test("rows sorted by number with empty cells last either way, equal ones as in the sheet", () => {
  const cells = ["10", "", "9", "10", "-1"];
  const sorted = (isDown: boolean) =>
    rowsInView(
      5,
      (row) => cells[row]!,
      { sort: { column: 0, isDown }, filters: new Map() },
      () => true,
    );
  expect(sorted(false)).toEqual([4, 2, 0, 3, 1]);
  expect(sorted(true)).toEqual([0, 3, 2, 4, 1]);
});

test("cells are shown in the book's number format and keep what is no number", () => {
  const column = { key: "x", label: "X", unit: "", isNumber: true };
  const settings = { ...defaultSettings, locale: "de-DE" };
  expect(shownCell("25000.5", column, settings)).toBe("25.000,5");
  expect(shownCell("6.5 %", column, settings)).toBe("6,5 %");
  expect(shownCell("0.03333333333333333", column, settings)).toBe("0,033333");
  expect(shownCell("10 to 12", column, settings)).toBe("10 to 12");
  expect(shownCell("20261", { ...column, isNumber: false }, settings)).toBe("20261");
});

test("numbers of ours leave no doubt about their decimal mark", () => {
  expect(withoutDoubt("1.125", { decimalMark: "" })).toBe("1.1250");
  expect(withoutDoubt("12.5 %", { decimalMark: "comma" })).toBe("12,5 %");
  expect(withoutDoubt("rye 1.5", { decimalMark: "comma" })).toBe("rye 1.5");
});

describe("changes that outlast a reload", () => {
  const storage = (): Storage => {
    const kept = new Map<string, string>();
    return {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
      removeItem: (key: string) => void kept.delete(key),
      clear: () => kept.clear(),
      key: () => null,
      length: 0,
    };
  };
  const edits: Edits = {
    added: { trays: 2 },
    deleted: [{ sheet: "costs", row: 1 }],
    cells: [{ sheet: "costs", row: 0, column: 2, text: "40" }],
    aside: [{ tray: "T1", reason: "spilled" }],
  };

  const row = ["a", "b", "c", "d", "e", "f", "g", "h"];
  const sheet = { rows: Array.from({ length: 200 }, () => row), columns: row.map((key) => ({ key }) as LiveColumn) };
  const sheets = { costs: sheet, products: sheet, settings: sheet, trays: sheet };
  const keptOf = (book: string, shared: Storage) => new EditStorage(book, () => shared, sheets);

  test("belong to one content", () => {
    const shared = storage();
    keptOf("one book", shared).write(edits);
    expect(keptOf("one book", shared).read()).toEqual({ edits, dropped: 0 });
    expect(keptOf("another book", shared).read()).toEqual({ edits: noEdits, dropped: 0 });
    expect(contentName("one book")).not.toBe(contentName("one bool"));
  });

  test.each([
    ['{"cells":[{"sheet":"__proto__","row":0}],"aside":[3]}', 2],
    ['{"cells":[{"sheet":"trays","row":1e9,"column":0,"text":""},{"sheet":"costs","row":0,"column":99,"text":""}]}', 2],
    ['{"added":{"trays":1e9,"settings":1,"x":2},"deleted":[null,{"sheet":"settings","row":0}]}', 5],
    ['{"cells":"none","aside":{}}', 2],
    ["not JSON", 1],
    ["null", 1],
  ])("are dropped, and counted, where they are not what was written: %s", (text, dropped) => {
    const shared = storage();
    shared.setItem(`gramwright-live-${contentName("book")}`, text);
    expect(keptOf("book", shared).read()).toEqual({ edits: noEdits, dropped });
  });

  test("that are sound stay where others beside them are broken", () => {
    const shared = storage();
    const cells = [...edits.cells, { sheet: "costs", row: 0, column: 2 }];
    shared.setItem(`gramwright-live-${contentName("book")}`, JSON.stringify({ ...edits, cells }));
    expect(keptOf("book", shared).read()).toEqual({ edits, dropped: 1 });
  });

  test("say why they are not kept", () => {
    const kept = new EditStorage(
      "book",
      () => {
        throw new Error("quota");
      },
      sheets,
    );
    kept.write(edits);
    expect(kept.trouble).toContain("quota");
    expect(kept.read().edits).toEqual(noEdits);
  });
});

test("an answer is worked out again only where something it looks at has changed", async () => {
  const book = await bookInFolder("data-samples/demo-book");
  const again = new AnswerAgain(savedBook({ ...book, trays: book.trays.slice(0, 24) }));
  const price: Edits = { ...noEdits, cells: [{ sheet: "costs", row: 0, column: 2, text: "155" }] };
  const yieldBefore = again.ask("do-trials-agree", noEdits);
  expect(again.ask("do-trials-agree", price)).toBe(yieldBefore);
  const askBefore = again.ask("what-price-to-ask", noEdits);
  const askAfter = again.ask("what-price-to-ask", price);
  expect(askAfter.answer.outcome).not.toEqual(askBefore.answer.outcome);
  // undone: the very answer from before
  expect(again.ask("what-price-to-ask", { ...noEdits })).toBe(askBefore);
  const aside: Edits = { ...noEdits, aside: [{ tray: book.trays[0]!.trayId, reason: "dropped" }] };
  expect(again.ask("do-trials-agree", aside)).not.toBe(yieldBefore);
  const without: Edits = { ...noEdits, deleted: [{ sheet: "trays", row: 0 }] };
  expect(again.ask("do-trials-agree", without)).not.toBe(yieldBefore);
  const dropped: Edits = { ...noEdits, deleted: [{ sheet: "costs", row: 0 }] };
  expect(again.ask("do-trials-agree", dropped)).toBe(yieldBefore);
  expect(again.ask("what-price-to-ask", dropped).answer.outcome).not.toEqual(askBefore.answer.outcome);
});

describe("steps between the marks of a chart", () => {
  const marks = [
    { tray: "c", x: 104, y: 20 },
    { tray: "a", x: 10, y: 50 },
    { tray: "b", x: 14, y: 10 },
    { tray: "d", x: 100, y: 60 },
    { tray: "e", x: 200, y: 15 },
  ];
  const from = (tray: string) => marks.find((mark) => mark.tray === tray);

  // two columns of two, one of one: b over a, c over d, e
  test.each([
    ["b", "ArrowDown", "a"],
    ["a", "ArrowDown", "a"],
    ["a", "ArrowUp", "b"],
    ["a", "ArrowRight", "d"],
    ["b", "ArrowRight", "c"],
    ["d", "ArrowRight", "e"],
    ["e", "ArrowRight", "e"],
    ["e", "ArrowLeft", "c"],
    ["d", "Home", "a"],
    ["a", "End", "e"],
    ["a", "x", undefined],
  ])("from %s by %s to %s", (tray, key, to) => {
    expect(markStep(marks, from(tray), key)?.tray).toBe(to);
  });

  test("starts at the top of the first column; nowhere without marks", () => {
    expect(markStep(marks, undefined, "Home")?.tray).toBe("b");
    expect(markStep([], undefined, "ArrowUp")).toBeUndefined();
  });
});

test("a chart that says the same is not drawn again; one that says something else is", async () => {
  const answer = (value: number, id = "q"): AnsweredQuestion => ({
    ...{ id, name: "Cost", question: "Cost?", assumes: [], topic: "money", headline: false },
    outcome: {
      ...{ kind: "answer", sentence: [], certainty: "measured", estimates: [], tables: [], excluded: [] },
      ...{ method: [], caveats: [] },
      charts: [
        {
          kind: "breakdown",
          title: "Cost",
          description: "",
          unit: "money",
          valueLabel: "cost",
          parts: [
            { label: "grain", value },
            { label: "bag", value: 2 },
          ],
        },
      ],
    } as Answer,
  });
  const book = { settings: defaultSettings, trays: [] } as unknown as Book;
  const drawings = new DrawingsAgain(new Set(["full"]));
  const first = await drawings.draw(answer(1), book);
  expect(first?.wide).toBeUndefined();
  expect(await drawings.draw(answer(4), book)).not.toBe(first);
  expect(await drawings.draw(answer(1), book)).toBe(first);
  const dollars = { ...book, settings: { ...defaultSettings, currency: "USD" } };
  expect(await drawings.draw(answer(1), dollars)).not.toBe(first);
  expect((await drawings.draw(answer(1, "full"), book))?.wide?.kind).toBe("drawn");
});

test.each([
  ["script", { script: "a</script>b", data: "{}" }],
  ["data", { script: "", data: "<b>" }],
  ["styles", { script: "", data: "{}", styles: "a<b" }],
  ["program", { script: "", data: "{}", program: "<b>" }],
  ["programHash", { script: "", data: "{}", programHash: "sha256-x' 'unsafe-inline" }],
])("a live part that could leave its place is refused: %s", (part, live) => {
  expect(() => requireInert(live)).toThrow(new RegExp(`live\\.${part}`));
});
