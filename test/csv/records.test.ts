import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { readRecords } from "../../src/csv/text/read-records.ts";
import { writeCsv } from "../../src/csv/write-csv.ts";

function read(text: string, size: number, options: { delimiter?: string; width?: number; stretch?: number } = {}) {
  const pieces: string[] = [];
  for (let at = 0; at < text.length; at += size) pieces.push(text.slice(at, at + size));
  const rows: string[][] = [];
  const marked: number[] = [];
  readRecords(pieces, { delimiter: ",", stretch: size, ...options }, (cells, row, unclosed) => {
    expect(row).toBe(rows.length + 1);
    rows.push(cells);
    if (unclosed) marked.push(row);
    return true;
  });
  return { rows, marked };
}

test.each([
  [
    "CRLF, quotes, doubled quotes (RFC 4180, section 2, rules 1 to 7)",
    'aaa,"b ""b""",ccc\r\nzzz,"y,y",xxx\r\n',
    [
      ["aaa", 'b "b"', "ccc"],
      ["zzz", "y,y", "xxx"],
    ],
  ],
  [
    "line break inside quotes is one row",
    '"b\r\nbb",ccc\r\nx,y',
    [
      ["b\r\nbb", "ccc"],
      ["x", "y"],
    ],
  ],
  [
    "CR alone",
    "a,b\rc,d\r",
    [
      ["a", "b"],
      ["c", "d"],
    ],
  ],
  ["mixed line ends", "a\r\nb\rc\nd", [["a"], ["b"], ["c"], ["d"]]],
  ["blank lines count", "a\n\nb\n", [["a"], [""], ["b"]]],
  ["a quote inside a cell is a character", 'a 6" bag,b\n', [['a 6" bag', "b"]]],
  [
    "last row without a line end",
    "a,b\nc,",
    [
      ["a", "b"],
      ["c", ""],
    ],
  ],
  ["spaces after a closing quote", '"a" ,b\n', [["a", "b"]]],
])("records: %s", (_, text, expected) => {
  for (const size of [1, 2, 3, 5, 1000]) expect(read(text, size).rows).toEqual(expected);
});

test.each([
  [
    'a,b\n1,"2,3\n4,5\n',
    2,
    [
      ["a", "b"],
      ["1", '"2', "3"],
      ["4", "5"],
    ],
    [2],
  ],
  [
    'a,b\n1,"6 inch\n4,5\n6,"x"\n',
    2,
    [
      ["a", "b"],
      ["1", '"6 inch'],
      ["4", "5"],
      ["6", "x"],
    ],
    [2],
  ],
  [
    'a,b\n"6 in,1\n"7 in",2\n3,4\n',
    2,
    [
      ["a", "b"],
      ['"6 in', "1"],
      ["7 in", "2"],
      ["3", "4"],
    ],
    [2],
  ],
  [
    'a,b\n1,"open',
    2,
    [
      ["a", "b"],
      ["1", '"open'],
    ],
    [2],
  ],
  // an unescaped quote inside a cell of two lines that makes a whole row is not an open one
  [
    'a,b\n"he said "yes" once\nand left",x\n3,4\n',
    2,
    [
      ["a", "b"],
      ['he said "yes" once\nand left', "x"],
      ["3", "4"],
    ],
    [],
  ],
])("a quote that is never closed costs no row: %j", (text, width, expected, expectedMarks) => {
  for (const size of [3, 7, 1000]) {
    const { rows, marked } = read(text, size, { width });
    expect(rows).toEqual(expected);
    expect(marked).toEqual(expectedMarks);
  }
});

test("a quote open over 300,000 characters is given up, wherever the stretches end", () => {
  const lines = Array.from({ length: 30_000 }, (_, index) => `${index},value ${index}`);
  lines[10] = '10,"never closed';
  for (const size of [50_000, 400_000]) {
    const { rows, marked } = read(`${lines.join("\n")}\n`, size, { width: 2 });
    expect(rows.length).toBe(30_000);
    expect(marked).toEqual([11]);
    expect(rows[29_999]).toEqual(["29999", "value 29999"]);
  }
});

test("a file whose cells all start with an open quote is still read row by row, in time", () => {
  const text = Array.from({ length: 20_000 }, (_, index) => `a${index},"6 in bag ${index}`).join("\n");
  const { rows } = read(text, 1 << 16, { width: 2 });
  expect(rows.length).toBe(20_000);
});

test("one line of 8 million characters ends", () => {
  const { rows } = read("a,b,".repeat(2_000_000), 1 << 16);
  expect(rows.length).toBe(1);
  expect(rows[0]!.length).toBe(4_000_001);
});

test("40,000 generated rows in small chunks are what one-shot papaparse makes of them", () => {
  let seed = 42;
  const random = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  const cells = ["", "12.5", '"a, b"', '"say ""x"""', '"two\nlines"', "é µ €", "T-1", '""', "x y", "lion's mane"];
  const lines: string[] = [];
  for (let row = 0; row < 40_000; row++) {
    lines.push(Array.from({ length: 5 }, () => cells[Math.floor(random() * cells.length)]).join(","));
  }
  const text = lines.join("\n");
  const reference = Papa.parse<string[]>(text, { delimiter: ",", newline: "\n" }).data;
  for (const size of [777, 65_536]) {
    let row = 0;
    let different = 0;
    const pieces = function* () {
      for (let at = 0; at < text.length; at += size) yield text.slice(at, at + size);
    };
    readRecords(pieces(), { delimiter: ",", width: 5, stretch: size }, (found) => {
      const expected = reference[row++]!;
      if (found.length !== expected.length || found.some((cell, index) => cell !== expected[index])) different++;
      return true;
    });
    expect(row).toBe(reference.length);
    expect(different).toBe(0);
  }
});

const cell = fc.oneof(
  fc.string({ maxLength: 8 }),
  fc.string({
    unit: fc.constantFrom('"', ",", "\n", "\r", "'", "=", "-", ";", "\t", "a", "1", "@", " "),
    maxLength: 6,
  }),
  fc.constantFrom("=1+1", "'=x", "''-x", "-5", "+3.2", "-1e5", "-x", "@a", "\t=", "\r\nx", "＝1", "'", '"', "-1,5"),
);

test("what is written is read back cell for cell, and written again the same", () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 8 }),
      fc.boolean(),
      fc.constantFrom("\n" as const, "\r\n" as const),
      fc.integer({ min: 1, max: 40 }),
      (rows, guard, newline, size) => {
        const oneBreak = rows.map((row) => row.map((text) => text.replace(/\r\n?/g, "\n")));
        const written = writeCsv(rows, { guard, newline });
        const back = read(written, size).rows;
        if (guard) expect(back).toEqual(oneBreak);
        expect(writeCsv(back, { guard, newline })).toBe(guard ? written : writeCsv(back, { guard, newline }));
      },
    ),
  );
});

test("cells a spreadsheet would run are guarded, numbers are not", () => {
  const written = (text: string) => writeCsv([[text]], { guard: true, newline: "\n" }).slice(0, -1);
  expect(["=1+1", "+cmd", "-2+3", "@SUM(A1)", "＝1"].map(written)).toEqual([
    "'=1+1",
    "'+cmd",
    "'-2+3",
    "'@SUM(A1)",
    "'＝1",
  ]);
  expect(["-5", "+3.2", "-1e5", "-0.5", "12", "a=b"].map(written)).toEqual(["-5", "+3.2", "-1e5", "-0.5", "12", "a=b"]);
  expect(written("\t=1")).toBe("\"'\t'=1\"");
  expect(written("\rx")).toBe('"\'\nx"');
  expect(writeCsv([["=1"]], { guard: false, newline: "\n" })).toBe("=1\n");
  expect(
    writeCsv(
      [
        ["a", "b"],
        ["1,5", "=x"],
      ],
      { guard: true, newline: "\n" },
    ),
  ).toBe('a,b\n"1,5",\'=x\n');
});
